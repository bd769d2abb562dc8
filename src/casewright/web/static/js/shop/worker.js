/** Keeps the shop screen on the tablet: page, scripts and work are shown from here without network. */

const KEPT = "casewright-shop-1";

self.addEventListener("install", (event) => event.waitUntil(self.skipWaiting()));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const path = new URL(request.url).pathname;
  const ours = path.startsWith("/static/") || /^\/jobs\/[^/]+\/shop(\/(work|picture))?$/.test(path);
  if (request.method !== "GET" || !ours) return;
  event.respondWith(newestOrKept(request));
});

/** What the server says now, or what it said last when it cannot be reached. */
async function newestOrKept(request) {
  const cache = await caches.open(KEPT);
  try {
    const answer = await fetch(request);
    if (answer.ok && answer.status === 200) await cache.put(request, answer.clone());
    return answer;
  } catch (fault) {
    const kept = await cache.match(request, { ignoreVary: true });
    if (kept) return kept;
    throw fault;
  }
}
