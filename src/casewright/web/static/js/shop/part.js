/** What can be said of one part or case, from wherever it is tapped: how it stands, measure, spoiled. */

import { button, make } from "./dom.js";
import { DryFit } from "./dry_fit.js";
import { pairingNotice } from "./pairing.js";
import { refusal } from "./refusal.js";

const SAID = {
  measured: (event) => `measured ${event.said} (${event.tool})`,
  spoiled: (event) => (event.how ? `spoiled: ${event.how}` : "spoiled"),
  lost: () => "lost",
  claimed: () => "claimed",
  released: () => "released",
  undo: () => "good after all",
};

export class PartSheet {
  /** @param {import("./record.js").ShopRecord} record */
  constructor(record, goTo) {
    this.record = record;
    this.goTo = goTo;
    this.mark = "";
    this.dryFit = new DryFit(record, () => this.refresh());
    this.dialog = make("dialog", { class: "part-sheet", "aria-labelledby": "part-mark" });
    this.dialog.addEventListener("close", () => {
      this.mark = "";
      if (location.hash) history.replaceState(null, "", location.pathname);
    });
    document.body.append(this.dialog);
  }

  /** The part, or the case, with this mark; undefined for neither. */
  #known(mark) {
    return this.record.work?.parts[mark] ?? this.record.work?.cases[mark];
  }

  open(mark) {
    if (!this.#known(mark)) return;
    this.mark = mark;
    this.form = this.#measure(this.#known(mark));
    this.draw();
    if (!this.dialog.open) this.dialog.showModal();
  }

  /** Draw it anew, unless the maker is typing in it. What is half filled in stays: another bench's news must not empty it. */
  refresh() {
    if (this.mark && !this.dialog.querySelector("input:focus, select:focus")) this.draw();
  }

  draw() {
    const { record, mark } = this;
    const part = this.#known(mark);
    const view = record.view();
    this.dialog.replaceChildren(
      button("Close", () => this.dialog.close(), { class: "close" }),
      make("h1", { id: "part-mark" }, mark),
      make("p", {}, part.what),
      ...pairingNotice(record, mark),
      ...(record.work.parts[mark] ? this.#standing(mark, view) : []),
      make("ul", { class: "plain" }, ...this.record.unsent(mark).map((event) => this.#unsent(event))),
      ...this.record.refusedOf(mark).map((event) => refusal(this.record, event, () => this.#typeAgain(event))),
      make("h2", {}, "Measure"),
      this.form,
      make("ul", { class: "plain sizes" }, ...part.sizes.map((size) => this.#size(size, view.readings[size.name]))),
      ...this.dryFit.section(part.joints ?? []),
      make("h2", {}, "Steps"),
      make("ul", { class: "plain" }, ...this.#steps(mark, view)),
    );
  }

  /** The field is ready for the same size by the same tool. */
  #typeAgain(event) {
    const [which, said, tool] = this.form.elements;
    which.value = event.name;
    tool.value = event.tool;
    said.focus();
  }

  #standing(mark, view) {
    const stands = view.parts[mark] ?? { status: "to cut" };
    const how = stands.how ? `: ${stands.how}` : "";
    const held = stands.bench ? `, claimed by ${stands.bench}` : "";
    const status = make("p", { class: `status ${stands.status.replace(" ", "-")}` }, `${stands.status}${how}${held}`);
    if (["spoiled", "lost"].includes(stands.status)) return [status, this.#good(stands)];
    return [status, this.#hold(mark, stands), this.#spoil(mark)];
  }

  #unsent(event) {
    const back = button("Withdraw it", () => this.record.note("undo", { event: event.id }, event));
    return make("li", {}, `${SAID[event.kind](event)} (saved here, not sent yet) `, event.kind !== "undo" && back);
  }

  /** Taking a part in hand tells the other benches to leave it alone. */
  #hold(mark, stands) {
    const mine = stands.bench === (this.record.bench || "bench");
    if (stands.bench && !mine) return make("p", {}, `${stands.bench} has claimed this part: ask there before you cut it.`);
    const say = () => this.record.note(mine ? "released" : "claimed", { parts: [mark] });
    return button(mine ? "Release it" : "Claim it", say);
  }

  #good(stands) {
    const spoiled = stands.status === "spoiled" ? { kind: "spoiled", part: this.mark, how: stands.how } : { kind: "lost", name: this.mark };
    const undo = () => this.record.note("undo", { event: stands.event }, spoiled);
    return button("It is good after all", undo, { class: "huge", disabled: !stands.event });
  }

  #spoil(mark) {
    const how = make("input", { "aria-label": "What went wrong", placeholder: "what went wrong", maxlength: 200 });
    const say = () => {
      this.record.note("spoiled", { part: mark, how: how.value.trim() });
      this.dialog.close();
    };
    const lose = () => {
      this.record.note("lost", { name: mark });
      this.dialog.close();
    };
    // Where it is wrong is asked by the form of the page Put right, beside the part's drawing; it needs the network.
    const where = make("a", { class: "button huge", href: `${this.record.base.replace(/\/shop$/, "")}/repair?mark=${encodeURIComponent(mark)}#report` }, "Say what is wrong and where");
    return make("div", {}, make("p", { class: "row" }, how, button("Spoiled", say, { class: "huge red" }), button("Lost", lose, { class: "huge red" })), make("p", {}, where));
  }

  #measure(part) {
    const which = make(
      "select",
      { "aria-label": "Which size" },
      ...part.sizes.map((size) => make("option", { value: size.name }, `${size.words} (${size.text})`)),
    );
    const tool = make("select", { "aria-label": "Measured with" }, ...(this.record.work.tools ?? []).map((name) => make("option", {}, name)));
    const said = make("input", {
      "aria-label": "Reading",
      placeholder: this.record.work.unit === "mm" ? "695.5" : "27 13/32",
      autocomplete: "off",
      required: true,
    });
    const send = (event) => {
      event.preventDefault();
      this.record.note("measured", { name: which.value, said: said.value, tool: tool.value });
      said.value = "";
      said.blur();
      this.draw();
    };
    return make("form", { class: "row", onsubmit: send }, which, said, tool, make("button", { class: "huge" }, "Measured"));
  }

  #size(size, readings) {
    const found = (readings ?? []).map((one) => `${one.text} (${one.tool || "tool not given"}, ${one.bench})`);
    return make("li", {}, `${size.words} `, make("b", {}, size.text), found.length ? ` measured ${found.join(", ")}` : "");
  }

  #steps(mark, view) {
    const lines = [];
    this.record.work.batches.forEach((batch, number) => {
      for (const step of batch.steps) {
        if (!step.parts.includes(mark) && step.piece !== mark) continue;
        const go = () => {
          this.dialog.close();
          this.goTo(number, step.key);
        };
        const state = view.ticks[step.key] ? "✓ " : "";
        lines.push(make("li", {}, button(`${state}${number + 1}. ${batch.title}`, go, { class: "link" })));
      }
    });
    return lines;
  }
}
