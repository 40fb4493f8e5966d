// Starts the app. A file of its own, because the content policy allows no script inside the page.
// It must never leave a blank page: what went wrong is said in words, with the way on.
// Chooses the language, before there is any Rust: the one that was picked in Book, else the first of the phone's own
// that is spoken here, else English. The app finds its words in `sweepbellWords`.

import { CATALOGUES, PAGE } from '/words.js';

// What Book keeps, as the app writes it: app/src/shell/prefs.rs.
const PICKED = 'sweepbell.language';

function language() {
  const spoken = navigator.languages.map((tag) => tag.toLowerCase().split('-')[0]);
  const picked = localStorage.getItem(PICKED)?.replaceAll('"', '');
  return [picked, ...spoken, 'en'].find((tag) => CATALOGUES[tag]);
}

function say(told) {
  for (const [id, text] of Object.entries(PAGE[told] ?? {})) {
    const line = document.getElementById(id);
    if (line) line.textContent = text;
  }
}

try {
  const chosen = language();
  say(chosen);
  // The service worker speaks it too; it sees nothing of the page's small store.
  self.caches?.open('phone').then((left) => left.put('/language', new Response(chosen)));
  const words = fetch(CATALOGUES[chosen]).then((answer) => answer.text());
  const [{ default: init, later }, text] = await Promise.all([import('/app.js'), words]);
  // The catalogue's first line says whose words they are and which way they are written.
  [document.documentElement.lang, document.documentElement.dir] = text.split('\n', 1)[0].split(' ');
  globalThis.sweepbellWords = text;
  globalThis.sweepbellLater = later;
  await init({ module_or_path: '/app_bg.wasm' });
} catch (why) {
  console.error(why);
  const failed = document.getElementById('failed');
  if (failed) failed.hidden = false;
}
