/** The shop screen put together, and kept on the tablet for when the network is gone. */

import { PartSheet } from "./part.js";
import { ShopRecord } from "./record.js";
import { Screen } from "./screen.js";

const root = document.getElementById("shop");
const base = root.dataset.base;
const record = new ShopRecord(base);
const screen = new Screen(root, record);
const sheet = new PartSheet(record, (batch, key) => screen.goTo(batch, key));
screen.openPart = (mark) => sheet.open(mark);
record.addEventListener("change", () => sheet.refresh());

/** A label's code leads here with the part's mark behind the `#`. */
function fromAddress() {
  if (location.hash.length > 1) sheet.open(decodeURIComponent(location.hash.slice(1)));
}

const NOT_KEPT = "not kept on this tablet: without the network a new visit shows nothing";

async function keepOnTablet() {
  // A browser offers a store for pages only over HTTPS, or on the computer that casewright runs on.
  if (!("serviceWorker" in navigator)) throw new Error("no store for pages");
  await navigator.serviceWorker.register(`${base}/worker.js`, { scope: base });
  const loaded = performance.getEntriesByType("resource").map((entry) => entry.name);
  const ours = loaded.filter((name) => new URL(name).pathname.startsWith("/static/"));
  const cache = await caches.open("casewright-shop-1");
  await cache.addAll([location.pathname, ...new Set(ours)]);
  await started;
  // What this page was sent, and not the whole work once more.
  if (record.work) await cache.put(`${base}/work`, new Response(JSON.stringify(record.work)));
  root.dataset.kept = "yes";
}

window.addEventListener("hashchange", fromAddress);
const started = record.start();
started.then(fromAddress);
screen.draw();
fromAddress();
keepOnTablet().catch(() => {
  screen.kept = NOT_KEPT;
  screen.draw();
});
