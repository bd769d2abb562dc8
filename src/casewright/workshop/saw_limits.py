"""What the shop's saws cannot do as the work stands: said before the first cut, not found at it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..casework.project import Project
from ..casework.size_names import thickness_of
from ..findings import Finding, Weight
from ..lengths.length import show
from .operations import Machine, Operation


def beyond_the_blade(project: Project) -> tuple[Finding, ...]:
    """The materials with parts that are as thick as the table saw's blade stands high, or thicker."""
    saw = project.job.shop.table_saw
    used = dict.fromkeys(part.material for part in project)
    return tuple(
        Finding(
            "beyond-the-blade",
            f"materials.{key}",
            f"{project.job.sheets[key].name} is {_said(project, thick)} thick, and the blade of the "
            f"{saw.name} stands {_said(project, saw.blade_height)} above the table at most: it would not "
            "come through.",
            "Cut it by the hand-held saw, or fit a larger blade where the saw's manual allows one.",
            Weight.WARN,
        )
        for key in used
        if (thick := project.sizes.of(thickness_of(key))) >= saw.blade_height
    )


def beyond_the_rail(project: Project, operations: Iterable[Operation]) -> tuple[Finding, ...]:
    """The operations whose fence would stand further out than its rail goes."""
    reach = project.job.shop.table_saw.rip_capacity
    return tuple(
        Finding(
            "beyond-the-rail",
            operation.key,
            f"the fence would stand at {_said(project, operation.setting.distance)}, "
            f"its rail ends at {_said(project, reach)}.",
            "Guide it by hand along a clamped straightedge, or have the piece cut smaller first.",
            Weight.WARN,
        )
        for operation in operations
        if operation.setting.machine is Machine.TABLE_SAW and operation.setting.distance > reach
    )


def beyond_the_straightedge(project: Project, operations: Iterable[Operation]) -> tuple[Finding, ...]:
    """The cuts by the hand-held saw that are longer than its straightedge guides, in one finding."""
    saw = project.job.shop.hand_saw
    long = [
        operation
        for operation in operations
        if operation.setting.machine is Machine.HAND_SAW and operation.travel > saw.cut_length
    ]
    if not long:
        return ()
    longest = max(operation.travel for operation in long)
    which = "a cut is" if len(long) == 1 else f"{len(long)} cuts are up to"
    finding = Finding(
        "beyond-the-straightedge",
        ", ".join(dict.fromkeys(operation.piece for operation in long)),
        f"{which} {_said(project, longest)} long, and the straightedge of the {saw.name} guides "
        f"{_said(project, saw.cut_length)}.",
        "Join or borrow a longer one, or move it along in the cut against a line struck from end to end.",
        Weight.WARN,
    )
    return (finding,)


def _said(project: Project, length: Fraction) -> str:
    return show(length, project.job.mark, unit=True).marked
