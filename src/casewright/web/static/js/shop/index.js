/** All batches on one sheet, machine by machine, each with how far it is: a tap opens it. */

import { button, make } from "./dom.js";

/** How many of these steps are ticked. */
export const doneOf = (steps, view) => steps.filter((step) => view.ticks[step.key]).length;

export class BatchIndex {
  /** @param {import("./record.js").ShopRecord} record @param {(batch: number) => void} goTo */
  constructor(record, goTo) {
    this.record = record;
    this.goTo = goTo;
    this.dialog = make("dialog", { class: "batch-index", "aria-labelledby": "batches-title" });
    document.body.append(this.dialog);
  }

  open(current) {
    const view = this.record.view();
    const machines = byMachine(this.record.work.batches);
    this.dialog.replaceChildren(
      button("Close", () => this.dialog.close(), { class: "close" }),
      make("h1", { id: "batches-title" }, "All batches"),
      ...[...machines].map(([machine, ones]) => this.#machine(machine, ones, view, current)),
    );
    this.dialog.showModal();
    this.dialog.querySelector("[aria-current]")?.scrollIntoView({ block: "center" });
  }

  #machine(machine, ones, view, current) {
    const steps = ones.flatMap(({ batch }) => batch.steps);
    const done = doneOf(steps, view);
    return make(
      "section",
      {},
      make("h2", {}, `${machine}: ${done} of ${steps.length}`),
      make("ul", { class: "plain" }, ...ones.map(({ batch, number }) => make("li", {}, this.#line(batch, number, view, current)))),
    );
  }

  #line(batch, number, view, current) {
    const done = doneOf(batch.steps, view);
    const state = done === batch.steps.length ? "✓" : `${done} of ${batch.steps.length}`;
    const open = () => {
      this.dialog.close();
      this.goTo(number);
    };
    return button(`${number + 1}. ${batch.title} · ${state}`, open, { class: "link", "aria-current": number === current && "step" });
  }
}

function byMachine(batches) {
  const machines = new Map();
  batches.forEach((batch, number) => {
    if (!machines.has(batch.machine)) machines.set(batch.machine, []);
    machines.get(batch.machine).push({ batch, number });
  });
  return machines;
}
