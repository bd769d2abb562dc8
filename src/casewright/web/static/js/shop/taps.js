/**
 * What was tapped on this screen, to be taken back and made again where it was tapped, one tap at a time.
 * Every tap is an event of its own in the record, and so is every step back: nothing is ever erased there.
 */

const MOST = 100;

const WORDS = {
  done: () => "ticked",
  spoiled: (event) => `${event.part} marked as spoiled`,
  lost: (event) => `${event.name} marked as lost`,
  claimed: (event) => `${event.parts.join(", ")} claimed`,
  released: (event) => `${event.parts.join(", ")} released`,
  measured: (event) => `${event.name} measured ${event.said}`,
  setting: () => "fence noted as set",
  time: (event) => `${event.minutes} min recorded`,
  "dry-fit": (event, record) => `${record.jointWords(event.joint)}: ${event.how}`,
  undo: () => "taken back",
};

export class Taps {
  /** @param {import("./record.js").ShopRecord} record */
  constructor(record) {
    this.record = record;
    this.place = `casewright taps ${record.base}`;
    const kept = JSON.parse(sessionStorage.getItem(this.place) ?? "{}");
    /** @type {{event: object, flips: string[]}[]} each tap, and the events that took it back and made it again */
    this.done = kept.done ?? [];
    this.undone = kept.undone ?? [];
    /** What each step back takes back, by its id. */
    this.targets = kept.targets ?? {};
    /** What was ticked, by the event's id. */
    this.ticked = kept.ticked ?? {};
    /** The places in the record of this screen's own events, by their ids. */
    this.places = kept.places ?? {};
  }

  /** Whoever reloads the page can still take back what he tapped before. */
  #keep() {
    const { undone, targets, ticked, places } = this;
    try {
      sessionStorage.setItem(this.place, JSON.stringify({ done: this.done.slice(-MOST), undone, targets, ticked, places }));
    } catch {
      // A full store: what was tapped can be taken back while the page is open.
    }
  }

  made(event, restores) {
    this.done.push({ event, flips: [] });
    this.undone = [];
    if (event.kind === "undo") this.targets[event.id] = event.event;
    if (event.kind === "done") this.ticked[event.id] = event;
    if (restores?.kind === "done") this.ticked[event.event] = restores;
    this.#keep();
  }

  /** The server keeps the event: the state names it by its place from now on. */
  arrived(id, place) {
    this.places[id] = place;
    this.#keep();
  }

  /** Whether a tick was made by this event: an id, or the place of one that was kept already. */
  isOf(tick, event) {
    return tick.event === event || (tick.place !== undefined && tick.place === (this.places[event] ?? event));
  }

  /** A tap that was not accepted, or came after another bench's, is none that could be taken back. */
  refused(id) {
    this.done = this.done.filter((tap) => tap.event.id !== id);
    this.#keep();
  }

  /** What `back` would take back, in words; empty where there is nothing. */
  get last() {
    const tap = this.done.at(-1);
    return tap ? WORDS[tap.event.kind](tap.event, this.record) : "";
  }

  get next() {
    const tap = this.undone.at(-1);
    return tap ? WORDS[tap.event.kind](tap.event, this.record) : "";
  }

  back() {
    const tap = this.done.pop();
    if (!tap) return;
    this.undone.push(tap);
    this.#flip(tap);
  }

  forth() {
    const tap = this.undone.pop();
    if (!tap) return;
    this.done.push(tap);
    this.#flip(tap);
  }

  /** Take back the last thing that was said of this tap: the tap, or what took it back. */
  #flip(tap) {
    const target = tap.flips.at(-1) ?? tap.event.id;
    const event = this.record.again("undo", { event: target });
    this.targets[event.id] = target;
    tap.flips.push(event.id);
    this.#keep();
  }

  /** What a step back comes to in the end: the event it is about, and whether that stands or not. */
  outcome(target) {
    let stands = false;
    while (this.targets[target]) {
      target = this.targets[target];
      stands = !stands;
    }
    return { target, stands, ticked: this.ticked[target] };
  }
}
