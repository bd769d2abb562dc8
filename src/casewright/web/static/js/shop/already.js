/** What was ticked here and had been ticked elsewhere before: said kindly, until it has been seen. */

import { button, make } from "./dom.js";

const MOST = 3;

/** The time on this tablet's clock, with the day if it was another; nothing for a time that makes no sense. */
function clock(at) {
  const when = new Date(at);
  if (Number.isNaN(when.getTime())) return "";
  const today = when.toDateString() === new Date().toDateString();
  return ` at ${when.toLocaleString(undefined, today ? { timeStyle: "short" } : { dateStyle: "medium", timeStyle: "short" })}`;
}

/** The notice, in a list; an empty one while there is none. @param {import("./record.js").ShopRecord} record */
export function alreadyNotice(record) {
  const told = record.already;
  if (!told.length) return [];
  const steps = new Map(record.work.batches.flatMap((batch) => batch.steps).map((step) => [step.key, step]));
  const lines = told.slice(0, MOST).map(({ step, at, where }) => {
    const named = steps.has(step) ? `${steps.get(step).piece} ${steps.get(step).size}`.trim() : step;
    return `${named} was already ticked${clock(at)} on “${where}”.`;
  });
  if (told.length > MOST) lines.push(`So were ${told.length - MOST} more.`);
  const seen = button("Seen", () => record.forgetAlready());
  return [make("p", { class: "notice", role: "status" }, `${lines.join(" ")} It counts once, and nothing is lost. `, seen)];
}
