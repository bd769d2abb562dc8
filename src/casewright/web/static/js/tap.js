/**
 * A tap on anything named in a drawing opens its card. The server knows whether the name is a
 * case, a part or a size.
 */

/** @param {Element} target @returns {void} */
function open(target) {
  const named = target.closest("[data-name]");
  const drawing = target.closest(".drawing[data-job]");
  if (!named || !drawing || !window.htmx) return;
  for (const old of document.querySelectorAll(".drawing .tapped")) old.classList.remove("tapped");
  named.classList.add("tapped");
  const name = encodeURIComponent(named.dataset.name);
  window.htmx.ajax("GET", `/jobs/${drawing.dataset.job}/at/${name}`, { target: "#card", swap: "innerHTML" });
}

/** The figures and marks of a drawing can be reached by key; its parts are in the case's card. */
function reachable() {
  for (const named of document.querySelectorAll(".drawing text[data-name]:not([tabindex])")) {
    named.setAttribute("tabindex", "0");
    named.setAttribute("role", "link");
    named.setAttribute("aria-label", `${named.dataset.name}, ${named.textContent}`);
  }
}

reachable();
document.body.addEventListener("htmx:load", reachable);

document.addEventListener("click", (event) => open(event.target));

document.addEventListener("keydown", (event) => {
  if ((event.key === "Enter" || event.key === " ") && event.target.matches(".drawing [data-name]")) {
    event.preventDefault();
    open(event.target);
  }
});

/** On a narrow screen the card lies below the drawing: bring its start into sight. */
document.body.addEventListener("htmx:afterSwap", (event) => {
  if (event.detail.target.id !== "card") return;
  event.detail.target.scrollTop = 0;
  const place = event.detail.target.getBoundingClientRect().top;
  if (place > window.innerHeight * 0.7 || place < 0) event.detail.target.scrollIntoView({ block: "start" });
});
