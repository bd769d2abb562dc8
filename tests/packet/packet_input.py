"""What a packet is made from, worked out for the jobs that the tests of documents look at."""

from __future__ import annotations

from collections.abc import Mapping

from casewright.casework.parts.cut_alike import cut_alike
from casewright.casework.parts.weights import weight_of
from casewright.casework.project import Project
from casewright.packet.shop_packet import Notice, PacketContents
from casewright.planner.plan import Plan
from casewright.record.plan_of_record import plan_name
from casewright.workshop.assembly.joining import glue_ups
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.hardware import hardware
from casewright.workshop.order.batches import order
from casewright.workshop.sheets.purchases import buying_list
from casewright.workshop.work import work


def packet_of(
    project: Project, plans: Mapping[str, Plan], revision: str = "1", notices: tuple[Notice, ...] = ()
) -> PacketContents:
    """The packet of a project and its sheet plans, with the project's own findings and no others."""
    made = work(project, plans)
    ordered = order(made.operations)
    writer = BatchWriter(project)
    joined = {case: glue_ups(project, case) for case in project.cases}
    return PacketContents(
        project=project,
        plans=plans,
        revision=revision,
        plan=plan_name(plans),
        findings=project.findings,
        groups=cut_alike(project),
        joinings=joined,
        weight=weight_of(project, project),
        purchases=buying_list(project, plans),
        hardware=hardware(project, (one for case in joined.values() for one in case)),
        boards={},
        board_purchases=(),
        costs=None,
        work=made,
        ordered=ordered,
        told=tuple(writer.batch_text(batch) for batch in ordered.batches),
        notices=notices,
    )
