/**
 * A tap on a part's drawing fills the form that says what is wrong with it: on a feature it goes to that
 * feature's entry, on an edge or an end to a damage there. Without this script the form is filled by hand.
 */

/** @returns {HTMLFormElement | null} */
const formOf = () => document.querySelector("form#report");

/** @param {string} feature */
function toFeature(feature) {
  const row = [...document.querySelectorAll("#report .feature-row")].find((one) => one.dataset.feature === feature);
  if (!row) return;
  row.querySelector("input[name=cut]").checked = true;
  const how = row.querySelector("select");
  how.scrollIntoView({ block: "center" });
  how.focus();
}

/** The row of a damage there, else the first that is free, else the last. @param {string} side */
function toDamage(side) {
  const rows = [...document.querySelectorAll("#report .damage-row")];
  const where = (row) => row.querySelector("select");
  const row = rows.find((one) => where(one).value === side) ?? rows.find((one) => !where(one).value) ?? rows.at(-1);
  if (!row) return;
  where(row).value = side;
  where(row).dispatchEvent(new Event("change", { bubbles: true }));
  row.scrollIntoView({ block: "center" });
  row.querySelector("input[name=long]").focus();
}

/** What the form says is marked on the drawing. */
function show() {
  const form = formOf();
  if (!form) return;
  const wrong = new Set();
  for (const row of form.querySelectorAll(".feature-row")) {
    if ([...row.querySelectorAll("select")].some((one) => one.value)) wrong.add(`feature ${row.dataset.feature}`);
  }
  for (const row of form.querySelectorAll(".damage-row select")) wrong.add(`side ${row.value}`);
  for (const place of form.querySelectorAll(".tap-place")) {
    place.classList.toggle("said", wrong.has(`${place.dataset.tap} ${place.dataset.value}`));
  }
}

/** @param {Element} place */
function tap(place) {
  if (place.dataset.tap === "feature") toFeature(place.dataset.value);
  else toDamage(place.dataset.value);
  show();
}

/** The places can be reached by key, and are called what they stand for. */
function ready() {
  document.body.classList.add("scripted");
  for (const place of document.querySelectorAll(".tap-place:not([tabindex])")) {
    place.setAttribute("tabindex", "0");
    place.setAttribute("role", "button");
    place.setAttribute("aria-label", place.querySelector("title")?.textContent ?? place.dataset.value);
  }
  show();
}

document.addEventListener("click", (event) => {
  const place = event.target.closest(".tap-place");
  if (place) tap(place);
});

document.addEventListener("keydown", (event) => {
  if ((event.key === "Enter" || event.key === " ") && event.target.matches(".tap-place")) {
    event.preventDefault();
    tap(event.target);
  }
});

document.addEventListener("change", (event) => {
  if (!event.target.closest("form#report")) return;
  const how = event.target.closest(".feature-row select");
  if (how?.value) how.closest(".feature-row").querySelector("input[name=cut]").checked = true;
  show();
  if (event.target.matches("[data-picks]") && event.target.value) formOf().requestSubmit(document.getElementById("pick"));
});

ready();
document.body.addEventListener("htmx:load", ready);
