// Keeps one walk for when there is no network: the page, its pictures, its type. Newer things are taken where they can be.
"use strict";
const KEPT = "walk " + registration.scope;
addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));
addEventListener("message", (event) => event.waitUntil((async () => {
  const kept = await caches.open(KEPT);
  await Promise.all(event.data.map((url) => kept.add(url).catch(() => {})));
  event.ports[0].postMessage("kept");
})()));
addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || !event.request.url.startsWith(location.origin + "/")) return;
  event.respondWith((async () => {
    const kept = await caches.open(KEPT);
    try {
      const fresh = await fetch(event.request);
      // Where there is no room left to keep it, it is shown all the same.
      if (fresh.ok) event.waitUntil(kept.put(event.request, fresh.clone()).catch(() => {}));
      return fresh;
    } catch (fault) {
      const found = await kept.match(event.request, { ignoreSearch: true });
      if (found) return found;
      throw fault;
    }
  })());
});
