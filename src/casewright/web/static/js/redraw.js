/**
 * Draws again whatever shows an older revision. Every answer of the server says which revision
 * the job is at; anything with `data-redraw` (an address) and `data-revision` follows.
 */

/** @param {HTMLElement} shown @param {string} revision */
async function redraw(shown, revision) {
  shown.dataset.revision = revision;
  const part = shown.dataset.part;
  await window.htmx.ajax("GET", shown.dataset.redraw, {
    target: shown,
    swap: part ? "outerHTML" : "innerHTML",
    select: part,
  });
}

document.body.addEventListener("job-at", (event) => {
  const revision = String(event.detail.revision);
  for (const shown of document.querySelectorAll("[data-redraw]")) {
    if (shown.dataset.revision !== revision) redraw(shown, revision);
  }
});
