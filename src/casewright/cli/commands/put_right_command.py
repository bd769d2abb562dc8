"""`casewright put-right JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.papers.write_whole import write_whole
from ...app.repair import repair_page as repair
from ...app.repair.mishap import Mishap, repair_task
from ...app.repair.repair_pictures import way_svg
from ...errors import CasewrightError
from ..job_input import add_job_argument, read_job_text
from ..plan_arguments import PLAN_HELP, add_plan_arguments, planned_job
from ..printing import add_json, print_json, print_table, reporter

EXAMPLE = f"""\
for example:
  casewright put-right studio.toml --spoiled "B1-L:33 1/2 x 24" --cut B1-R,B2-L
                                        one part came out short, two others are good
  casewright put-right studio.toml --spoiled B1-L --cut-through "maple 3"
                                        nothing is left of it; maple sheets 1 to 3 are cut
  ... --choose 2 --out studio-2.toml    write the job changed by the second way
  ... --picture 2 way.svg               draw the second way as a picture

Enter sizes as measured now, length along the grain first. For every part reported as spoiled, cut or
lost, the cuts that must have been made to free it count as made.

{PLAN_HELP}
exit codes: 0 there is a way without buying, 1 every way found needs something bought (or there is
none), 2 the input cannot be used
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--spoiled",
        action="append",
        default=[],
        metavar="PART[:SIZE]",
        help="a spoiled part and what it measures now; repeat for each part",
    )
    parser.add_argument(
        "--cut", default="", metavar="MARKS", help="good parts already cut, separated by commas"
    )
    parser.add_argument(
        "--all-cut-of",
        action="append",
        default=[],
        metavar="SHEET",
        help='a sheet that is completely cut, such as "maple 2"',
    )
    parser.add_argument(
        "--cut-through",
        action="append",
        default=[],
        metavar="SHEET",
        help="the same, and all sheets before it",
    )
    parser.add_argument(
        "--worked", default="", metavar="MARKS", help="spoiled parts whose dados or holes are cut"
    )
    parser.add_argument(
        "--lost", action="append", default=[], metavar="NAME", help="a part or piece that cannot be found"
    )
    parser.add_argument(
        "--glued", default="", metavar="CASES", help="cases already glued up, separated by commas"
    )
    add_plan_arguments(parser)
    parser.add_argument("--choose", type=int, metavar="N", help="carry out this way; needs --out")
    parser.add_argument("--out", metavar="FILE", help="where to write the changed job")
    parser.add_argument(
        "--picture", nargs=2, metavar=("N", "FILE"), help="draw the way with this number as SVG"
    )
    parser.add_argument("--force", action="store_true", help="replace an existing file")
    add_json(parser)


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
    )
    found = repair.look(repair_task(planned, told), reporter(arguments))
    if arguments.picture:
        number, name = arguments.picture
        if not number.isdecimal():
            raise CasewrightError(f"--picture {number}: enter the number of a way, then the file to write.")
        write_whole(name, way_svg(found, int(number)))
    if arguments.choose is not None:
        option = found.option(arguments.choose)
        write_whole(arguments.out, repair.changed_text(text, option).encode(), over=arguments.force)
    if arguments.json:
        print_json(
            {
                "ways": [line.plain() for line in found.lines],
                "proof": found.proof,
                "must_buy": found.must_buy,
                "left_off": found.left_off,
                "chosen": arguments.choose,
            }
        )
    elif arguments.choose is not None:
        print(found.lines[arguments.choose - 1].why)
        for number, step in enumerate(found.lines[arguments.choose - 1].steps, 1):
            print(f"  {number}. {step}")
        print(f"The changed job is written to {arguments.out}. Now run: casewright check {arguments.out}")
    else:
        _tell(found)
    free = any(option.cost.money == 0 for option in found.options)
    return 0 if free or not (told.spoiled or told.lost) else 1


def _tell(found: repair.FoundWays) -> None:
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
    if found.left_off:
        as_good = f", {found.as_good} of them cost the same as the best" if found.as_good else ""
        print(f"{found.left_off} more ways of the same kinds are not listed{as_good}.")
    print(found.proof)


def _ties(found: repair.FoundWays) -> bool:
    return any(line.tied for line in found.lines)


def _listed(said: str) -> tuple[str, ...]:
    return tuple(mark.strip() for mark in said.split(",") if mark.strip())
