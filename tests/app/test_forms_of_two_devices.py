"""Two devices with the same job open, in any order of events, against a model that knows every case."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from casewright.app.editing import arrangement
from casewright.app.editing.forms import FormOutcome, SentForm, case_form, followed_case, submit_form
from casewright.app.editing.text_edits import SetEntry
from casewright.app.jobs.kept_jobs import KeptJobs, OpenedRevision
from casewright.jobfile.read.toml_text import values_of
from web_bench import JOB

KEYS = ("height", "depth")
DEVICE = st.sampled_from(["office", "phone"])
TYPED = st.dictionaries(st.sampled_from(KEYS), st.sampled_from(["", "23", "24", "23 1/2"]), min_size=1)


@dataclass
class Case:
    """A case of the model: what is written for it, whoever wrote it."""

    mark: str
    said: dict[str, str] = field(default_factory=lambda: dict.fromkeys(KEYS, ""))


@dataclass
class OpenForm:
    """A case's form as a browser holds it: the whole of it, of which the maker touches little."""

    case: Case
    mark: str
    based_on: int
    shown: dict[str, str]
    seen: dict[str, str]


class TwoDevices(RuleBasedStateMachine):
    """Cases come, go, move and change their marks while forms of them lie open."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.saved = KeptJobs.open(Path(self.folder.name) / "shop.sqlite3")
        self.job = self.saved.start(JOB).id
        self.cases = [Case("B1"), Case("B2")]
        self.open: dict[str, OpenForm] = {}

    def teardown(self) -> None:
        self.folder.cleanup()

    def now(self) -> OpenedRevision:
        return self.saved.take(self.job)

    def made(self, edits: Any) -> None:
        now = self.now()
        assert isinstance(self.saved.change(self.job, edits, "", now.newest), OpenedRevision)

    @rule(device=DEVICE, number=st.integers(0, 9))
    def opens_a_form(self, device: str, number: int) -> None:
        case, now = self.cases[number % len(self.cases)], self.now()
        fields = {one.name: one.typed for group in case_form(now.worked, case.mark) for one in group.fields}
        self.open[device] = OpenForm(case, case.mark, now.newest, fields, dict(case.said))

    @rule(number=st.integers(0, 9), one=TYPED, other=TYPED, insists=st.booleans())
    def both_change_one_case(
        self, number: int, one: dict[str, str], other: dict[str, str], insists: bool
    ) -> None:
        self.opens_a_form("office", number)
        self.opens_a_form("phone", number)
        self.sends_a_form("office", one, False)
        self.sends_a_form("phone", other, insists)

    @precondition(lambda self: self.open)
    @rule(device=DEVICE, typed=TYPED, insists=st.booleans())
    def sends_a_form(self, device: str, typed: dict[str, str], insists: bool) -> None:
        if device not in self.open:
            return
        form = self.open.pop(device)
        names = {key: next(name for name in form.shown if name.endswith(f".{key}")) for key in KEYS}
        now = followed_case(self.saved, self.job, form.mark, form.based_on)
        if form.case not in self.cases:
            assert now is None  # said to be gone, and nobody else's case taken for it
            return
        assert now == form.case.mark
        sent = {**form.shown, **{names[key]: value for key, value in typed.items()}}
        mine = {key: value for key, value in typed.items() if value != form.seen[key]}
        theirs = {
            key: form.case.said[key] for key in mine if form.case.said[key] not in (form.seen[key], mine[key])
        }
        outcome = self.submit(now, SentForm(sent, form.based_on))
        if theirs:
            asked = {
                one.path[-1]: one.theirs
                for group in outcome.groups
                for one in group.fields
                if one.theirs is not None
            }
            assert asked == theirs and not outcome.kept
            if not insists:
                return
            settled = {names[key]: value for key, value in theirs.items()}
            outcome = self.submit(now, SentForm(sent, form.based_on, settled))
        assert not outcome.refused
        form.case.said.update(mine)

    def submit(self, mark: str, sent: SentForm) -> FormOutcome:
        now = self.now()
        return submit_form(self.saved, now, lambda worked: case_form(worked, mark), sent)

    @rule(number=st.integers(0, 9))
    def a_case_moves(self, number: int) -> None:
        place = number % len(self.cases)
        edits = arrangement.move_case(self.now().worked.values, self.cases[place].mark, 1)
        self.made(edits)
        if place + 1 < len(self.cases):
            self.cases.insert(place + 1, self.cases.pop(place))

    @precondition(lambda self: len(self.cases) < 4)
    @rule()
    def a_case_is_copied(self) -> None:
        source = next((case for case in self.cases if case.mark == "B2"), self.cases[-1])
        edits, mark = arrangement.copy_case(self.now().worked.values, source.mark)
        self.made(edits)
        self.cases.insert(self.cases.index(source) + 1, Case(mark, dict(source.said)))

    def has(self, mark: str) -> bool:
        return any(case.mark == mark for case in self.cases)

    @precondition(lambda self: len(self.cases) > 2)
    @rule(number=st.integers(0, 9))
    def a_case_is_taken_out(self, number: int) -> None:
        case = self.cases[number % len(self.cases)]
        if case.mark == "B2":  # the one that takes what is left of the opening
            return
        self.made(arrangement.drop_case(self.now().worked.values, case.mark))
        self.cases.remove(case)

    @rule(number=st.integers(0, 9), mark=st.sampled_from(["X1", "X2", "X3"]))
    def a_case_gets_another_mark(self, number: int, mark: str) -> None:
        case = self.cases[number % len(self.cases)]
        if self.has(mark) or case.mark == "B2":
            return
        path = arrangement.case_path(self.now().worked.values, case.mark)
        self.made([SetEntry((*path, "mark"), mark)])
        case.mark = mark

    @invariant()
    def the_text_says_what_was_typed(self) -> None:
        cases = values_of(self.now().revision.text)["runs"][0]["cases"]
        written = [(one["mark"], {key: str(one.get(key, "")) for key in KEYS}) for one in cases]
        assert written == [(case.mark, case.said) for case in self.cases]


TestTwoDevices = TwoDevices.TestCase
TestTwoDevices.settings = settings(max_examples=10, stateful_step_count=10, deadline=None)
