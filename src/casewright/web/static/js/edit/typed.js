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
  const { name, value } = event.target;
  const before = recall(form.action, name);
  // What the field showed when it was first typed in counts until it is saved.
  const kept = { typed: value, seen: before?.seen ?? agreed(event.target) };
  sessionStorage.setItem(key(form.action, name), JSON.stringify(kept));
}

/** @param {string} action @param {string} name */
function recall(action, name) {
  const kept = sessionStorage.getItem(key(action, name));
  return kept === null ? null : JSON.parse(kept);
}

/** @param {string} action @param {string} name @param {string} value that the server has taken */
export function forget(action, name, value) {
  if (recall(action, name)?.typed !== value) return;
  sessionStorage.removeItem(key(action, name));
  for (const told of document.getElementsByName(`seen:${name}`)) told.remove();
}

/**
 * The job says something else by now than when this was typed: the form tells the server so, which then asks.
 * @param {HTMLFormElement} form @param {string} name @param {string} seen
 */
function sawThen(form, name, seen) {
  const told = Object.assign(document.createElement("input"), { type: "hidden", name: `seen:${name}`, value: seen });
  form.append(told);
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
    if (kept.seen !== now) sawThen(form, field.name, kept.seen);
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
