"""A plain job file, and what is said of it with one line changed or one more."""

from __future__ import annotations

from casewright.findings import Finding
from casewright.jobfile.read.read_job import read_job
from finding_rows import Provoke, told

PLAIN = """\
job = "Net loft"
unit = "in"

[made_of]
case = "birch"
back = "birch"

[materials.birch]
name = "birch ply"
nominal = "3/4"
usual = "0.71"
deviation = "0.005"
trim = "1/4"
size = [96, 48]
price = 70
weight = "2.2 lb/ft2"

[[runs]]
name = "north wall"
opening = 60

[[runs.cases]]
mark = "N1"
kind = "base"
width = 30

[[runs.cases]]
mark = "N2"
kind = "base"
"""


def of(text: str) -> Provoke:
    def findings() -> tuple[Finding, ...]:
        return told(lambda: read_job(text))

    return findings


def changed(old: str, new: str) -> Provoke:
    """The plain job with one line of it changed; it must stand there once."""
    assert PLAIN.count(old) == 1, old
    return of(PLAIN.replace(old, new))


def also(text: str) -> Provoke:
    return of(f"{PLAIN}\n{text}\n")
