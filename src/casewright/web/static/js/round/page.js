/** The page with the model: puts stage, looks, taking apart and picking together. */
import { Stage } from "./stage.js";
import { takeApart } from "./apart.js";
import { Picker } from "./pick.js";
import { load } from "./load.js";

const view = document.getElementById("round");
const said = view.querySelector(".stage-said");
const slider = view.querySelector("[name=apart]");

try {
  const stage = new Stage(view.querySelector("canvas"));
  const picker = new Picker(stage, (part) => open(part.userData.mark));
  await show(stage, true);

  slider.addEventListener("input", () => {
    takeApart(stage.model, Number(slider.value) / 100);
    stage.draw();
  });
  for (const button of view.querySelectorAll("[data-look]")) {
    button.addEventListener("click", () => stage.look(button.dataset.look));
  }
  let shown = null;
  document.body.addEventListener("job-at", async (event) => {
    if (shown !== null && shown !== event.detail.revision) {
      picker.forget();
      await show(stage, false);
    }
    shown = event.detail.revision;
  });
} catch (fault) {
  said.textContent = explain(fault);
  said.hidden = false;
}

/** @param {Stage} stage @param {boolean} first whether to find a place to look from */
async function show(stage, first) {
  stage.put(await load(view.dataset.model));
  takeApart(stage.model, Number(slider.value) / 100);
  said.hidden = true;
  if (first) stage.look("corner");
  else stage.draw();
  view.dataset.ready = "yes";
}

/** @param {string} mark */
function open(mark) {
  const address = `/jobs/${view.dataset.job}/parts/${encodeURIComponent(mark)}`;
  window.htmx?.ajax("GET", address, { target: "#card", swap: "innerHTML" });
}

/** @param {unknown} fault @returns {string} */
function explain(fault) {
  const text = String(fault?.message ?? fault);
  if (/webgl/i.test(text)) {
    return "This browser cannot draw the model (it has no WebGL). The drawing and the parts list show the same job.";
  }
  return `The model could not be shown: ${text}`;
}
