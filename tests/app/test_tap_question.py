"""One question a batch, where a mistake is likely, with its right answer checked against the geometry."""

from __future__ import annotations

import re
from pathlib import Path

from casewright.app.jobs.worked_job import PlannedJob
from casewright.app.shop.tap_question import LOOKS, TapQuestion, question_of
from casewright.casework.directions import Way
from casewright.casework.parts.part import Role
from casewright.repair.prevention.saw_check import Likeness
from casewright.workshop.order.batches import Batch
from planned_once import planned_once
from web_bench import JOB


def asked(planned: PlannedJob) -> list[tuple[Batch, TapQuestion]]:
    return [
        (batch, question) for batch in planned.ordered.batches if (question := question_of(planned, batch))
    ]


def test_the_right_answer_is_one_of_the_answers_and_most_batches_ask_nothing() -> None:
    planned = planned_once(JOB)
    found = asked(planned)
    assert 0 < len(found) < len(planned.ordered.batches) / 2
    for _, question in found:
        assert question.right in question.answers and len(set(question.answers)) == 2


def test_a_pair_on_one_setting_is_asked_for_by_the_edge_that_goes_first() -> None:
    planned = planned_once(JOB)
    pairs = [(batch, one) for batch, one in asked(planned) if " goes first. Which one" in one.text]
    assert pairs
    for batch, question in pairs:
        leads = {one.piece: one.hold.leads for one in batch.operations}
        said = re.search(r"fence, the (.+) goes first", question.text)
        assert said is not None and leads[question.right] == said[1]
        (other,) = set(question.answers) - {question.right}
        assert leads[other] != said[1] and other in question.otherwise


def test_the_front_edge_of_a_side_that_is_bored_lies_on_its_own_hand() -> None:
    """Looking at the inside of a side, up is up; what is to the left of it is worked out with vectors."""
    planned = planned_once(JOB)
    bored = [one for _, one in asked(planned) if "On which hand" in one.text]
    assert bored
    for question in bored:
        part = planned.project.parts[question.text.partition(" ")[0]]
        looks = (-part.lie.worked.sign, 0, 0)  # the maker looks at the face, against the way that it looks
        # To the maker's right: looking crossed with up (0, 0, 1).
        right = (looks[1], -looks[0], 0)
        on_right = right[Way.FRONT.axis.value] == Way.FRONT.sign
        assert question.right == ("right" if on_right else "left")


def test_twins_are_asked_about_only_where_they_look_alike() -> None:
    """In the canteen a side is as long as a top of another case, and a plinth nearly as long as a strip."""
    text = (Path(__file__).parents[2] / "examples" / "ferry-canteen.toml").read_text()
    planned = planned_once(text, 0.3)
    role = {mark: LOOKS[part.role] for mark, part in planned.project.parts.items()}
    close = [one for one in planned.worked.look_alikes if one.likeness is Likeness.CLOSE]
    across = [one for one in close if role[one.first[0]] != role[one.second[0]]]
    assert across, "else nothing is left out"
    twins = [one for _, one in asked(planned) if "a hair apart" in one.otherwise]
    assert twins and all(len({role[mark] for mark in one.answers}) == 1 for one in twins)


def test_every_role_looks_like_something() -> None:
    assert set(LOOKS) == set(Role)
