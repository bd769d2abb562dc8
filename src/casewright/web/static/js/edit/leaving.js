/**
 * A page that is left with something typed in it: by a tab, a link, Back, or a phone that is put away.
 *
 * A form that saves by itself is sent while the page goes away, and once more by the next page of this tab,
 * which so learns what became of it: sending what is already saved changes nothing. Of a form with its own
 * button the next page says that it was not sent.
 */
import { agree, fieldsOf, unsaved, wordsOf } from "./fields.js";
import { announce, notice } from "./notice.js";
import { forget } from "./typed.js";

const KEY = "left behind";

/** @returns {{action: string, page: string, body: string | null, words: string, fields: [string, string][]}[]} */
const leftBehind = () => JSON.parse(sessionStorage.getItem(KEY) ?? "[]");

/** @param {string} action @param {string} body */
const send = (action, body) =>
  fetch(action, {
    method: "POST",
    body,
    keepalive: true,
    headers: { "Content-Type": "application/x-www-form-urlencoded", "HX-Request": "true" },
  });

function leave() {
  const left = [];
  for (const form of document.querySelectorAll("form[data-keeps]")) {
    const fields = unsaved(form);
    if (!fields.length) continue;
    const words = fields.map(wordsOf).join("; ");
    const body = form.dataset.keeps === "itself" ? new URLSearchParams(new FormData(form)).toString() : null;
    const typed = fields.map((field) => [field.name, field.value]);
    left.push({ action: form.action, page: location.pathname, body, words, fields: typed });
    if (body !== null) send(form.action, body).catch(() => {});
  }
  if (left.length) sessionStorage.setItem(KEY, JSON.stringify(left));
}

/** What was left behind, by this page or the one before it, and what became of it. */
async function arrive() {
  const left = leftBehind();
  sessionStorage.removeItem(KEY);
  for (const one of left) await settle(one);
}

/** @param {{action: string, page: string, body: string | null, words: string, fields: [string, string][]}} left */
async function settle({ action, page, body, words, fields }) {
  const here = [...document.querySelectorAll("form[data-keeps]")].find((form) => form.action === action);
  if (body === null) {
    // Back on the page itself the fields hold it.
    if (!here) notice(`Not sent: ${words}.`, page);
    return;
  }
  const holdsIt = here && fields.every(([name, value]) => here.elements.namedItem(name)?.value === value);
  if (holdsIt && window.htmx) {
    window.htmx.trigger(here, "change");
    return;
  }
  const answer = await send(action, body).catch(() => null);
  if (answer?.ok) {
    for (const [name, value] of fields) forget(action, name, value);
    notice(`Saved: ${words}.`, "");
    const told = answer.headers.get("HX-Trigger");
    if (told && window.htmx) announce(told);
    if (here) location.reload();
  } else if (!here) {
    const why = answer ? "it cannot be used as it is" : "casewright does not answer";
    notice(`Not saved: ${words}; ${why}.`, new URL(action).pathname);
  }
}

/** A form that is sent by its own button leaves nothing behind; what is refused comes back with the answer. */
function sent(event) {
  const form = event.target;
  if (!form.matches("[data-keeps=sent]") || form.matches("[hx-post]")) return;
  for (const field of fieldsOf(form)) {
    forget(form.action, field.name, field.value);
    agree(field, field.value);
  }
}

addEventListener("pagehide", leave);
addEventListener("pageshow", arrive);
document.addEventListener("visibilitychange", () => (document.visibilityState === "hidden" ? leave() : arrive()));
document.addEventListener("submit", sent);
