/**
 * What a form is saving is answered before another card takes its place: so the answer finds its own form, and
 * the card that was tapped shows the job with what was typed.
 */
import { unsaved } from "./fields.js";
import { notice } from "./notice.js";

/** @type {Promise<void> | null} settled once the last form that was sent has its answer */
let saving = null;

/** @param {CustomEvent} event */
function sent(event) {
  const form = event.detail.elt;
  if (!(form instanceof HTMLFormElement) || !form.matches("[data-keeps=itself]")) return;
  const answered = new Promise((settle) => event.detail.xhr.addEventListener("loadend", () => settle()));
  saving = answered;
  answered.then(() => {
    if (saving === answered) saving = null;
  });
}

/** @param {CustomEvent} event htmx asks before each request whether it may go out */
async function holdBack(event) {
  const { elt, target, issueRequest } = event.detail;
  if (saving === null || target?.id !== "card") return;
  event.preventDefault();
  while (saving !== null) await saving;
  const form = document.querySelector("#card form[data-keeps=itself]");
  // Its own buttons find the form as they left it; any other tap takes it away.
  if (form && !form.contains(elt) && unsaved(form).length) notice("Not saved.", new URL(form.action).pathname);
  issueRequest();
}

document.body.addEventListener("htmx:beforeRequest", sent);
document.body.addEventListener("htmx:confirm", holdBack);
