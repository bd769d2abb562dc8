/**
 * What the server's answer to a form means for the fields on the page: which values are agreed now, what
 * another device has changed meanwhile, and what is refused, brought into view.
 */
import { agree, agreed, fieldsOf } from "./fields.js";
import { forget } from "./typed.js";

/** @param {HTMLFormElement} form @param {Map<string, string>} sent */
function taken(form, sent) {
  for (const field of fieldsOf(form)) {
    const value = sent.get(field.name);
    if (value === undefined) continue;
    agree(field, value);
    forget(form.action, field.name, value);
  }
}

/**
 * Fields that another device has changed show its value, unless the maker has typed over it since. Then the
 * form goes on from the older revision, so that the server asks.
 * @param {HTMLFormElement} form
 */
function takeUp(form) {
  let all = true;
  for (const why of form.querySelectorAll(".why[data-now]")) {
    const field = form.elements.namedItem(why.id.slice("why-".length));
    const { sent, now } = why.dataset;
    if (field.value === sent) {
      field.value = now;
      agree(field, now);
      if (!why.textContent) why.textContent = `Now ${now || "empty"}: changed on another device.`;
      why.classList.add("news");
    } else {
      all = false;
    }
  }
  const newest = form.querySelector(".form-said")?.dataset.newest;
  if (!newest || !all) return;
  for (const based of document.querySelectorAll("#card [name=based_on], form#form [name=based_on]")) based.value = newest;
}

/** @param {HTMLFormElement} form */
export function showRefusals(form) {
  let first = null;
  for (const why of form.querySelectorAll(".why")) {
    const field = form.elements.namedItem(why.id.slice("why-".length));
    if (!(field instanceof Element)) continue;
    const wrong = why.textContent.trim() !== "" && !why.classList.contains("news");
    if (wrong) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
    if (wrong) field.closest("details")?.setAttribute("open", "");
    if (wrong && first === null) first = field;
  }
  const about = first ?? form.querySelector(".form-said .refused");
  // What is being typed keeps the focus; only the page moves, and only as far as it must.
  about?.closest(".field, .form-said")?.scrollIntoView({ block: "nearest" });
}

/** @param {CustomEvent} event */
function answered(event) {
  const form = event.detail.elt;
  if (!(form instanceof HTMLFormElement) || !form.matches("[data-keeps]")) return;
  const { status } = event.detail.xhr;
  if (status === 0) return;
  if (status < 400) taken(form, new Map(event.detail.requestConfig.formData.entries()));
  if (!form.isConnected) return;
  if (status < 400) takeUp(form);
  showRefusals(form);
}

/** The server is out of reach: say so where the form says everything else. @param {CustomEvent} event */
function unreachable(event) {
  const said = event.detail.elt.querySelector?.(".form-said") ?? document.querySelector(".form-said");
  if (!said) return;
  said.innerHTML =
    '<p class="refused"><b>Not saved.</b> casewright does not answer; is it still running? ' +
    "What you typed stays here. Press Save when it is back.</p>";
}

for (const form of document.querySelectorAll("form[data-keeps]")) showRefusals(form);
document.body.addEventListener("htmx:afterRequest", answered);
document.body.addEventListener("htmx:sendError", unreachable);
