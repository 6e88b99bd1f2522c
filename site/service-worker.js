// Keeps exactly the files of one build, so that the app works without a network after one visit.
// `finish.mjs` puts VERSION and FILES in front of this text. A new build has another version: it is
// fetched in the background, and takes over only when the person says so.
const CACHE = `hearthplan-${VERSION}`;

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches.open(CACHE).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })))),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      const names = await caches.keys();
      const old = names.filter((name) => name.startsWith('hearthplan-') && name !== CACHE);
      await Promise.all(old.map((name) => caches.delete(name)));
      await self.clients.claim();
    })(),
  );
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  event.respondWith(
    (async () => {
      const cache = await caches.open(CACHE);
      const kept = await cache.match(request.mode === 'navigate' ? './' : request, { ignoreSearch: true });
      return kept ?? fetch(request);
    })(),
  );
});
