/** One tap a joint at the dry fit: how it went together. What is predicted from then on learns from it. */

import { button, make } from "./dom.js";

const HOW = ["by hand", "clamp", "eased", "remade"];

export class DryFit {
  /** @param {import("./record.js").ShopRecord} record @param {() => void} redraw */
  constructor(record, redraw) {
    this.record = record;
    this.redraw = redraw;
    /** What the server last told, and the place of the record that was asked about. */
    this.told = {};
    this.asked = null;
  }

  /** The rows of a case's joints; nothing for a part. @param {{name: string, words: string}[]} joints */
  section(joints) {
    if (!joints.length) return [];
    this.#ask();
    const went = this.#went();
    const open = joints.filter((joint) => !went[joint.name]);
    const all = button(`The other ${open.length} by hand`, () => open.forEach((joint) => this.#tap(joint, "by hand")));
    return [
      make("h2", {}, "Dry fit"),
      make("ul", { class: "plain joints" }, ...joints.map((joint) => this.#row(joint, went[joint.name]))),
      ...(open.length > 1 ? [make("p", {}, all)] : []),
    ];
  }

  #row(joint, went) {
    const taps = HOW.map((how) =>
      button(how, () => this.#tap(joint, how), { "aria-pressed": how === went ? "true" : "false", "aria-label": `${joint.words}: ${how}` }),
    );
    return make("li", {}, make("span", {}, joint.words), make("span", { class: "row" }, ...taps));
  }

  #tap(joint, how) {
    this.record.note("dry-fit", { joint: joint.name, how });
  }

  /** How each joint went: as the server told, with what is not sent yet and not taken back laid over it. */
  #went() {
    const went = { ...this.told };
    const waiting = this.record.waiting;
    const back = new Set(waiting.map((event) => event.kind === "undo" && event.event));
    for (const event of waiting) if (event.kind === "dry-fit" && !back.has(event.id)) went[event.joint] = event.how;
    return went;
  }

  /** Ask once for each place the record has come to; without the network what was told before stays. */
  async #ask() {
    const { place } = this.record.state;
    if (this.asked === place) return;
    this.asked = place;
    try {
      const answer = await fetch(`${this.record.base}/dry-fits`, { cache: "no-store", headers: { Accept: "application/json" } });
      if (!answer.ok) throw new Error();
      this.told = (await answer.json()).joints;
      this.redraw();
    } catch {
      this.asked = null;
    }
  }
}
