/** The work on the screen: the whole batch, or one piece at a time in letters to read at arm's length. */

import { button, make } from "./dom.js";
import { alreadyNotice } from "./already.js";
import { Asked } from "./asked.js";
import { Finger } from "./finger.js";
import { BatchIndex, doneOf } from "./index.js";
import { pairingNotice } from "./pairing.js";
import { ToLookAt } from "./to_look_at.js";
import { refusal } from "./refusal.js";

const MANUAL = "Follow your machine's manual and local rules; they take precedence over anything written here.";

export class Screen {
  /** @param {HTMLElement} root @param {import("./record.js").ShopRecord} record */
  constructor(root, record) {
    this.root = root;
    this.record = record;
    this.openPart = () => {};
    this.place = `casewright shop ${record.base}`;
    const kept = JSON.parse(sessionStorage.getItem(this.place) ?? "{}");
    this.batch = kept.batch ?? null;
    this.step = kept.step ?? 0;
    this.single = kept.single ?? false;
    /** What to say of keeping this screen for when the network is gone; empty while it is kept. */
    this.kept = "";
    this.index = new BatchIndex(record, (batch) => this.goTo(batch));
    this.toLookAt = new ToLookAt(record);
    this.asked = new Asked(record);
    // News from the server and from other benches draws the screen anew, whatever is being pressed.
    this.finger = new Finger(root, () => this.draw());
    record.addEventListener("change", () => this.finger.holds() || this.draw());
  }

  goTo(batch, key = null) {
    this.batch = Math.max(0, Math.min(batch, this.record.work.batches.length - 1));
    const steps = this.record.work.batches[this.batch].steps;
    this.step = Math.max(0, steps.findIndex((step) => step.key === key));
    this.#keep();
    this.draw();
    // A new batch begins with its setting, not where the last one ended.
    if (key === null) window.scrollTo(0, 0);
    else this.root.querySelector(`[data-step="${CSS.escape(key)}"]`)?.scrollIntoView({ block: "center" });
  }

  #keep() {
    sessionStorage.setItem(this.place, JSON.stringify({ batch: this.batch, step: this.step, single: this.single }));
  }

  draw() {
    const { work } = this.record;
    if (!work?.batches.length) {
      this.root.replaceChildren(make("p", { role: "status" }, this.#nothingYet()), ...pairingNotice(this.record));
      return;
    }
    const view = this.record.view();
    if (this.batch === null) this.batch = firstOpen(work, view);
    const typing = this.root.querySelector("input:focus");
    if (typing) return this.#status(view);
    const focused = document.activeElement?.dataset?.focus;
    this.root.replaceChildren(this.#bar(view), ...this.#notices(view), this.#card(work.batches[this.batch], view), this.#foot(view));
    if (focused) this.root.querySelector(`[data-focus="${CSS.escape(focused)}"]`)?.focus();
  }

  #nothingYet() {
    if (this.record.loading) return "Loading the steps …";
    return this.record.problem || "The steps have not been loaded on this tablet yet, and the server does not answer.";
  }

  #bar(view) {
    const name = make("input", {
      value: this.record.bench,
      placeholder: "this bench's name",
      "aria-label": "This bench's name",
      maxlength: 40,
      onchange: (event) => (this.record.bench = event.target.value.trim()),
    });
    const modes = button(this.single ? "Whole batch" : "One piece at a time", () => {
      this.single = !this.single;
      this.#keep();
      this.draw();
    });
    const all = button("All batches", () => this.index.open(this.batch), { "data-focus": "index" });
    return make("div", { class: "shop-bar" }, name, make("p", { id: "shop-status", role: "status" }, this.#words(view)), all, modes);
  }

  #words(view) {
    const all = this.record.work.batches.flatMap((batch) => batch.steps);
    const done = doneOf(all, view);
    const waiting = this.record.waiting.length;
    const away = this.record.unpaired || this.record.online ? "" : "no network; ticks are saved here";
    const line = waiting ? `${waiting} saved here, not sent yet` : away;
    const full = this.record.full && "this browser's store is full: keep this page open until all is sent";
    return [`${done} of ${all.length} ticks`, line, full, this.kept, this.record.unpaired ? "no longer paired" : this.record.problem].filter(Boolean).join(" · ");
  }

  #status(view) {
    const status = this.root.querySelector("#shop-status");
    if (status) status.textContent = this.#words(view);
  }

  #notices(view) {
    // A setting is typed again where its batch stands on this screen.
    const again = (event) => event.name && this.openPart(event.name.split(".")[0]);
    const refused = this.record.refused.map((event) => refusal(this.record, event, () => again(event)));
    const first = [...pairingNotice(this.record), ...alreadyNotice(this.record)];
    return [...first, ...refused, ...this.toLookAt.notice(view)];
  }

  #card(batch, view) {
    const open = batch.steps.filter((step) => !view.ticks[step.key]);
    const body = this.single ? this.#one(batch, view) : this.#list(batch, view);
    return make(
      "section",
      { class: "batch", "aria-label": batch.title },
      make("p", { class: "faint" }, `${this.batch + 1} of ${this.record.work.batches.length} · ${batch.machine} · about ${batch.minutes} min`),
      make("h1", {}, batch.title),
      this.single && body,
      make("ul", { class: "setting" }, ...batch.setting.map((line) => make("li", {}, line))),
      this.#cautions(batch),
      batch.fence !== null && this.#fence(batch, view),
      !this.single && body,
      !this.single && open.length > 1 && button(`Tick all ${open.length}`, () => this.#tick(open), { class: "huge", "data-focus": "all" }),
      this.#time(batch),
    );
  }

  /** What turns a left into a right stands open; the rest is one tap away. */
  #cautions(batch) {
    const mirrored = batch.cautions.filter((caution) => caution.hazard === "mirrored part");
    const others = batch.cautions.filter((caution) => !mirrored.includes(caution));
    const lines = others.map((caution) => make("li", {}, make("b", {}, `${caution.hazard}: `), caution.text));
    return make(
      "div",
      {},
      ...mirrored.map((caution) => make("p", { class: "cautions" }, caution.text)),
      make(
        "details",
        { class: "cautions" },
        make("summary", {}, `Hazards: ${[...new Set(others.map((caution) => caution.hazard))].join(", ")}`),
        make("ul", {}, ...lines),
        make("p", {}, MANUAL),
      ),
    );
  }

  #fence(batch, view) {
    const reads = make("input", { placeholder: "reading of the scale", "aria-label": "Reading of the fence's scale" });
    const set = this.record.unsent(batch.key).length ? ", not sent yet" : view.settings[batch.key] ? " ✓" : "";
    const say = () => {
      const said = reads.value.trim();
      this.record.note("setting", { setting: batch.key, ...(said ? { said } : { distance: batch.fence }) });
      reads.blur();
      this.draw();
    };
    return make("p", { class: "row" }, reads, button(`Fence is set${set}`, say, { "data-focus": "fence" }));
  }

  #list(batch, view) {
    return make("ul", { class: "plain steps" }, ...batch.steps.map((step) => this.#row(step, view)));
  }

  #row(step, view) {
    const tick = view.ticks[step.key];
    const untick = () => this.record.note("undo", { event: tick.event ?? tick.place, step: step.key }, { kind: "done", steps: [step.key] });
    const press = () => (tick ? untick() : this.#tick([step]));
    const face = make(
      "button",
      { type: "button", class: "tick", "aria-pressed": tick ? "true" : "false", onclick: press, "data-focus": `tick ${step.key}`, "data-step": step.key },
      make("span", { class: "box", "aria-hidden": "true" }, tick ? "✓" : ""),
      make("span", {}, make("b", {}, step.piece), ` ${step.size}`, step.changed && make("small", {}, make("b", {}, step.changed)), make("small", {}, step.hold), tick && make("small", {}, tick.waiting ? "saved here, not sent yet" : `done at ${tick.bench}`)),
    );
    return make("li", { class: tick ? "done" : "" }, face, ...this.#parts(step, view));
  }

  #parts(step, view) {
    // A dry fit or a glue-up is about the whole case: what is measured of it opens with the case.
    const marks = this.record.work.cases[step.piece] ? [step.piece, ...step.parts] : step.parts;
    return marks.slice(0, 12).map((mark) => {
      const status = view.parts[mark]?.status ?? "to cut";
      const bad = ["spoiled", "lost"].includes(status);
      return button(bad ? `${mark} ${status}` : mark, () => this.openPart(mark), { class: bad ? "mark red" : "mark" });
    });
  }

  #one(batch, view) {
    this.step = Math.min(this.step, batch.steps.length - 1);
    const step = batch.steps[this.step];
    const picture = make("img", { class: "lie", alt: `How ${step.piece} lies`, src: `${this.record.base}/picture?step=${encodeURIComponent(step.key)}`, onerror: (event) => event.target.remove() });
    const move = (by) => () => {
      const at = this.step + by;
      if (at < 0) this.goTo(this.batch - 1);
      else if (at >= batch.steps.length) this.goTo(this.batch + 1);
      else {
        this.step = at;
        this.#keep();
        this.draw();
      }
    };
    return make(
      "div",
      { class: "one" },
      make("p", { class: "faint" }, `piece ${this.step + 1} of ${batch.steps.length}`),
      picture,
      make("ul", { class: "plain steps" }, this.#row(step, view)),
      make("p", { class: "row" }, button("‹ Back", move(-1), { class: "huge", "data-focus": "back" }), button("Next ›", move(1), { class: "huge", "data-focus": "next" })),
    );
  }

  #time(batch) {
    const minutes = make("input", { type: "number", min: 0, step: 0.5, inputmode: "decimal", placeholder: "min", "aria-label": "Minutes this batch took" });
    const say = () => {
      if (!(minutes.valueAsNumber >= 0)) return;
      this.record.note("time", { steps: batch.steps.map((step) => step.key), minutes: minutes.valueAsNumber });
      minutes.value = "";
      minutes.blur();
    };
    return make("p", { class: "row" }, minutes, button("Record the time", say, { "data-focus": "time" }));
  }

  #foot(view) {
    const { taps } = this.record;
    const last = this.record.work.batches.length - 1;
    return make(
      "nav",
      { class: "shop-foot", "aria-label": "Batches" },
      this.#next(view),
      button("‹ Batch", () => this.goTo(this.batch - 1), { disabled: this.batch === 0, "data-focus": "before" }),
      button("Undo", () => taps.back(), { disabled: !taps.last, title: taps.last, "data-focus": "undo" }),
      button("Redo", () => taps.forth(), { disabled: !taps.next, title: taps.next, "data-focus": "redo" }),
      button("Batch ›", () => this.goTo(this.batch + 1), { disabled: this.batch === last, "data-focus": "after" }),
      taps.last && make("p", { class: "last-tap", role: "status" }, `Last: ${taps.last}`),
    );
  }

  /** The tick that comes next, always in reach of a thumb; behind the last one the next batch. */
  #next(view) {
    const { steps } = this.record.work.batches[this.batch];
    const open = this.single ? steps[this.step] : steps.find((step) => !view.ticks[step.key]);
    if (open && !view.ticks[open.key]) {
      return button(`Tick ${open.piece} ${open.size}`, () => this.#tick([open]), { class: "main next", "data-focus": "next" });
    }
    const found = this.record.work.batches.findIndex((batch) => batch.steps.some((step) => !view.ticks[step.key]));
    if (found < 0) return make("p", { class: "next" }, "Everything is ticked.");
    return button(`Go on to batch ${found + 1}`, () => this.goTo(found), { class: "main next", "data-focus": "next" });
  }

  /** One event a step, so that each can be undone by itself. */
  #tick(steps) {
    if (!this.asked.before(this.record.work.batches[this.batch], this.record.view(), () => this.#tick(steps))) return;
    for (const step of steps) this.record.note("done", { steps: [step.key] });
  }
}

function firstOpen(work, view) {
  const found = work.batches.findIndex((batch) => batch.steps.some((step) => !view.ticks[step.key]));
  return Math.max(found, 0);
}
