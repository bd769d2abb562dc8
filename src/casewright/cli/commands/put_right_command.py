"""`casewright put-right JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.papers.write_whole import write_whole
from ...app.repair import repair_page as repair
from ...app.repair.carry_out import carry_out
from ...app.repair.mishap import Mishap, repair_task
from ...app.repair.repair_pictures import way_svg
from ...errors import CasewrightError
from ..job_input import read_job_text
from ..planned_job import planned_job, shelf_of
from ..printing import print_json, print_table, reporter


def run(arguments: argparse.Namespace) -> int:
    if (arguments.choose is None) != (arguments.out is None):
        raise CasewrightError("--choose N and --out FILE must be used together.")
    text = read_job_text(arguments.job)
    planned = planned_job(open_job(text), arguments)
    told = Mishap(
        arguments.spoiled,
        _listed(arguments.cut),
        arguments.all_cut_of,
        arguments.cut_through,
        _listed(arguments.worked),
        arguments.lost,
        _listed(arguments.glued),
        arguments.wrong,
        arguments.damaged,
        arguments.flaw,
    )
    found = repair.look(repair_task(planned, told, shelf_of(arguments).made()), reporter(arguments))
    if arguments.picture:
        number, name = arguments.picture
        if not number.isdecimal():
            raise CasewrightError(f"--picture {number}: enter the number of a way, then the file to write.")
        write_whole(name, way_svg(found, int(number)))
    after = None
    if arguments.choose is not None:
        after = carry_out(found, arguments.choose, text, arguments.out, over=arguments.force)
    if arguments.json:
        print_json(
            {
                "ways": [line.plain() for line in found.lines],
                "taken": list(found.taken),
                "proof": found.proof,
                "must_buy": found.must_buy,
                "searched": list(found.searched),
                "left_off": found.left_off,
                "chosen": arguments.choose,
                **({} if after is None else after.plain()),
            }
        )
    elif after is not None:
        _say_what_is_taken(found)
        print(found.lines[arguments.choose - 1].why)
        for number, step in enumerate(found.lines[arguments.choose - 1].steps, 1):
            print(f"  {number}. {step}")
        for line in after.words():
            print(line)
    else:
        _tell(found)
    free = any(not option.buys for option in found.options)
    return 0 if free or not (told.spoiled or told.lost or told.wrong or told.damaged or told.flaws) else 1


def _say_what_is_taken(found: repair.FoundWays) -> None:
    for sentence in found.taken:
        print(sentence)


def _tell(found: repair.FoundWays) -> None:
    _say_what_is_taken(found)
    heads = ("way", "money", "minutes", "made again", "in sight", "what")
    rows = [
        (
            f"{line.number}{'=' if line.tied else ''}{'*' if line.best else ''}",
            line.money,
            line.minutes,
            str(line.again),
            line.in_sight,
            line.what,
        )
        for line in found.lines
    ]
    if rows:
        print_table(heads, rows)
        print("* the best of its kind" + ("; = costs the same as another" if _ties(found) else ""))
        print(found.lines[0].rank)
    if found.left_off:
        as_good = f", {found.as_good} of them cost the same as the best" if found.as_good else ""
        print(f"{found.left_off} more ways of the same kinds are not listed{as_good}.")
    print(found.proof)


def _ties(found: repair.FoundWays) -> bool:
    return any(line.tied for line in found.lines)


def _listed(said: str) -> tuple[str, ...]:
    return tuple(mark.strip() for mark in said.split(",") if mark.strip())
