// Keeps every file of the app in the browser, so that it opens with the desk gone.
//
// A version is installed whole or not at all, beside the one in use, and waits until a person takes it. What
// was entered is in another place (IndexedDB) and is not touched here.
"use strict";
const VERSION = "/*VERSION*/";
const FILES = [/*FILES*/];
const CACHE = `shaftbook-${VERSION}`;
const PAGE = "/index.html";

self.addEventListener("install", (event) => {
  // Past the browser's own cache: a file of the version before must not slip in.
  const fresh = FILES.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const old = (await caches.keys()).filter((name) => name.startsWith("shaftbook-") && name !== CACHE);
    await Promise.all(old.map((name) => caches.delete(name)));
    // On the first visit the page becomes independent of the desk at once.
    await self.clients.claim();
  })());
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (url.pathname.startsWith("/api/") || /^\/(desk|people)(\/|$)/.test(url.pathname)) return;
  const wanted = FILES.includes(url.pathname) ? url.pathname : request.mode === "navigate" ? PAGE : null;
  if (wanted === null) return;
  event.respondWith(kept(wanted, request));
});

async function kept(file, request) {
  const cache = await caches.open(CACHE);
  const found = await cache.match(file, { ignoreVary: true });
  return found ?? fetch(request);
}
