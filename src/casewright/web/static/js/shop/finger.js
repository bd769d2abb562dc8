/** Whether a finger is down on the screen: what it presses must not be drawn anew before it is up. */

/** A tap's click follows the finger's lifting within this many milliseconds, or never comes. */
const CLICK_FOLLOWS = 350;

export class Finger {
  /** @param {HTMLElement} root @param {() => void} lifted told once a drawing that was put off can be made */
  constructor(root, lifted) {
    this.down = false;
    this.waiting = false;
    this.lifted = lifted;
    root.addEventListener("pointerdown", () => {
      clearTimeout(this.click);
      this.down = true;
    });
    // Before the button's own listener, so that what the tap changes is drawn at once.
    root.addEventListener("click", () => (this.down = false), { capture: true });
    root.addEventListener("click", () => this.#up());
    for (const name of ["pointerup", "pointercancel"]) {
      window.addEventListener(name, () => (this.click = setTimeout(() => this.#up(), CLICK_FOLLOWS)));
    }
  }

  /** True while a finger is down; then `lifted` is called once it is up. */
  holds() {
    this.waiting = this.down;
    return this.down;
  }

  #up() {
    this.down = false;
    if (!this.waiting) return;
    this.waiting = false;
    this.lifted();
  }
}
