/** One question before the first tick of a batch where a mistake is likely. A right answer ticks; any other says
 * what to do, and ticks nothing. */

import { button, make } from "./dom.js";

export class Asked {
  /** @param {import("./record.js").ShopRecord} record */
  constructor(record) {
    this.place = `casewright asked ${record.base}`;
    this.dialog = make("dialog", { class: "tap-question", "aria-labelledby": "question-text" });
    document.body.append(this.dialog);
  }

  /** The batches that were answered for on this tablet, by their keys and what was asked. */
  #answered() {
    return JSON.parse(sessionStorage.getItem(this.place) ?? "[]");
  }

  /** Whether the batch may be ticked now. If not, it is asked about, and `go` follows a right answer. */
  before(batch, view, go) {
    const { question } = batch;
    const name = `${batch.key} ${question?.text}`;
    if (!question || this.#answered().includes(name) || batch.steps.some((step) => view.ticks[step.key])) return true;
    const answer = (said) => () => {
      if (said !== question.right) return this.#stop(question);
      sessionStorage.setItem(this.place, JSON.stringify([...this.#answered(), name]));
      this.dialog.close();
      go();
    };
    this.#show(question.text, ...question.answers.map((said) => button(said, answer(said), { class: "huge" })));
    return false;
  }

  #stop(question) {
    this.#show(question.otherwise, button("I will look", () => this.dialog.close(), { class: "huge" }));
  }

  #show(text, ...buttons) {
    this.dialog.replaceChildren(make("p", { id: "question-text" }, text), make("p", { class: "row" }, ...buttons));
    if (!this.dialog.open) this.dialog.showModal();
  }
}
