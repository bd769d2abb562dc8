/** The stage: light, a place to look from, and drawing only when something has moved. */
import {
  Box3,
  DirectionalLight,
  HemisphereLight,
  PerspectiveCamera,
  Scene,
  Vector3,
  WebGLRenderer,
} from "three";
import { OrbitControls } from "/static/vendor/controls/OrbitControls.js";

const LOOKS = {
  corner: new Vector3(-0.55, 0.42, 1),
  front: new Vector3(0, 0.02, 1),
  left: new Vector3(-1, 0.05, 0.02),
  above: new Vector3(0, 1, 0.02),
};

export class Stage {
  /** @param {HTMLCanvasElement} canvas */
  constructor(canvas) {
    this.canvas = canvas;
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.scene = new Scene();
    this.camera = new PerspectiveCamera(32, 1, 0.02, 200);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.addEventListener("change", () => this.draw());
    this.controls.listenToKeyEvents(canvas);
    this.scene.add(new HemisphereLight(0xffffff, 0xb8a888, 2.2));
    const sun = new DirectionalLight(0xffffff, 1.3);
    sun.position.set(-2, 3, 4);
    this.scene.add(sun);
    /** @type {import("three").Object3D | null} */
    this.model = null;
    new ResizeObserver(() => this.fit()).observe(canvas.parentElement);
    this.fit();
  }

  /** @param {import("three").Object3D} model takes the place of the one before */
  put(model) {
    if (this.model) this.scene.remove(this.model);
    this.model = model;
    this.scene.add(model);
    this.draw();
  }

  /** @param {keyof typeof LOOKS} way look at the whole job from there */
  look(way) {
    const box = new Box3().setFromObject(this.model);
    const middle = box.getCenter(new Vector3());
    const size = box.getSize(new Vector3());
    const half = Math.tan((this.camera.fov * Math.PI) / 360);
    const reach = Math.max(size.y, size.x / this.camera.aspect, size.z / this.camera.aspect) / 2;
    const away = (reach / half) * 1.12 + Math.min(size.z, size.x) / 2;
    this.controls.target.copy(middle);
    this.camera.position.copy(LOOKS[way]).normalize().multiplyScalar(away).add(middle);
    this.controls.update();
    this.draw();
  }

  fit() {
    const { clientWidth, clientHeight } = this.canvas;
    if (!clientWidth || !clientHeight) return;
    this.renderer.setSize(clientWidth, clientHeight, false);
    this.camera.aspect = clientWidth / clientHeight;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  draw() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.renderer.render(this.scene, this.camera);
    });
  }
}
