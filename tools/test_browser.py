"""See that the browser and the PDF reader which only the tests need are there; install them if not."""

import os
import shutil
import subprocess

NEEDED = {"chromium": "chromium", "pdftoppm": "poppler-utils"}


def main() -> None:
    missing = sorted(package for command, package in NEEDED.items() if not shutil.which(command))
    if not missing:
        return
    print(f"The tests need {', '.join(missing)}: installing with apt-get (Debian, as root) ...", flush=True)
    if not shutil.which("apt-get") or os.geteuid() != 0:
        raise SystemExit(
            f"Please install {', '.join(missing)} with your system's packages, then run make test again."
        )
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    subprocess.run(["apt-get", "-qq", "update"], check=True, env=quiet, stdout=subprocess.DEVNULL)
    subprocess.run(
        ["apt-get", "-qq", "install", "-y", "--no-install-recommends", *missing],
        check=True,
        env=quiet,
        stdout=subprocess.DEVNULL,
    )


if __name__ == "__main__":
    main()
