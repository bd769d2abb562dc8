"""What the shop's saws cannot do as planned, reported before the first cut is made."""

from __future__ import annotations

from collections.abc import Iterable

from ..casework.project import Project
from ..casework.size_names import thickness_of
from ..findings import Finding, Weight
from .operations import Guide, Machine, Operation


def beyond_the_blade(project: Project) -> tuple[Finding, ...]:
    """The materials that are thicker than the table saw's blade rises, or just as thick."""
    saw = project.job.shop.table_saw
    used = dict.fromkeys(part.material for part in project)
    return tuple(
        Finding(
            "beyond-the-blade",
            f"materials.{key}",
            f"{project.job.sheets[key].name} is {project.printed(thick)} thick, but the blade of the "
            f"{saw.name} rises only {project.printed(saw.blade_height)} above the table: it cannot "
            "cut through.",
            "Cut it with the hand-held saw, or fit a larger blade if the saw's manual allows one.",
            Weight.WARN,
        )
        for key in used
        if (thick := project.sizes.of(thickness_of(key))) >= saw.blade_height
    )


def beyond_the_rail(project: Project, operations: Iterable[Operation]) -> tuple[Finding, ...]:
    """The operations whose fence would have to stand beyond the end of its rail."""
    reach = project.job.shop.table_saw.rip_capacity
    return tuple(
        Finding(
            "beyond-the-rail",
            operation.key,
            f"the {_stands(operation)} would have to stand at {project.printed(operation.setting.distance)}, "
            f"but its rail ends at {project.printed(reach)}.",
            _otherwise(operation),
            Weight.WARN,
        )
        for operation in operations
        if operation.setting.machine is Machine.TABLE_SAW
        and not operation.kind.on_sled  # its stop stands on the sled, or is a line on the piece
        and operation.setting.distance > reach
    )


def _stands(operation: Operation) -> str:
    return "sled's stop" if operation.setting.guide is Guide.STOP else "fence"


def _otherwise(operation: Operation) -> str:
    if operation.setting.guide is Guide.STOP:
        return "Clamp the stop to a longer fence on the sled, or cut it with a miter saw."
    return "Cut it with the hand-held saw along a clamped straightedge, or cut the piece smaller first."


def beyond_the_straightedge(project: Project, operations: Iterable[Operation]) -> tuple[Finding, ...]:
    """The cuts by the hand-held saw that are longer than its straightedge, in one finding."""
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
        f"{which} {project.printed(longest)} long, but the straightedge of the {saw.name} guides only "
        f"{project.printed(saw.cut_length)}.",
        "Join up or borrow a longer one, or reset it part way along a line struck from end to end.",
        Weight.WARN,
    )
    return (finding,)
