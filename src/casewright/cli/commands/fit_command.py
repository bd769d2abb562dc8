"""`casewright fit JOB`."""

from __future__ import annotations

import argparse
from dataclasses import replace

from ...app.fit import fit_page as app
from ...app.fit import typed_readings as typed
from ...app.fit.fit_advice import advice_page, measure_page
from ...app.jobs.worked_job import open_job
from ...app.papers.write_whole import write_whole
from ...errors import CasewrightError, JobError
from ...findings import Finding
from ..job_input import read_job_text
from ..planned_job import planned_job
from ..printing import print_json, print_table


def run(arguments: argparse.Namespace) -> int:
    _one_question(arguments)
    worked = open_job(read_job_text(arguments.job))
    planned = planned_job(worked, arguments)
    fit = planned.fit
    if arguments.picture:
        return _picture(fit, *arguments.picture)
    if arguments.diagonals:
        return _square(fit, arguments)
    if arguments.read or arguments.cut:
        return _as_built(fit, arguments)
    if arguments.advice or arguments.measure:
        whole = app.only_place(fit, arguments.case) if arguments.case else fit
        return (_advice if arguments.advice else _measure)(whole, arguments)
    return _outcomes(fit, planned.plan_name, arguments)


def _one_question(arguments: argparse.Namespace) -> None:
    """Refuses two questions at once: none is left out in silence."""
    asked = {
        "--picture": arguments.picture,
        "--diagonals": arguments.diagonals,
        "--read" if arguments.read else "--cut": arguments.read or arguments.cut,
        "--advice": arguments.advice,
        "--measure": arguments.measure,
    }
    both = [name for name, given in asked.items() if given]
    if arguments.case and both and both[0] not in ("--advice", "--measure"):
        both.append("--case")
    if len(both) > 1:
        raise CasewrightError(
            f"{both[0]} and {both[1]}: each asks for an answer of its own; give one of them."
        )


def _outcomes(fit: app.Fit, name: str, arguments: argparse.Namespace) -> int:
    """What happens at the dry fit: to the job, to each case, and the joints behind it."""
    gaps = app.gap_lines(fit, arguments.limit, arguments.case)
    cases, runs, job = app.case_lines(fit), app.run_lines(fit), app.job_line(fit)
    if arguments.json:
        said = {"gaps": [app.plain(gap) for gap in gaps], "cases": [app.plain(case) for case in cases]}
        said["runs"] = [app.plain(run) for run in runs]
        looks = [look.text for look in app.worth_a_look(fit)]
        print_json({"plan": name, "job": app.plain(job), **said, "look_at": looks})
        return 0
    if arguments.case:
        print(app.place_sentence(fit, arguments.case), "\n", sep="")
        heads = ("joint", "comes out", "99 in 100", "by hand and unseen", "at the dry fit", "most of it from")
        print_table(
            heads, [(g.name, g.comes_out, g.usual, g.wanted, g.happens, ", ".join(g.why)) for g in gaps]
        )
        return 0
    print(job.sentence, "\n", sep="")
    shares = {
        "by hand": "by_hand",
        "clamp": "clamp",
        "to ease": "ease",
        "cut again": "recut",
        "seen": "shown",
    }
    rows = [(c.place, *(c.share(one) for one in shares.values()), c.diagonal, c.back_allows) for c in cases]
    print_table(("case", *shares, "diagonal", "back allows diagonals to differ by"), rows)
    print()
    for run in runs:
        print(run.sentence)
    for look in app.worth_a_look(fit):
        print(f"\n{look.text}")
    print(f"\nCut by plan {name}: parts cut on one setting share its error.")
    return 0


def _advice(fit: app.Fit, arguments: argparse.Namespace) -> int:
    found = advice_page(fit)
    if arguments.json:
        print_json(app.plain(found))
        return 0
    if found.doubt:
        print(found.doubt)
    for number, one in enumerate(found.advice, 1):
        print(f"{number}. {one.text}\n   {one.gain}")
    print(f"{found.whole}\n{found.assumed}")
    return 0


def _measure(fit: app.Fit, arguments: argparse.Namespace) -> int:
    found = measure_page(fit)
    if arguments.json:
        print_json(app.plain(found))
        return 0
    if found.doubt:
        print(found.doubt)
    for number, one in enumerate(found.measure, 1):
        print(f"{number}. Measure {one.what}, by {one.tool}, {one.when}.")
        print(f"   Write it {one.write_on}. {one.gain}")
    print(f"{found.whole}\n{found.assumed}")
    return 0


def _as_built(fit: app.Fit, arguments: argparse.Namespace) -> int:
    cut = [mark.strip() for mark in arguments.cut.split(",") if mark.strip()]
    mended = typed.as_built(fit, arguments.read, cut, sure=arguments.read if arguments.sure else ())
    if isinstance(mended, typed.AskedFirst):
        raise JobError(tuple(_question(doubt.finding) for _, doubt in mended.doubts))
    if arguments.json:
        said = [finding.plain for finding in mended.findings]
        found = {name: getattr(mended, name) for name in ("broken", "without", "doubted", "cures", "follow")}
        print_json({**found, "findings": said})
    else:
        for finding in mended.findings:
            print(finding)
        for verdict in mended.verdicts:
            print("\n".join((verdict.said, *verdict.joints)))
        if mended.cures:
            print(f"{mended.mends}:")
        for number, cure in enumerate(mended.cures, 1):
            print(f"{'either' if number == 1 else 'or'} {cure}")
        for line in mended.follow:
            print(line)
    return 1 if mended.broken or mended.findings else 0


def _question(asked: Finding) -> Finding:
    """The question with the way to answer it at a command line."""
    fix = f"{asked.fix} Correct the reading, or add --sure to use it as typed."
    return replace(asked, fix=fix)


def _square(fit: app.Fit, arguments: argparse.Namespace) -> int:
    found = typed.check_square(fit, *arguments.diagonals, sure=arguments.sure)
    if isinstance(found, typed.AskedFirst):
        raise JobError(tuple(_question(doubt.finding) for _, doubt in found.doubts))
    if arguments.json:
        print_json(app.plain(found))
    else:
        print("\n".join(found.sentences))
    return 1 if found.out_of_square else 0


def _picture(fit: app.Fit, gap: str, name: str) -> int:
    write_whole(name, app.gap_picture(fit, gap))
    print(f"The chain of {gap} is drawn in {name}.")
    return 0
