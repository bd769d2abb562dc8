/**
 * What was typed and is not saved is still there when its form is opened again, in this tab: after a
 * tap elsewhere, after going back, after the server was out of reach.
 */
import { agreed, fieldsOf, formOf } from "./fields.js";

const PREFIX = "typed ";

/** @param {string} action where the form is sent @param {string} name of the field */
const key = (action, name) => `${PREFIX}${new URL(action).pathname} ${name}`;

/** @param {Event} event */
function remember(event) {
  const form = formOf(event.target);
  if (!form) return;
  const kept = { typed: event.target.value, seen: agreed(event.target) };
  sessionStorage.setItem(key(form.action, event.target.name), JSON.stringify(kept));
}

/** @param {string} action @param {string} name */
function recall(action, name) {
  const kept = sessionStorage.getItem(key(action, name));
  return kept === null ? null : JSON.parse(kept);
}

/** @param {string} action @param {string} name @param {string} value that the server has taken */
export function forget(action, name, value) {
  if (recall(action, name)?.typed === value) sessionStorage.removeItem(key(action, name));
}

/** @param {HTMLFormElement} form */
function bringBackTo(form) {
  form.dataset.brought = "yes";
  let brought = 0;
  for (const field of fieldsOf(form)) {
    const kept = recall(form.action, field.name);
    const now = agreed(field);
    if (kept === null || kept.typed === now) continue;
    if (field.value !== kept.typed) field.value = kept.typed;
    field.closest("details")?.setAttribute("open", "");
    const why = document.getElementById(`why-${field.name}`);
    if (kept.seen !== now && why && !why.textContent) {
      why.textContent = `The job says ${now || "nothing"} here now. Save to put ${kept.typed || "nothing"} in its place.`;
    }
    brought += 1;
  }
  const said = form.querySelector(".form-said");
  if (brought && said && !said.textContent.trim()) {
    said.innerHTML = '<p class="refused"><b>Not saved yet.</b> What you typed before is back in its field.</p>';
  }
}

function bringBack() {
  for (const form of document.querySelectorAll("form[data-keeps]:not([data-brought])")) bringBackTo(form);
}

bringBack();
document.addEventListener("input", remember);
document.addEventListener("change", remember);
document.body.addEventListener("htmx:load", bringBack);
