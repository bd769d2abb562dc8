/** A device that was put out while its screen is open: the way back in, and from there to this very place. */

import { make } from "./dom.js";

const WORDS = "This device is no longer paired with casewright. What you tap is saved here and sent once it is paired again. ";

/**
 * The notice, in a list; an empty one for a device that is paired. It leads back to the part with this `mark`,
 * if one is open. @param {import("./record.js").ShopRecord} record @param {string} mark
 */
export function pairingNotice(record, mark = "") {
  if (!record.unpaired) return [];
  const back = encodeURIComponent(location.pathname + (mark && `#${encodeURIComponent(mark)}`));
  const link = make("a", { class: "button main huge", href: `/pair?to=${back}` }, "Pair this device");
  return [make("p", { class: "notice", role: "alert" }, WORDS, link)];
}
