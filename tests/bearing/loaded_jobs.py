"""Jobs by their text for tests of what cases bear: sheets of the catalogue, one run, a case or two."""

from __future__ import annotations

from collections.abc import Iterable

from casewright.bearing.borne import Borne, borne
from casewright.casework.project import Project, draw_up
from casewright.findings import Finding
from casewright.jobfile.read.read_job import read_job
from finding_rows import Provoke

CARRY = "[shop.carry]\nweight = 35\nlength = 72"
STUDS = 'framing = { kind = "wood studs", first = 8, every = 16 }'
WALL_CASE = 'kind = "wall"\nwidth = 33\nheight = 30\ndepth = 12'


def text(
    *cases: str,
    shelf: str = "mdf",
    strip: str = "ply",
    holds: str = 'holds = "anything"',
    run: str = f"lift = 54\n{STUDS}",
    more: str = "",
) -> str:
    """A job's text; `cases` are the entries of each case but its mark, `more` whole tables."""
    marked = "".join(f'[[runs.cases]]\nmark = "W{n}"\n{one}\n' for n, one in enumerate(cases, 1))
    return f"""
job = "Loaded"
unit = "in"
[materials.ply]
sheet = "hardwood ply 3/4"
[materials.mdf]
sheet = "mdf 3/4"
[materials.thin]
sheet = "hardwood ply 1/4"
[made_of]
case = "ply"
back = "thin"
shelf = "{shelf}"
strip = "{strip}"
[loads]
{holds}
{CARRY if "[shop.carry]" not in more else ""}
{more}
[[runs]]
name = "north"
opening = 120
{run}
{marked}"""


def drawn(job_text: str) -> Project:
    """The project of a text."""
    return draw_up(read_job(job_text))


def borne_by(job_text: str) -> Borne:
    """What the cases of a text bear."""
    return borne(drawn(job_text))


def of(job_text: str) -> Provoke:
    """What is said of it."""

    def findings() -> Iterable[Finding]:
        return borne_by(job_text).findings

    return findings
