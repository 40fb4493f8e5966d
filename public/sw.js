// The service worker: keeps one whole build on the phone, and answers from it.
//
// The build fills in the two marks below. One cache per build, so that a module never meets another build's glue.
// It never answers for the hub's API, never takes over from a running version unasked (the app asks when no session
// is open), and throws old builds away only once it is in charge.

const BUILD = '{{build}}';
const FILES = JSON.parse('{{files}}');
const CACHE = `build-${BUILD}`;
const PAGE = '/index.html';
const API = '/api/';

// What the hub pushes, and what it is called in each language.
importScripts('/later_words.js', '/later_calls.js');

// The log on the phone, as app/src/shell/journal keeps it.
const DATABASE = 'sweepbell';
const STORE = 'log';
// The most that one question may carry; shared-core/src/sync/message.rs says why.
const ENTRIES_MAX = 200;
const ENTRY_BYTES_MAX = 256 * 1024;

self.addEventListener('install', (event) => {
  // What is named by its content may be the copy that the page has just got. Of anything else the hub itself is asked: a
  // copy that the browser kept may be of another build.
  const requests = FILES.map((path) => new Request(path, { cache: path.startsWith('/assets/') ? 'default' : 'reload' }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(requests)));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOldBuilds().then(() => self.clients.claim()));
});

async function dropOldBuilds() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith('build-') && name !== CACHE).map((name) => caches.delete(name)));
}

self.addEventListener('message', (event) => {
  if (event.data === 'take_over') event.waitUntil(self.skipWaiting());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const ours = request.method === 'GET' && url.origin === self.location.origin && !url.pathname.startsWith(API);
  if (ours) event.respondWith(answer(request));
});

async function answer(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request.mode === 'navigate' ? PAGE : request, { ignoreSearch: true });
  return kept ?? fetch(request);
}

self.addEventListener('sync', (event) => {
  if (event.tag === 'log') event.waitUntil(syncLog());
});

// An open app syncs by itself, with all that it knows. Only when there is none are waiting entries sent from here;
// the app marks them as sent when it next hears from the hub, which takes every entry twice without harm.
// A failure is thrown, so that the browser tries again later.
async function syncLog() {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (windows.length > 0) {
    for (const client of windows) client.postMessage('sync');
    return;
  }
  for (const entries of inQuestions(await waitingEntries())) await push(entries);
}

// Splits entries, in their order, so that each part fits one question.
function inQuestions(entries) {
  const questions = [];
  let bytes = 0;
  for (const entry of entries) {
    const last = questions.at(-1);
    if (last && last.length < ENTRIES_MAX && bytes + entry.length <= ENTRY_BYTES_MAX) {
      last.push(entry);
      bytes += entry.length;
    } else {
      questions.push([entry]);
      bytes = entry.length;
    }
  }
  return questions;
}

async function push(entries) {
  const body = JSON.stringify({ protocol: 1, push: entries, lost: [], since: 0 });
  const answer = await fetch('/api/sync', { method: 'POST', headers: { 'content-type': 'application/json' }, body });
  if (!answer.ok) throw new Error(`the hub answered ${answer.status}`);
}

async function waitingEntries() {
  const database = await openDatabase();
  if (!database) return [];
  try {
    const records = await done(database.transaction(STORE, 'readonly').objectStore(STORE).getAll());
    return records.filter((record) => record.state === 'waiting').map((record) => record.jws);
  } finally {
    database.close();
  }
}

// The app's database as it is. It is never made or upgraded here: that would leave the app with an empty one.
async function openDatabase() {
  const known = (await indexedDB.databases?.()) ?? [];
  if (!known.some((database) => database.name === DATABASE)) return null;
  const database = await done(indexedDB.open(DATABASE));
  if (database.objectStoreNames.contains(STORE)) return database;
  database.close();
  return null;
}

function done(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('the database is being changed'));
  });
}
