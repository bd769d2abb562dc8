/** What this bench has noted, and what all benches have said. Nothing noted is lost or sent as two.
 *
 * Every event gets its id here and lies in the browser's own store until the server says it is kept.
 * Sending it again is harmless, since the server keeps each id once.
 */

import { merged, unpacked } from "./state_format.js";
import { Taps } from "./taps.js";

const POLL = 500;
const RETRY = 2000;
const EMPTY = { place: -1, seq: 0, ticks: {}, parts: {}, readings: {}, settings: {}, findings: [], more: 0 };

/** An id no other event has. (`randomUUID` is missing where the page is not served securely.) */
function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export class ShopRecord extends EventTarget {
  /** @param {string} base the address of the shop screen */
  constructor(base) {
    super();
    this.base = base;
    this.taps = new Taps(this);
    this.store = `casewright ${base} `;
    this.state = this.#read("state") ?? EMPTY;
    this.work = this.#read("work") ?? null;
    this.online = true;
    this.loading = this.work === null;
    this.full = false;
    this.unkept = new Map();
    this.sending = false;
    this.problem = "";
    /** This device was put out: what is noted waits here until it is paired again. */
    this.unpaired = false;
    window.addEventListener("online", () => this.send());
    // Another tab of this browser shares the store.
    window.addEventListener("storage", (event) => event.key?.startsWith(this.store) && this.#changed());
  }

  get bench() {
    return localStorage.getItem("casewright bench") ?? "";
  }

  set bench(name) {
    localStorage.setItem("casewright bench", name);
    this.#changed();
  }

  /** Events not yet known to be kept, in the order in which they were noted. */
  get waiting() {
    return this.#all("event ").sort((a, b) => a.seq - b.seq);
  }

  /** Events the server refused, each with why; they stay until the maker has seen them. */
  get refused() {
    return this.#all("refused ");
  }

  /** Ticks of steps that were ticked already when they arrived; they stay until the maker has seen them. */
  get already() {
    return this.#all("already ");
  }

  forgetAlready() {
    for (const { id, step } of this.already) this.#remove(`already ${id} ${step}`);
    this.#changed();
  }

  /** Everything there is to look at, which only the server knows; null while it cannot be asked. */
  async findings() {
    try {
      return await (await this.#ask("/findings")).json();
    } catch {
      this.#reached(false);
      return null;
    }
  }

  /** Those about one part or case; a reading of its sheet is one of them. */
  refusedOf(mark) {
    const sizes = (this.work?.parts[mark] ?? this.work?.cases[mark])?.sizes.map((size) => size.name) ?? [];
    const about = (event) => [event.part, event.name, event.name?.split(".")[0]].includes(mark) || sizes.includes(event.name);
    return this.refused.filter(about);
  }

  /** A joint as a maker calls it; its key where the work is not at hand or has it no more. */
  jointWords(key) {
    const joints = Object.values(this.work?.cases ?? {}).flatMap((one) => one.joints);
    return joints.find((joint) => joint.name === key)?.words ?? key;
  }

  /**
   * Note that something happened; it is kept here at once and sent as soon as can be. What `undo` takes back
   * is given as `restores`, so that it can be made again.
   */
  note(kind, what, restores = null) {
    const event = this.#put(kind, what);
    this.taps.made(event, restores);
    return event;
  }

  /** The same for a step back or forth, which is no new tap of its own. */
  again(kind, what) {
    return this.#put(kind, what);
  }

  #put(kind, what) {
    const seq = Math.max(this.state.seq, ...this.waiting.map((event) => event.seq)) + 1;
    const event = { id: newId(), bench: this.bench || "bench", seq, at: new Date().toISOString(), kind, ...what };
    this.#write(`event ${event.id}`, event);
    this.#changed();
    this.send();
    return event;
  }

  /** The reading or setting that was asked about, sent as the maker now says it; `sure` for one that he keeps. */
  answer(event, said, sure = false) {
    this.#remove(`refused ${event.id}`);
    const about = event.kind === "setting" ? { setting: event.setting } : { name: event.name, tool: event.tool };
    this.note(event.kind, { ...about, said, ...(sure ? { sure } : {}) });
  }

  forgetRefused(id) {
    this.#remove(`refused ${id}`);
    this.#changed();
  }

  /** Load the work, then follow what the benches say. */
  async start() {
    await this.#load();
    this.loading = false;
    this.#changed();
    await this.send();
    this.#follow();
  }

  async #load() {
    try {
      const known = this.work && this.#read("work tag");
      const answer = await this.#ask("/work", { headers: { Accept: "application/json", ...(known && { "If-None-Match": known }) } });
      if (answer.status !== 304) {
        this.work = await answer.json();
        this.#write("work", this.work);
        this.#write("work tag", answer.headers.get("ETag"));
      }
      this.#reached(true);
    } catch {
      this.#reached(false);
    }
  }

  async #follow() {
    for (;;) {
      await new Promise((wake) => setTimeout(wake, document.hidden ? POLL * 6 : POLL));
      try {
        const known = new URLSearchParams({ after: this.state.place, work: this.state.work ?? "" });
        const answer = await this.#ask(`/state?${known}`);
        const wasOffline = !this.online;
        this.#reached(true);
        if (answer.status !== 204) await this.#take(await answer.json());
        if (this.work && this.work.work !== this.state.work) await this.#load().then(() => this.#changed());
        if (wasOffline || this.waiting.length) await this.send();
      } catch {
        this.#reached(false);
      }
    }
  }

  async send() {
    const events = this.waiting.slice(0, 200);
    if (this.sending || !events.length) return;
    this.sending = true;
    try {
      const answer = await this.#ask("/events", {
        method: "POST",
        headers: { "Content-Type": "application/json", Accept: "application/json" },
        body: JSON.stringify({ events, after: this.state.place, work: this.state.work ?? "" }),
      });
      const { kept, places, already, refused, state } = await answer.json();
      kept.forEach((id, number) => {
        this.taps.arrived(id, places[number]);
        this.#remove(`event ${id}`);
      });
      for (const one of already) {
        this.taps.refused(one.id);
        this.#write(`already ${one.id} ${one.step}`, one);
      }
      for (const fault of refused) {
        const event = events.find((one) => one.id === fault.id);
        if (!event) continue;
        this.taps.refused(event.id);
        this.#write(`refused ${event.id}`, { ...event, why: `${fault.text} ${fault.fix}`, asks: fault.asks ?? null });
        this.#remove(`event ${event.id}`);
      }
      this.#reached(true);
      await this.#take(state);
    } catch {
      this.#reached(false);
      setTimeout(() => this.send(), RETRY);
    } finally {
      this.sending = false;
    }
    if (this.online && this.waiting.length) this.send();
  }

  async #ask(path, options = {}) {
    const answer = await fetch(this.base + path, { cache: "no-store", headers: { Accept: "application/json" }, ...options });
    if (!answer.ok && answer.status !== 304) {
      const said = await answer.json().catch(() => null);
      this.#stopped(said?.error?.text ?? "", said?.error?.code === "not-paired");
      throw new Error(this.problem);
    }
    this.#stopped("", false);
    return answer;
  }

  /** What the server says stands in the way; empty for nothing. */
  #stopped(problem, unpaired) {
    if (this.problem === problem && this.unpaired === unpaired) return;
    Object.assign(this, { problem, unpaired });
    this.#changed();
  }

  #reached(yes) {
    if (this.online === yes) return;
    this.online = yes;
    this.#changed();
  }

  /** Take over the whole state, or what has changed since the place that was asked about; null is nothing.
   * An answer about a place that this bench has gone on from in the meantime is left: the next one tells all
   * the same. */
  async #take(said) {
    const { place, work } = this.state;
    if (said?.changes && said.after === place && said.work === work) this.#keep(merged(this.state, said));
    if (said && !said.changes) {
      if (this.work?.work !== said.work) await this.#load();
      // Without the work that it counts by it means nothing; the next answer tells it again.
      if (this.work?.work === said.work) this.#keep(unpacked(said, this.work));
    }
    this.#changed();
  }

  #keep(state) {
    this.state = state;
    this.#write("state", state);
  }

  /** How things stand as the server last said, with ticks not sent yet laid over it. What the rest comes
   * to only the server works out; until then `unsent` tells what is kept here. */
  view() {
    const ticks = { ...this.state.ticks };
    for (const event of this.waiting) {
      if (event.kind === "done") {
        for (const step of event.steps) ticks[step] ??= { bench: event.bench, event: event.id, waiting: true };
      } else if (event.kind === "undo") {
        const { target, stands, ticked } = this.taps.outcome(event.event);
        if (!stands) for (const [step, tick] of Object.entries(ticks)) if (this.taps.isOf(tick, target)) delete ticks[step];
        if (stands && ticked) for (const step of ticked.steps) ticks[step] ??= { bench: event.bench, event: target, waiting: true };
      }
    }
    return { ...this.state, ticks };
  }

  /** Events about a part, case or setting that are not sent yet and have not been taken back. */
  unsent(name) {
    const back = new Set(this.waiting.map((event) => event.kind === "undo" && event.event));
    const about = (event) =>
      [event.part, event.name, event.name?.split(".")[0], event.setting, ...(event.parts ?? [])].includes(name) ||
      (event.kind === "undo" && event.event === this.state.parts[name]?.event);
    return this.waiting.filter((event) => !back.has(event.id) && about(event));
  }

  #all(kind) {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(this.store + kind));
    const kept = keys.map((key) => JSON.parse(localStorage.getItem(key)));
    return [...kept, ...[...this.unkept].filter(([name]) => name.startsWith(kind)).map(([, value]) => value)];
  }

  #read(name) {
    const text = localStorage.getItem(this.store + name);
    return text === null ? null : JSON.parse(text);
  }

  /** A browser whose store is full still holds an event until it is sent, as long as the page is open. */
  #write(name, value) {
    try {
      localStorage.setItem(this.store + name, JSON.stringify(value));
      this.full = this.unkept.size > 0;
    } catch {
      if (!["work", "work tag", "state"].includes(name)) this.unkept.set(name, value);
      this.full = true;
    }
  }

  #remove(name) {
    this.unkept.delete(name);
    localStorage.removeItem(this.store + name);
  }

  #changed() {
    this.dispatchEvent(new Event("change"));
  }
}
