"""Compiles the planner's kernel at install, with the C compiler that the `ziglang` wheel brings.

The kernel is a plain shared library that ctypes loads: it needs no Python headers.
"""

import importlib.util
import os
import subprocess
import sys
import sysconfig
import tempfile
from pathlib import Path

from setuptools import Distribution, Extension, setup
from setuptools.command.build_ext import build_ext

KERNEL = Path("src/casewright/planner/engine/kernel")
# No -march: a wheel must run on other machines than the one it was built on.
# -ffp-contract=off: the same seed gives the same plan on every processor.
# -DNDEBUG: the kernel's assertions are for its own test (tests/planner/engine/test_kernel.py).
FLAGS = ["-O3", "-shared", "-ffp-contract=off", "-fvisibility=hidden", "-DNDEBUG"]
FLAGS += ["-Wall", "-Wextra", "-Werror"]


def fingerprint() -> int:
    """What `kernel_binding.py` will compare the loaded library with."""
    spec = importlib.util.spec_from_file_location("native", KERNEL.parent / "kernel_binding.py")
    assert spec and spec.loader
    native = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(native)
    number: int = native.fingerprint(KERNEL)
    return number


def library_suffix() -> str:
    return {"win32": ".dll", "darwin": ".dylib"}.get(sys.platform, ".so")


class BuildKernel(build_ext):
    """Builds with `python -m ziglang cc` into <package>/_kernel.{so,dylib,dll}."""

    def get_ext_filename(self, fullname: str) -> str:
        return str(Path(*fullname.split(".")).with_suffix(library_suffix()))

    def build_extension(self, ext: Extension) -> None:
        target = Path(self.get_ext_fullpath(ext.name))
        target.parent.mkdir(parents=True, exist_ok=True)
        flags = [*FLAGS, f"-DKERNEL_SOURCES={fingerprint()}u"]
        if sys.platform != "win32":
            flags.append("-fPIC")
        with tempfile.TemporaryDirectory() as cache:
            command = [sys.executable, "-m", "ziglang", "cc", *flags, "-o", str(target), *ext.sources]
            environment = {**os.environ, "ZIG_GLOBAL_CACHE_DIR": cache, "ZIG_LOCAL_CACHE_DIR": cache}
            done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
        if done.returncode != 0 or not target.exists():
            raise SystemExit(
                "The planner's kernel could not be compiled.\n"
                f"Command: {' '.join(command)}\n{done.stderr}\n"
                f"Platform: {sysconfig.get_platform()}. The compiler comes with the build requirement"
                " `ziglang`; with pip's --no-build-isolation, install `ziglang` first."
            )


class WithLibrary(Distribution):
    def has_ext_modules(self) -> bool:  # wheels are for one platform
        return True


setup(
    ext_modules=[
        Extension(
            "casewright.planner.engine._kernel",
            sources=sorted(str(path) for path in KERNEL.glob("*.c")),
            depends=sorted(str(path) for path in KERNEL.glob("*.h")),
        )
    ],
    cmdclass={"build_ext": BuildKernel},
    distclass=WithLibrary,
)
