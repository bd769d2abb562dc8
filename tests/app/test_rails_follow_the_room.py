"""A reading of the room in a case says to what the rails of the frame before it are cut."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.app.fit.closing_as_built import closing_as_built
from casewright.casework.job import FaceFrame
from casewright.casework.project import draw_up
from casewright.tolerance.as_built.readings import AsBuilt
from casewright.tolerance.outcomes.gap_spread import fit
from framed_jobs import framed
from samples import spec


def test_uncut_rails_follow_what_was_read() -> None:
    project = draw_up(framed(FaceFrame.POCKET_SCREWS, spec("B1"), spec("B2"), share=True))
    job_fit = fit(project)
    wider = project.sizes.of("B2.inside") + F(1, 16)
    (line,) = closing_as_built(job_fit, AsBuilt().read("B2.inside", wider)).follow
    assert line == 'Cut B1-RA1 and B1-RA2 69 1/16" long, 1/16" longer than planned.'
    narrower = AsBuilt().read("B1.inside", project.sizes.of("B1.inside") - F(1, 8))
    (line,) = closing_as_built(job_fit, narrower).follow
    assert line.endswith('1/8" shorter than planned.')


def test_rails_that_are_cut_or_as_planned_are_not_spoken_of() -> None:
    project = draw_up(framed(FaceFrame.POCKET_SCREWS, spec("B1")))
    job_fit = fit(project)
    inside = project.sizes.of("B1.inside")
    assert closing_as_built(job_fit, AsBuilt().read("B1.inside", inside)).follow == ()
    cut = AsBuilt().cut_now(job_fit, ["B1-RA1", "B1-RA2"]).read("B1.inside", inside + F(1, 16))
    assert closing_as_built(job_fit, cut).follow == ()
