/*
 * Keeps the program on this computer, so that the logbook opens with the server stopped. The build writes `version` and
 * `files` in front of this text. A version is kept whole or not at all, is never mixed with another, and never takes over
 * by itself: the page says when.
 */
const home = new URL('./', self.location.href);
/** Another logbook may be served from a folder beside this one. */
const prefix = `diffusion-qc-logbook ${home.pathname} `;
const own = prefix + version;

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('message', ({ data }) => {
  if (data === 'take over') self.skipWaiting();
});

/** Each file is held to its hash: while a server is being brought up to date it may give files of two versions. */
async function keepAll() {
  const cache = await caches.open(own);
  try {
    await cache.addAll(files.map(([path, integrity]) => new Request(path, { cache: 'no-cache', integrity })));
  } catch (error) {
    await caches.delete(own);
    throw error;
  }
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== home.origin) return;
  if (request.mode !== 'navigate') {
    event.respondWith(kept(request));
  } else if (pathname === home.pathname || pathname === `${home.pathname}index.html`) {
    event.waitUntil(tidyUp());
    event.respondWith(kept(new Request(home)));
  }
});

/** This version's own file; else that of a former version, which another window may still run; else the server's. */
async function kept(request) {
  const cache = await caches.open(own);
  const look = { ignoreVary: true };
  return (await cache.match(request, look)) ?? (await caches.match(request, look)) ?? fetch(request);
}

/** Former versions go once no other window can need them, and only while none is coming in: it would go with them. */
async function tidyUp() {
  const names = await caches.keys();
  const { installing, waiting } = self.registration;
  if (installing || waiting) return;
  if ((await self.clients.matchAll({ type: 'window' })).length > 1) return;
  const former = names.filter((name) => name.startsWith(prefix) && name !== own);
  await Promise.all(former.map((name) => caches.delete(name)));
}
