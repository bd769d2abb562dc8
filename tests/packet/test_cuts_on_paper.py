"""The cuts on paper are the steps': the same settings in the same order, each cut once, each letter chalked.

In the shops of the examples and in odd ones: a track saw, a short fence, a maker who carries whole sheets.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any

import pytest

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.papers.packet_files import packet_of
from casewright.app.shop.step_list import steps_json
from casewright.jobfile.write.write_job import write_job
from casewright.packet.pages.table_saw_pages import saw_settings
from casewright.packet.pages.trestle_pages import trestle_work
from casewright.packet.shop_packet import packet_data
from casewright.workshop.operations import Machine, cut_key
from example_files import EXAMPLES
from oracles.odd_shops import odd_job

JOBS = ("pottery-studio", "ferry-canteen", *(f"odd job {seed}" for seed in (0, 4, 5, 18, 40)))
OFFCUT = re.compile(r"offcut ([^;]+)")
CHALKED = re.compile(r"Chalk the (?:left piece|right piece|near piece|far piece|rest) (\d+[A-Z]+):")


@cache
def planned(name: str) -> PlannedJob:
    if name.startswith("odd"):
        return open_job(write_job(odd_job(int(name.split()[2])))).planned(0.03)
    return open_job((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")).planned(0.3)


@cache
def paper(name: str) -> dict[str, Any]:
    data: dict[str, Any] = packet_data(packet_of(planned(name)))
    return data


def cutting_steps(name: str, machine: Machine) -> list[tuple[int, Mapping[str, Any]]]:
    """The batches of cuts of sheets as `steps --json` has them, with their numbers."""
    cuts = every_cut(name)
    return [
        (number, batch)
        for number, batch in enumerate(steps_json(planned(name))["batches"], 1)
        if batch["machine"] == machine.value and batch["key"] in cuts
    ]


def every_cut(name: str) -> set[str]:
    return {
        cut_key(material, sheet.number, cut.order)
        for material, plan in planned(name).plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    }


@pytest.mark.parametrize("name", JOBS)
def test_the_fence_is_set_on_paper_as_in_the_steps(name: str) -> None:
    rows = [row for row in paper(name)["table_saw"]["rows"] if not row["where"]]
    steps = cutting_steps(name, Machine.TABLE_SAW)
    assert [int(row["number"]) for row in rows] == [number for number, _ in steps]
    for row, (_, batch) in zip(rows, steps, strict=True):
        assert row["title"] == batch["title"] and set(row["hints"]) <= set(batch["setting"])
        where = "sled" if row["guide"] == "sled and stop" else row["guide"].removeprefix("far side ")
        assert plain(where) in plain(" ".join(batch["setting"]))
        for cut, step in zip(row["steps"], batch["steps"], strict=True):
            told = plain(f"{step['piece']} {step['size']} {step['hold']}")
            assert told.startswith(plain(f"{cut['piece']} {cut['size']} {cut['edge']} against the"))
            assert all(
                plain(word) in told for word in (cut["becomes"], *OFFCUT.findall(cut["rest"]), cut["more"])
            )
            assert ("an offcut" in step["hold"]) == ("offcut" in cut["rest"])
            assert ("not critical" in step["hold"]) is not cut["critical"]


def plain(words: str) -> str:
    """Without what differs between a table and a sentence: thin spaces, inch marks, capitals."""
    return words.replace("\u2009", " ").replace('"', "").replace(" mm", "").lower()


@pytest.mark.parametrize("name", JOBS)
def test_every_cut_stands_once_at_the_trestles_or_at_the_table_saw(name: str) -> None:
    job = planned(name)
    by_hand = [
        cut.text.key
        for one in trestle_work(job.plans, job.sheet_marks, job.ordered, job.told)
        for cut in one.cuts
    ]
    at_saw = [step.key for one in saw_settings(job.ordered, job.told) for step in one.text.steps]
    assert sorted((*by_hand, *at_saw)) == sorted(every_cut(name))
    printed = [cut for sheet in paper(name)["trestles"]["sheets"] for cut in sheet["cuts"]]
    assert len(printed) == len(by_hand)
    assert sum(len(row.get("steps", ())) for row in paper(name)["table_saw"]["rows"]) == len(at_saw)
    elsewhere = (row for group in paper(name)["settings"]["groups"] for row in group["rows"])
    assert not {hold["what"] for row in elsewhere for hold in row["holds"]} & {"rip", "crosscut", "trim cut"}


@pytest.mark.parametrize("name", JOBS)
def test_cuts_by_hand_read_as_in_the_steps(name: str) -> None:
    told = {
        (number, step["piece"], step["size"], step["hold"])
        for number, batch in cutting_steps(name, Machine.HAND_SAW)
        for step in batch["steps"]
    }
    cuts = [cut for sheet in paper(name)["trestles"]["sheets"] for cut in sheet["cuts"]]
    assert {(cut["step"], cut["piece"], cut["size"], cut["hold"]) for cut in cuts} == told
    for sheet in paper(name)["trestles"]["sheets"]:
        numbers = [cut["number"] for cut in sheet["cuts"]]
        assert numbers == list(range(1, len(numbers) + 1))
        assert [cut["step"] for cut in sheet["cuts"]] == sorted(cut["step"] for cut in sheet["cuts"])
        assert all(cut["after"] < cut["step"] for cut in sheet["cuts"])


def cutting_batches(name: str) -> list[Mapping[str, Any]]:
    return [batch for batch in steps_json(planned(name))["batches"] if batch["key"] in every_cut(name)]


def never_chalked(batches: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    """The steps whose piece nobody has chalked before; a sheet not cut by hand needs no chalk."""
    chalked: set[str] = set()
    divided: set[str] = set()
    for batch in batches:
        for step in batch["steps"]:
            piece, sheet = step["piece"], step["key"].partition(" cut ")[0]
            at_table = batch["machine"] == "table saw"
            whole = piece == sheet and not (at_table and sheet in divided)
            if not whole and piece not in chalked:
                yield f"{step['key']}: {piece}"
            if at_table:
                chalked.add(piece)  # of what is cut from a whole sheet the number is enough
            for chalk in CHALKED.findall(step["hold"]):
                name = f"{sheet.rpartition(' ')[0]} {chalk}"
                assert name not in chalked, "chalked twice"
                chalked.add(name)
            if not at_table:
                divided.add(sheet)


@pytest.mark.parametrize("name", JOBS)
def test_a_letter_that_a_step_names_has_been_chalked(name: str) -> None:
    batches = cutting_batches(name)
    assert not list(never_chalked(batches))
    chalked = {
        f"{step['piece'].rpartition(' ')[0]} {chalk}"
        for batch in batches
        for step in batch["steps"]
        for chalk in CHALKED.findall(step["hold"])
    }
    named = {step["piece"] for batch in batches for step in batch["steps"] if batch["machine"] == "table saw"}
    sheets = [f"{key} {one.number}" for key, plan in planned(name).plans.items() for one in plan.sheets]
    pages = dict(zip(sheets, paper(name)["trestles"]["sheets"], strict=True))
    whole = {sheet for sheet, page in pages.items() if page["whole"].startswith("It goes to the table saw")}
    assert named == chalked | whole
    for one in chalked:
        material, _, chalk = one.rpartition(" ")
        number = chalk.rstrip("ABCDEFGHJKLMNPQRSTUVWXYZ")
        assert f">{chalk}<" in pages[f"{material} {number}"]["picture"]["svg"]


def test_the_jobs_hold_what_they_should_show() -> None:
    """A sheet carried whole, a piece that comes back from the table saw, a track saw's finished edge."""
    pages = [page for name in JOBS for page in paper(name)["trestles"]["sheets"]]
    assert any(page["whole"] for page in pages)
    assert any(cut["after"] for page in pages for cut in page["cuts"])
    assert any(planned(name).project.job.shop.hand_saw.clean_up == 0 for name in JOBS)
    again = [one for name in JOBS for one in planned(name).ordered.operations if one.carried]
    assert any(one.carried and one.carried.trips for one in again)


def test_what_was_never_chalked_is_noticed() -> None:
    """Planted: the first step at the table saw told before the sheets are cut up."""
    batches = cutting_batches("pottery-studio")
    first = next(batch for batch in batches if batch["machine"] == "table saw")
    assert [fault.rpartition(": ")[2] for fault in never_chalked([first])] == [
        step["piece"] for step in first["steps"]
    ]
