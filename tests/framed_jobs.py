"""Cases with face frames of boards, joined in any way, each its own or one over all of them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casewright.casework.job import CaseSpec, FaceFrame, Job
from casewright.shop.materials import SheetGood, Spread
from samples import job

BOARD = SheetGood("maple", "maple boards", F(1), F(96), F(11, 2), Spread(F(3, 4), 0.004), trim=F(1, 8))
JOINTS = [joint for joint in FaceFrame if joint is not FaceFrame.NONE]


def framed(joint: FaceFrame, one: CaseSpec, *more: CaseSpec, share: bool = False, **made: Any) -> Job:
    """The cases put together as the first is, with frames of maple joined so; with one frame over all of them
    if they `share` it."""
    construction = replace(one.construction, frame=joint, **made)
    specs = [
        replace(
            each,
            construction=construction,
            materials=replace(each.materials, frame="maple"),
            frame_with_left=share and each is not one,
        )
        for each in (one, *more)
    ]
    plain = job(*specs, construction=construction)
    return replace(plain, sheets={**plain.sheets, "maple": BOARD})
