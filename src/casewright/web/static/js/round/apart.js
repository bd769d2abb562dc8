/** Takes cases apart: every part moves straight away from the middle of its case. */
import { Box3, Vector3 } from "three";
import { partsOf } from "./load.js";

const FAR = 0.9;

/**
 * @param {import("three").Object3D | null} model
 * @param {number} share from 0 (together) to 1 (well apart)
 */
export function takeApart(model, share) {
  if (!model) return;
  for (const parts of byCase(model).values()) {
    const middles = parts.map(middleAtHome);
    const middle = middles.reduce((sum, one) => sum.add(one), new Vector3()).divideScalar(parts.length);
    parts.forEach((part, index) => {
      part.position.copy(home(part)).addScaledVector(middles[index].sub(middle), share * FAR);
    });
  }
}

/** @param {import("three").Object3D} model @returns {Map<string, import("three").Mesh[]>} */
function byCase(model) {
  const cases = new Map();
  for (const part of partsOf(model)) {
    const list = cases.get(part.userData.case) ?? [];
    cases.set(part.userData.case, [...list, part]);
  }
  return cases;
}

/** @param {import("three").Mesh} part @returns {Vector3} where it stands in the finished case */
function home(part) {
  part.userData.home ??= part.position.clone();
  return part.userData.home;
}

/** @param {import("three").Mesh} part @returns {Vector3} */
function middleAtHome(part) {
  part.geometry.boundingBox ?? part.geometry.computeBoundingBox();
  return new Box3().copy(part.geometry.boundingBox).getCenter(new Vector3()).add(home(part));
}
