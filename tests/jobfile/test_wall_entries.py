"""What a job file says of walls: read, written back, and kept in the other unit."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.job import Job
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import Unit
from casewright.shop.walls import Framing, KnownWall, StudWood
from jobfile.changed_jobs import PLAIN


def against(entries: str) -> Job:
    return read_job(PLAIN.replace("opening = 60", f"opening = 60\n{entries}"))


EVEN = 'framing = { kind = "wood studs", first = "9 1/2", every = 16, wood = "hem-fir", lining = "5/8" }'


def test_studs_that_stand_evenly_and_studs_one_by_one() -> None:
    wall = against(EVEN).walls["wall"]
    assert (wall.kind, wall.wood, wall.lining) == (Framing.WOOD_STUDS, StudWood.HEM_FIR, F(5, 8))
    assert wall.studs_between(F(10), F(60)) == (F("25.5"), F("41.5"), F("57.5"))
    assert wall.studs_between(F("9.5"), F("9.5")) == (F("9.5"),)
    single = against("framing = { studs = [40, 8, 23] }").walls["wall"]
    assert single.studs_known and single.studs_between(F(8), F(39)) == (F(8), F(23))
    assert not KnownWall().studs_known and KnownWall().studs_between(F(0), F(999)) == ()
    assert against("wall_gaps = [0, 1]").walls == {}, "nothing is said of what carries it"


def test_gaps_are_kept_in_their_order() -> None:
    (run,) = against('left_gaps = ["1/4", 0, "3/8"]\nwall_gaps = [0, "1/8"]').runs
    assert (run.left_gaps, run.right_gaps, run.wall_gaps) == ((F(1, 4), F(0), F(3, 8)), (), (F(0), F(1, 8)))


@pytest.mark.parametrize(
    "entries", [EVEN, "framing = { studs = [8, 23, 40], stud_width = 2 }", 'left_gaps = ["1/4", 0, "3/8"]']
)
def test_what_is_written_reads_back_the_same(entries: str) -> None:
    job = against(entries)
    assert read_job(write_job(job)) == job
    assert write_job(read_job(write_job(job))) == write_job(job)


def test_the_wall_is_said_once_of_two_runs_along_it() -> None:
    run, case = 'name = "further on"\nopening = 30\nalong = 70\n', 'mark = "S1"\nkind = "base"\n'
    second = f"[[runs]]\n{run}[[runs.cases]]\n{case}"
    job = read_job(write_job(against(EVEN)) + second)
    text = write_job(job)
    assert text.count("framing") == 1 and read_job(text) == job


def test_the_other_unit_turns_studs_and_gaps() -> None:
    text = PLAIN.replace("opening = 60", f'opening = 60\n{EVEN}\nleft_gaps = ["1/4", 0]')
    there = read_job(in_other_unit(text, Unit.MM, exactly=True).text)
    assert there.walls == read_job(text).walls and there.runs[0].left_gaps == (F(1, 4), F(0))
