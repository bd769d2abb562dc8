/** What the server did not accept, wherever it is shown: why, or the question that a reading raises. */

import { button, make } from "./dom.js";

/**
 * @param {import("./record.js").ShopRecord} record
 * @param {object} event what was refused, with its `why`; a question `asks` what to use and what to keep
 * @param {() => void} typeAgain what else to do when the maker wants to type the reading again
 */
export function refusal(record, event, typeAgain) {
  const about = event.name ?? event.part ?? event.kind;
  if (!event.asks) {
    const words = `${about}${event.said ? ` “${event.said}”` : ""} was not accepted: ${event.why} `;
    return make("p", { class: "notice", role: "alert" }, words, button("Seen", () => record.forgetRefused(event.id)));
  }
  const { use, keep } = event.asks;
  const again = () => {
    record.forgetRefused(event.id);
    typeAgain();
  };
  return make(
    "div",
    { class: "notice", role: "alert" },
    make("p", {}, `${about}: ${event.why}`),
    make(
      "p",
      { class: "row" },
      use && button(`Use ${use}`, () => record.answer(event, use)),
      button(`Keep ${keep}`, () => record.answer(event, keep, true)),
      button("Type again", again),
    ),
  );
}
