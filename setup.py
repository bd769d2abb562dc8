"""What a build does beyond copying Python: it compiles the kernel and brings in the page's libraries.

The kernel is a plain shared library that ctypes loads. It needs no Python headers, so one wheel serves
every Python on a platform. The compiler and npm come as wheels (see pyproject.toml) and are gone afterwards.
"""

import importlib.util
import os
import platform
import subprocess
import sys
import sysconfig
import tempfile
from pathlib import Path
from types import ModuleType
from typing import ClassVar

from setuptools import Command, Distribution, Extension, setup
from setuptools.command.bdist_wheel import bdist_wheel
from setuptools.command.build import build
from setuptools.command.build_ext import build_ext

SOURCE = Path("src")
KERNEL = SOURCE / "casewright/planner/engine/kernel"
VENDOR = SOURCE / "casewright/web/static/vendor"
FRONT_END = Path("tools/front_end.py")

# -ffp-contract=off: the same seed gives the same plan on every processor.
# -DNDEBUG: the kernel's assertions are for its own test (tests/planner/engine/test_kernel.py).
FLAGS = ["-O3", "-s", "-shared", "-ffp-contract=off", "-fvisibility=hidden", "-DNDEBUG"]
FLAGS += ["-Wall", "-Wextra", "-Werror"]


def module_at(path: Path) -> ModuleType:
    """A module of this project that can be used before the project is installed."""
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def target_and_tag() -> tuple[list[str], str]:
    """The compiler's target, and the wheel tag of the oldest system that can load what it makes.

    A target is always named: left to itself the compiler uses every instruction of the machine
    it runs on, and the wheel would crash on an older one.
    """
    here = sysconfig.get_platform()  # linux-x86_64, macosx-11.0-arm64, win-amd64, ...
    machine = {"arm64": "aarch64", "amd64": "x86_64"}.get(platform.machine().lower(), platform.machine())
    if machine not in ("x86_64", "aarch64"):
        return ["-mcpu=baseline"], here.replace("-", "_").replace(".", "_")
    if sys.platform == "win32":
        return ["-target", f"{machine}-windows-gnu"], here.replace("-", "_")
    if sys.platform == "darwin":
        return (
            ["-target", f"{machine}-macos.11.0"],
            f"macosx_11_0_{'arm64' if machine == 'aarch64' else machine}",
        )
    if platform.libc_ver()[0] == "glibc":
        return ["-target", f"{machine}-linux-gnu.2.17"], f"manylinux_2_17_{machine}"
    return ["-target", f"{machine}-linux-musl"], f"linux_{machine}"


class BuildKernel(build_ext):
    """Builds with `python -m ziglang cc` into <package>/_kernel.{so,dylib,dll}."""

    def get_ext_filename(self, fullname: str) -> str:
        suffix = {"win32": ".dll", "darwin": ".dylib"}.get(sys.platform, ".so")
        return str(Path(*fullname.split(".")).with_suffix(suffix))

    def build_extension(self, ext: Extension) -> None:
        library = Path(self.get_ext_fullpath(ext.name))
        library.parent.mkdir(parents=True, exist_ok=True)
        # kernel_binding.py compares the loaded library with this number.
        fingerprint = module_at(KERNEL.parent / "fingerprint.py").fingerprint(KERNEL)
        flags = [*FLAGS, *target_and_tag()[0], f"-DKERNEL_SOURCES={fingerprint}u"]
        if sys.platform != "win32":
            flags.append("-fPIC")
        with tempfile.TemporaryDirectory() as cache:
            made = Path(cache, library.name)  # alone there: on Windows the linker leaves more beside it
            sources = [str(source) for source in ext.sources]
            command = [sys.executable, "-m", "ziglang", "cc", *flags, "-o", str(made), *sources]
            environment = {**os.environ, "ZIG_GLOBAL_CACHE_DIR": cache, "ZIG_LOCAL_CACHE_DIR": cache}
            done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
            if done.returncode != 0 or not made.exists():
                raise SystemExit(
                    "The planner's kernel could not be compiled.\n"
                    f"Command: {' '.join(command)}\n{done.stderr}\n"
                    f"Platform: {sysconfig.get_platform()}. The compiler comes with the build requirement"
                    " `ziglang`; with pip's --no-build-isolation, install `ziglang` first."
                )
            self.copy_file(str(made), str(library))


class BuildPage(Command):
    """Fetches the page's libraries with their licences; none of them is committed."""

    description = "fetch the page's libraries"
    user_options: ClassVar[list[tuple[str, str | None, str]]] = []
    editable_mode = False
    build_lib: str | None = None

    def initialize_options(self) -> None:
        self.build_lib = None

    def finalize_options(self) -> None:
        self.set_undefined_options("build", ("build_lib", "build_lib"))

    def run(self) -> None:
        module_at(FRONT_END).lay_in(SOURCE / self._inside() if self.editable_mode else Path(self._target()))

    def _inside(self) -> Path:
        return VENDOR.relative_to(SOURCE)

    def _target(self) -> Path:
        return Path(str(self.build_lib)) / self._inside()

    def get_source_files(self) -> list[str]:
        return [str(FRONT_END), "package.json", "package-lock.json", ".npmrc"]

    def get_outputs(self) -> list[str]:
        return [str(self._target() / name) for name in module_at(FRONT_END).FILES.values()]

    def get_output_mapping(self) -> dict[str, str]:
        return {}


class Build(build):
    sub_commands: ClassVar = [*build.sub_commands, ("build_page", None)]


class Wheel(bdist_wheel):
    """Any Python 3, one platform."""

    def get_tag(self) -> tuple[str, str, str]:
        return "py3", "none", target_and_tag()[1]


class WithLibrary(Distribution):
    def has_ext_modules(self) -> bool:  # wheels are for one platform
        return True


setup(
    ext_modules=[
        Extension(
            ".".join((*KERNEL.parent.relative_to(SOURCE).parts, "_kernel")),
            sources=sorted(str(path) for path in KERNEL.glob("*.c")),
            depends=sorted(str(path) for path in KERNEL.glob("*.h")),
        )
    ],
    cmdclass={"build": Build, "build_ext": BuildKernel, "build_page": BuildPage, "bdist_wheel": Wheel},
    distclass=WithLibrary,
)
