// What the hub calls out to this phone while nobody looks at it: shown by the service worker, in the phone's language.
//
// A push says what and when, and no name; the words are here, in `SAID`. Every push shows something, because a browser that
// shows nothing for one takes the permission away, and decides nothing: when a call is due is the hub's to say.

// Where start.js leaves the language that was chosen.
const LEFT = 'phone';
const LANGUAGE = '/language';

// Which words each call is said in, and what a touch of it opens. What is this phone's own bell takes the place of the
// notice that the page itself may have shown of it.
const OWN = 'bell';
const CALLS = {
  first_bell: { says: 'bell-first', opens: '/bench', tag: OWN },
  sweep_bell: { says: 'bell-sweep', opens: '/sweep', tag: OWN },
  last_bell: { says: 'bell-last', opens: '/sweep', tag: OWN },
  last_spark: { says: 'bell-last-spark', opens: '/bench', tag: OWN },
  watch_over: { says: 'call-watch-over', opens: '/sweep', tag: OWN },
  not_sweeping: { says: 'call-not-sweeping', opens: '/room' },
  not_out: { says: 'call-not-out', opens: '/room' },
  long_past: { says: 'call-long-past', opens: '/room' },
  clear: { says: 'bell-clear', opens: '/room' },
  try: { says: 'call-try', opens: '/bench' },
  watch_cut_short: { says: 'call-watch-cut-short', opens: '/room' },
};
// What a newer hub says, or what cannot be read.
const UNKNOWN = { says: 'call-unknown', opens: '/' };

self.addEventListener('push', (event) => event.waitUntil(say(read(event.data))));

function read(data) {
  try {
    const told = data?.json();
    return typeof told === 'object' && told !== null ? told : {};
  } catch {
    return {};
  }
}

async function say(told) {
  const call = Object.hasOwn(CALLS, told.what) ? CALLS[told.what] : UNKNOWN;
  const [words, windows] = await Promise.all([spoken(), self.clients.matchAll({ type: 'window', includeUncontrolled: true })]);
  const late = told.late_minutes >= 1 ? ` ${counted(words, 'call-late', told.late_minutes)}` : '';
  // A page that is seen rings by itself; one noise is enough.
  const seen = windows.some((client) => client.visibilityState === 'visible');
  await self.registration.showNotification(words.said[call.says], {
    body: words.said[`${call.says}-next`] + late,
    tag: call.tag ?? (typeof told.tag === 'string' ? told.tag : OWN),
    renotify: true,
    requireInteraction: true,
    silent: seen,
    lang: words.language,
    icon: '/icons/sweepbell-192.png',
    ...(Number.isFinite(told.at) && { timestamp: told.at }),
    data: { path: call.opens },
  });
  // A page that sleeps looks at its own bells, and at what others said.
  for (const client of windows) client.postMessage('sync');
}

async function spoken() {
  const kept = await caches.open(LEFT).then((left) => left.match(LANGUAGE)).catch(() => undefined);
  const chosen = (await kept?.text())?.split('-')[0] ?? '';
  const own = (self.navigator.language ?? '').split('-')[0];
  const language = [chosen, own, 'en'].find((tag) => Object.hasOwn(self.SAID, tag));
  return { language, said: self.SAID[language] };
}

function counted({ language, said }, id, count) {
  const forms = said[id];
  const text = forms[count] ?? forms[new Intl.PluralRules(language).select(count)] ?? forms.other;
  return text.replace(/\{ \$\w+ \}/, count);
}

self.addEventListener('notificationclick', (event) => {
  event.notification.close();
  event.waitUntil(showApp(event.notification.data?.path));
});

// Brings an open window forward, or opens one. A path of another site is never followed.
async function showApp(path) {
  const wanted = new URL(typeof path === 'string' ? path : '/', self.location.origin);
  const target = wanted.origin === self.location.origin ? wanted.href : self.location.origin;
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  const open = windows.find((client) => client.visibilityState === 'visible') ?? windows[0];
  if (!open) return self.clients.openWindow(target);
  if (path) open.postMessage({ show: wanted.pathname + wanted.search + wanted.hash });
  return open.focus();
}

// The push service gave the phone another address. The hub is told at once if the phone's session with it still holds, and
// else by the app, which looks at each start (later_push.js).
self.addEventListener('pushsubscriptionchange', (event) => event.waitUntil(renew(event)));

async function renew({ oldSubscription, newSubscription }) {
  const applicationServerKey = oldSubscription?.options.applicationServerKey;
  const again = () => self.registration.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey });
  const subscription = newSubscription ?? (applicationServerKey && (await again()));
  if (!subscription) return;
  const body = JSON.stringify({ subscription });
  await fetch('/api/push', { method: 'POST', headers: { 'content-type': 'application/json' }, body });
}
