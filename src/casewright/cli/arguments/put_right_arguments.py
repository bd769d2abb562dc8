"""The arguments of `casewright put-right JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright put-right studio.toml --spoiled "B1-L:33 1/2 x 24" --cut B1-R,B2-L
                                        one part came out short, two others are good
  casewright put-right studio.toml --spoiled B1-L --cut-through "maple 3"
                                        nothing is left of it; maple sheets 1 to 3 are cut
  casewright put-right studio.toml --wrong "B1-L:dado-bottom:wrong end"
                                        a dado laid out from the wrong end
  ... --choose 2 --out studio-2.toml    write the job changed by the second way
  ... --picture 2 way.svg               draw the second way as a picture

Say how a feature is wrong: other face, wrong end, wrong edge, out of place, too wide, too narrow, too
deep or too shallow; and by how much where you measured it:
  --wrong B1-L:dado-bottom:"too wide":1/64
  --wrong B1-L:dado-bottom:"out of place":-1/8
Minus is nearer the edge or end that it is measured from ("too near" and "too far" say the same in words).
  --wrong B1-TK:"made of":maple         it was cut from another sheet
  --wrong B1-B:"made of":maple:11/16    or from one that measures 11/16
  --wrong B1-L:"mixed up with":B2-L     each was cut as the other; --worked B1-L,B2-L if it was worked so too
  --wrong B1-L:"made as":B2-L           this one alone was
  --wrong B1-K:"not in" --glued B1      it was left out when B1 was glued up
Say where a damage is: front, rear, left, right, upper or lower, then edge, end or face, and if you know
it how long it is along that side and how deep in from it.

A void or a split in a sheet, found before or after it is cut:
  --flaw "maple 2:30 x 12:4 x 3"        30 in from the left end of its map, 12 from its near edge, 4 by 3

What is wrong is cut, and nothing else is taken as cut until you name it. A way that would fail if more
were cut says so ("while nothing but ..."); then name the part, or those of its features that are cut:
  ... --wrong "B1-L:dado-bottom:wrong end" --worked B1-L:dado-F11,B1-L:groove-back
A part that is mirrored counts as wholly cut where none of its features is named.

The plan that follows from a chosen way is written beside the changed job (studio-2.plan.json), so that
plan, labels, steps and packet follow it.

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
        help='a sheet that is completely cut, such as "maple 2", or a board, such as "maple board 1"',
    )
    parser.add_argument(
        "--cut-through",
        action="append",
        default=[],
        metavar="SHEET",
        help="the same, and all sheets or boards before it",
    )
    parser.add_argument(
        "--worked",
        default="",
        metavar="PARTS",
        help="parts whose dados or holes are cut, or PART:FEATURE for those features that are, "
        "separated by commas",
    )
    parser.add_argument(
        "--wrong",
        action="append",
        default=[],
        metavar="PART:FEATURE:HOW[:BY]",
        help='a feature that is wrong and by how much; "PART:mirrored" for a part made as the other of its '
        'pair, "PART:made of:MATERIAL[:THICKNESS]" for one cut from another sheet, "PART:mixed up with:PART" '
        'for two that were cut as each other, "PART:made as:PART" for one, "PART:not in" for one left out '
        "of a glued case",
    )
    parser.add_argument(
        "--damaged",
        action="append",
        default=[],
        metavar="PART:WHERE[:SIZE]",
        help='a damage, such as "B1-L:front edge:2 x 1/4"',
    )
    parser.add_argument(
        "--flaw",
        action="append",
        default=[],
        metavar="SHEET:PLACE:SIZE",
        help='a fault in a sheet, such as "maple 2:30 x 12:4 x 3": 30 from its left end, 12 from its near '
        "edge, 4 long and 3 wide; what is still to be cut there gets other places, what is cut is damaged",
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
