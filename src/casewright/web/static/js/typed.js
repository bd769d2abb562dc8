/**
 * What was typed and could not be kept is still there when its form is opened again, in this tab:
 * after a tap elsewhere, after going back, after the server was out of reach.
 */

const PREFIX = "typed ";

/** @param {HTMLFormElement} form @param {string} name */
const key = (form, name) => `${PREFIX}${new URL(form.action).pathname} ${name}`;

/** @param {EventTarget} target @returns {HTMLFormElement | null} */
const formOf = (target) => (target instanceof Element && target.name ? target.closest("form#form") : null);

/** @param {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} field @returns {string} */
function kept(field) {
  if (field instanceof HTMLSelectElement) {
    return [...field.options].find((option) => option.defaultSelected)?.value ?? field.options[0].value;
  }
  return field.defaultValue;
}

/** @param {Event} event */
function remember(event) {
  const form = formOf(event.target);
  if (form) sessionStorage.setItem(key(form, event.target.name), event.target.value);
}

function bringBack() {
  const form = document.querySelector("form#form:not([data-brought])");
  if (!form) return;
  form.dataset.brought = "yes";
  let brought = 0;
  for (const field of form.elements) {
    const typed = field.name && field.type !== "hidden" ? sessionStorage.getItem(key(form, field.name)) : null;
    if (typed === null || typed === kept(field)) continue;
    if (field.value !== typed) field.value = typed;
    field.closest("details")?.setAttribute("open", "");
    brought += 1;
  }
  const said = document.getElementById("form-said");
  if (brought && !said.textContent.trim()) {
    said.innerHTML = '<p class="refused"><b>Not saved yet.</b> What you typed before is back in its field.</p>';
  }
}

/** What the job took up need not be remembered any more. @param {CustomEvent} event */
function answered(event) {
  const form = event.detail.elt;
  if (!(form instanceof HTMLFormElement) || form.id !== "form") return;
  if (event.detail.xhr.status === 0 || event.detail.xhr.status >= 400) return;
  for (const [name, value] of new FormData(form)) {
    const place = key(form, name);
    if (sessionStorage.getItem(place) === value) sessionStorage.removeItem(place);
  }
}

/** The server is out of reach: say so where the form says everything else. */
function unreachable() {
  const said = document.getElementById("form-said");
  if (!said) return;
  said.innerHTML =
    '<p class="refused"><b>Not saved.</b> casewright does not answer; is it still running? ' +
    "What you typed stays here. Press Save when it is back.</p>";
}

bringBack();
document.addEventListener("input", remember);
document.addEventListener("change", remember);
document.body.addEventListener("htmx:load", bringBack);
document.body.addEventListener("htmx:afterRequest", answered);
document.body.addEventListener("htmx:sendError", unreachable);
