"""The quote for the customer: the cases in words and one sum, on a paper of its own."""

from __future__ import annotations

from ..casework.project import Project
from ..drawings.kit.pages import Paper
from ..errors import JobError
from ..findings import Finding
from ..workshop.costs.cost_lines import JobCosts
from ..workshop.costs.cost_wording import money_words, unpriced_words
from ..workshop.costs.quote_words import quoted_runs
from ..workshop.costs.quoted_materials import quoted_materials
from .pages.page_picture import Json
from .typesetting import typeset


def quote_pdf(project: Project, costs: JobCosts) -> bytes:
    """The quote as PDF. Its dates and whom it is for are left blank for the pen.

    Raises JobError where something has no price: a sum that lacks it is no offer.
    """
    return typeset("quote.typ", quote_data(project, costs))


def quote_data(project: Project, costs: JobCosts) -> dict[str, Json]:
    """What the template prints. Raises JobError as `quote_pdf` does."""
    if not costs.is_complete:
        text = f"no quote is written while something has no price: {unpriced_words(costs)}."
        raise JobError(
            (
                Finding(
                    "not-priced",
                    "costs",
                    text,
                    "Enter the prices; in [costs], [hinges] and [slides] 0 is for what costs you nothing.",
                ),
            )
        )
    paper = Paper.for_unit(project.job.unit)
    return {
        "title": project.job.name,
        "paper": "us-letter" if paper is Paper.LETTER else "a4",
        "runs": [
            {
                "name": run.name,
                "cases": [
                    {"mark": case.mark, "words": case.words, "inside": case.inside} for case in run.cases
                ],
            }
            for run in quoted_runs(project)
        ],
        "materials": list(quoted_materials(project)),
        "sum": money_words(project, costs.quote),
    }
