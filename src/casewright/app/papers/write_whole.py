"""Files written whole or not at all."""

from __future__ import annotations

from contextlib import suppress
from os import getpid, link
from pathlib import Path

from ...errors import CasewrightError


def write_whole(name: str, content: bytes, *, over: bool = True, fix: str = "choose another name") -> None:
    """Write `content` to the file of that name, in a folder that is there.

    What stood there before stays untouched until all of the new is written; without `over` it is
    never replaced. CasewrightError, with `fix` as what to do, when the file cannot be written.
    """
    try:
        if not over:
            _create(Path(name), content)
            return
        target = Path(name).resolve()
        if target.exists() and not target.is_file():  # a pipe or a printer is written to, not replaced
            target.write_bytes(content)
        else:
            _replace(target, content)
    except FileExistsError:
        raise CasewrightError(
            f"{name} already exists; choose another name, or use --force to replace it."
        ) from None
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else "this is not a valid file name"
        raise CasewrightError(f"{name or 'a file with no name'} cannot be written: {why}; {fix}.") from None


def _create(target: Path, content: bytes) -> None:
    """Make a file that is not there: whole at once, where the folder's disk can link files."""
    if target.exists():
        raise FileExistsError(target)
    half = target.with_name(f".{target.name}-{getpid()}.half")
    try:
        half.write_bytes(content)
        link(half, target)
    except FileExistsError:
        raise
    except OSError:
        with target.open("xb") as file:
            file.write(content)
    finally:
        with suppress(OSError):
            half.unlink(missing_ok=True)


def _replace(target: Path, content: bytes) -> None:
    half = target.with_name(f".{target.name}.half")
    try:
        half.write_bytes(content)
        half.replace(target)
    finally:
        with suppress(OSError):
            half.unlink(missing_ok=True)
