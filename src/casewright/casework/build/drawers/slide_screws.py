"""The holes for the screws of drawer slides, in the sides and dividers that the slides are screwed to."""

from __future__ import annotations

from ....shop.slides import ScrewHoles
from ....sizes.affine import NOTHING, Affine
from ...directions import Way
from ...front_choices import FrontLie
from ...parts.features.slide_holes import SlideHoles
from ...size_names import FeatureSizes
from ..bays import BayPlace
from ..case_draft import CaseDraft
from ..meetings import Meeting, Surface
from .placed_drawers import DrawerParts


def bore_for_slides(
    case: CaseDraft, bay: BayPlace, box: DrawerParts, front: str, low: Affine, holes: ScrewHoles
) -> None:
    """Bore both uprights of a bay for the slides of a box behind this front; the lower edge of the box is
    `low` above the lower ends of the case's sides. They are told from the edge as it is bored, before a strip
    goes over the front of the case."""
    inset = case.spec.construction.fronts is FrontLie.INSET
    behind = (case.parts[front].thickness if inset else NOTHING) - case.front_edging
    for (upright, face), side in zip(bay.uprights, (box.left, box.right), strict=True):
        part, name = upright.part, f"slide-{front.removeprefix(f'{case.spec.mark}-')}"
        sizes = FeatureSizes(part.mark, name)
        words = f"{part.mark} slide of {front}"
        line = SlideHoles(
            name,
            face,
            Way.DOWN,
            case.book.form(sizes.setback, low + holes.up - upright.foot, f"{words} from the lower end"),
            Way.FRONT,
            case.book.form(sizes.first, behind + holes.setback, f"{words}, its first hole"),
            Affine(holes.pitch),
            Affine(holes.number),
            Affine(holes.pilot),
            Affine(holes.depth),
        )
        part.features.append(line)
        held = Surface(part.mark, Way.DOWN, line.setback - holes.up, f"where its slide on {part.mark} is")
        words = f"{side} level on its slide on {part.mark}"
        case.meet(words, Meeting.FLUSH, held, case.parts[side].side(Way.DOWN))
