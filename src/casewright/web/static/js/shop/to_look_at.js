/** What does not fit, closed until it is asked for. The tablet holds the newest of it, the server all. */

import { button, make } from "./dom.js";

const line = ({ text, fix }) => make("li", {}, `${text} ${fix}`);

export class ToLookAt {
  /** @param {import("./record.js").ShopRecord} record */
  constructor(record) {
    this.record = record;
    this.summary = make("summary", {});
    this.list = make("ul", {});
    this.rest = button("", () => this.#showAll());
    // The screen is drawn anew with all news; this stays, lest it close under the eyes of whoever reads it.
    this.details = make("details", { class: "notice" }, this.summary, this.list, this.rest);
    this.told = "";
  }

  /** The notice, in a list; an empty one where all fits. */
  notice({ findings, more }) {
    if (!findings.length) return [];
    const all = findings.length + more;
    const told = JSON.stringify([findings.map((finding) => finding.key), more]);
    if (told !== this.told) {
      this.told = told;
      this.summary.textContent = `${all} to look at`;
      this.list.replaceChildren(...findings.map(line));
      this.rest.textContent = `Show all ${all}, not only the newest ${findings.length}`;
      this.rest.hidden = more === 0;
    }
    return [this.details];
  }

  async #showAll() {
    const told = await this.record.findings();
    if (!told) return;
    this.list.replaceChildren(...told.map(line));
    this.rest.hidden = true;
  }
}
