"""The solver's one door: an answer, a proof, a limit that was set, or an error; never nothing."""

from __future__ import annotations

import random
from concurrent.futures import ThreadPoolExecutor
from math import inf

import highspy
import pytest

from casewright.casework.project import draw_up
from casewright.errors import CasewrightError, LibraryError, SolverError, library_call
from casewright.findings import Weight
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.solver import Ending, Solver
from casewright.workshop.sheets.cut_problems import cut_problems
from every_answer import BINS, poison
from samples import BASE, job, spec

TASK = "counting boards"


def at_least(amount: float, most: float = 10.0) -> Solver:
    """The fewest whole boards of two prices that make up `amount`: 2 of the first count as 3."""
    model = Solver()
    model.add_column(2.0, 0.0, most)
    model.add_column(3.0, 0.0, most)
    model.make_integral(range(2))
    model.add_row(amount, inf, [0, 1], [1.0, 2.0])
    return model


def test_the_answer_is_the_cheapest() -> None:
    """By hand: 5 = 1 + 2 + 2 costs 2 + 3 + 3."""
    answer = at_least(5.0).answer(TASK)
    assert answer.ending is Ending.OPTIMAL and answer.cost == pytest.approx(8.0)
    assert answer.values.round().tolist() == [1, 2]


def test_the_dual_of_a_row_is_what_one_more_would_cost() -> None:
    model = Solver()
    model.add_row(4.0, inf)
    model.add_column(3.0, 0.0, inf, [0], [2.0])
    answer = model.answer(TASK)
    assert answer.values.tolist() == [2.0] and answer.duals.tolist() == [1.5]


def test_what_has_no_answer_is_proved_to_have_none() -> None:
    answer = at_least(31.0).answer(TASK)
    assert answer.ending is Ending.INFEASIBLE and not answer.found


def test_a_model_of_nothing_costs_nothing() -> None:
    answer = Solver().answer(TASK)
    assert answer.ending is Ending.OPTIMAL and answer.values.tolist() == []


def test_a_demand_that_no_column_meets_has_no_answer() -> None:
    model = Solver()
    model.add_row(-1.0, inf)
    assert model.answer(TASK).ending is Ending.OPTIMAL
    model.add_row(4.0, inf)
    assert model.answer(TASK).ending is Ending.INFEASIBLE


def test_a_limit_is_no_proof() -> None:
    """Market split (G. Cornuéjols, M. Dawande 1998): half of each of several sums, which takes long to
    refute. One node says neither that there is an answer nor that there is none."""
    model = Solver(nodes=1)
    for _ in range(30):
        model.add_column(0.0, 0.0, 1.0)
    model.make_integral(range(30))
    draw = random.Random(1)
    for _ in range(4):
        weights = [float(draw.randrange(100)) for _ in range(30)]
        half = float(sum(weights) // 2)
        model.add_row(half, half, range(30), weights)
    answer = model.answer(TASK)
    assert answer.ending is Ending.LIMIT and not answer.found


def test_an_endless_saving_is_an_error_that_names_the_task() -> None:
    model = Solver()
    model.add_column(-1.0, 0.0, inf)
    with pytest.raises(SolverError, match=r"HiGHS failed while counting boards: .*kUnbounded"):
        model.answer(TASK)


def test_a_row_that_names_no_column_is_refused() -> None:
    with pytest.raises(LibraryError, match="HiGHS failed while taking a row"):
        at_least(1.0).add_row(0.0, 1.0, [7], [1.0])


@pytest.mark.parametrize("threads", ["default", "3"])
def test_solves_of_others_in_this_thread_disturb_none_of_ours(threads: str) -> None:
    poison([threads])
    assert at_least(5.0).answer(TASK).cost == pytest.approx(8.0)


def test_ours_disturb_none_of_others() -> None:
    """A one-thread solve here would leave every later one with more threads without an answer."""
    highspy.Highs.resetThreadScheduler(True)
    at_least(5.0).answer(TASK)
    other = highspy.Highs()
    other.setOptionValue("output_flag", False)
    other.setOptionValue("threads", 3)
    one = other.addIntegral(ub=10)
    other.addConstr(2 * one >= 3)
    assert other.minimize(one) == highspy.HighsStatus.kOk


def test_many_threads_solve_at_once_while_others_solve_their_own_way() -> None:
    def mine(amount: int) -> float:
        return at_least(float(amount % 20)).answer(TASK).cost

    def theirs(number: int) -> None:
        poison(["default" if number % 2 else "2"])

    with ThreadPoolExecutor(4) as threads:
        asked = [threads.submit(mine, amount) for amount in range(60)]
        others = [threads.submit(theirs, number) for number in range(20)]
        for other in others:
            other.result()
        costs = [one.result() for one in asked]
    # By hand: an even amount takes pairs at 3 each, an odd one a single at 2 beside; ten pairs are the most.
    assert costs == pytest.approx([3 * (n % 20 // 2) + 2 * (n % 20 % 2) for n in range(60)])


@pytest.mark.parametrize("status", [highspy.HighsStatus.kError, RuntimeError("out of threads")])
def test_a_failed_run_is_never_an_answer(status: object, monkeypatch: pytest.MonkeyPatch) -> None:
    def run(self: Solver) -> object:
        if isinstance(status, Exception):
            raise status
        return status

    monkeypatch.setattr(Solver, "run", run)
    with pytest.raises(SolverError, match=TASK):
        at_least(5.0).answer(TASK)


def test_a_plan_found_before_the_solver_fails_is_kept_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """The planner reaches for the solver only where it doubts; here every solve it may ask for fails."""
    from casewright.planner import solve as door

    def fail(*_: object) -> None:
        raise SolverError("HiGHS", TASK, "kError")

    problem = cut_problems(draw_up(job(spec(bays=BASE))))["ply"]
    monkeypatch.setattr(door, "refine", fail)
    plan = solve(problem, MaxIterations(50))
    (said,) = [finding for finding in plan.findings if finding.code == "search-stopped"]
    assert said.weight is Weight.WARN and "HiGHS failed while counting boards: kError." in said.text
    assert plan.sheets and verify(problem, plan) == () and not plan.unplaced


def test_the_bins_of_the_mixed_test_do_ask_the_solver(monkeypatch: pytest.MonkeyPatch) -> None:
    from casewright.planner.engine import solve_instance as fill_bins

    monkeypatch.setattr(Solver, "run", lambda self: highspy.HighsStatus.kError)
    with pytest.raises(SolverError, match="choosing cutting patterns"):
        fill_bins(BINS, MaxIterations(60_000), seed=1)


def test_a_library_that_fails_is_named_with_its_task_in_one_sentence() -> None:
    sentence = r"^ezdxf failed while drawing: no such layer, twice\.$"
    with pytest.raises(LibraryError, match=sentence) as raised, library_call("ezdxf", "drawing"):
        raise ValueError("no such layer,\n  twice.")
    assert raised.value.library == "ezdxf" and isinstance(raised.value.__cause__, ValueError)
    with pytest.raises(LibraryError, match="failed while drawing: IndexError"), library_call("x", "drawing"):
        raise IndexError
    ours = CasewrightError("ours")
    with pytest.raises(CasewrightError) as passed, library_call("x", "drawing"):
        raise ours
    assert passed.value is ours
