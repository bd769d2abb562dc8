/** Shows what the planner finds while it works, then fetches the finished sheets. */

/** @param {HTMLElement} box */
function follow(box) {
  box.dataset.followed = "yes";
  const list = box.querySelector("ul");
  list.replaceChildren();
  const events = new EventSource(box.dataset.progress);
  events.onmessage = (event) => {
    const line = document.createElement("li");
    line.textContent = JSON.parse(event.data);
    list.append(line);
  };
  events.addEventListener("done", () => {
    events.close();
    const view = box.closest("[data-redraw]");
    window.htmx.ajax("GET", view.dataset.redraw, { target: view, swap: "outerHTML", select: "#view" });
  });
}

function look() {
  for (const box of document.querySelectorAll("[data-progress]:not([data-followed])")) follow(box);
}

look();
document.body.addEventListener("htmx:load", look);
