/** Fetches the job's model and gives its parts a pencil line along every edge. */
import { EdgesGeometry, LineBasicMaterial, LineSegments } from "three";
import { GLTFLoader } from "/static/vendor/loaders/GLTFLoader.js";

const PENCIL = new LineBasicMaterial({ color: 0x2b2720 });
const SHARP = 20;

/**
 * @param {string} address
 * @returns {Promise<import("three").Group>} the model, one mesh for each part
 */
export async function load(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error("the job cannot be built; the Drawing page lists why.");
  const { scene } = await new GLTFLoader().parseAsync(await answer.arrayBuffer(), "");
  /** @type {Map<import("three").BufferGeometry, EdgesGeometry>} */
  const lines = new Map();
  for (const part of partsOf(scene)) {
    if (!lines.has(part.geometry)) lines.set(part.geometry, new EdgesGeometry(part.geometry, SHARP));
    part.material = part.material.clone();
    part.material.polygonOffset = true;
    part.material.polygonOffsetFactor = 1;
    part.material.polygonOffsetUnits = 1;
    const edges = new LineSegments(lines.get(part.geometry), PENCIL);
    edges.raycast = () => {};
    part.add(edges);
  }
  return scene;
}

/** @param {import("three").Object3D} model @returns {import("three").Mesh[]} */
export function partsOf(model) {
  const parts = [];
  model.traverse((node) => {
    if (node.isMesh && node.userData.mark) parts.push(node);
  });
  return parts;
}
