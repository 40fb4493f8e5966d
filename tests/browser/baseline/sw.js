// Keeps the whole of it at the first visit, and answers from that.

const FILES = ['/', '/app.js', '/store.js', '/screens.js', '/preact.mjs', '/hooks.mjs', '/styles.css', '/shop.json'];

self.addEventListener('install', (event) => event.waitUntil(caches.open('it').then((cache) => cache.addAll(FILES))));
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const kept = () => caches.match(request.mode === 'navigate' ? '/' : request, { ignoreSearch: true });
  event.respondWith(kept().then((answer) => answer ?? fetch(request)));
});
