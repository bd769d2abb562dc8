/** A tap on a part of the model marks it in red; a drag only turns the model. */
import { Raycaster, Vector2 } from "three";
import { partsOf } from "./load.js";

const STILL = 6;
const RED = 0xc8402a;

export class Picker {
  /**
   * @param {import("./stage.js").Stage} stage
   * @param {(part: import("three").Mesh) => void} picked
   */
  constructor(stage, picked) {
    this.stage = stage;
    this.picked = picked;
    this.part = null;
    let down = null;
    stage.canvas.addEventListener("pointerdown", (event) => (down = new Vector2(event.clientX, event.clientY)));
    stage.canvas.addEventListener("pointerup", (event) => {
      if (down && down.distanceTo(new Vector2(event.clientX, event.clientY)) < STILL) this.pick(event);
      down = null;
    });
  }

  /** @param {PointerEvent} event */
  pick(event) {
    const box = this.stage.canvas.getBoundingClientRect();
    const at = new Vector2(
      ((event.clientX - box.left) / box.width) * 2 - 1,
      1 - ((event.clientY - box.top) / box.height) * 2,
    );
    const ray = new Raycaster();
    ray.setFromCamera(at, this.stage.camera);
    const [hit] = ray.intersectObjects(partsOf(this.stage.model), false);
    if (!hit) return;
    this.part?.material.emissive.set(0);
    this.part = hit.object;
    this.part.material.emissive.set(RED).multiplyScalar(0.55);
    this.stage.draw();
    this.picked(this.part);
  }

  /** Nothing is picked any more: the model has been replaced. */
  forget() {
    this.part = null;
  }
}
