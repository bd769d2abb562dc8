"""Names of sizes are put together and taken apart in one module; everything else asks that one."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from casewright.casework import size_names
from casewright.casework.job import CONSTRUCTION_SIZES
from casewright.casework.project import draw_up
from casewright.casework.size_names import Named, SizeName, owners, read_name
from samples import job

SOURCE = Path(__file__).parents[1] / "src" / "casewright"
HOME = SOURCE / "casework" / "size_names.py"

NOT_SIZES = {
    "app/editing/text_edits.py": "paths of a form's fields",
    "app/editing/field_faults.py": "places of findings beside a form's fields",
    "app/editing/forms.py": "keys of the job file",
    "app/learning/shop_test_sheet.py": "names of the blanks of a test sheet",
    "app/editing/form_fields.py": "places of findings beside a form's fields",
    "app/papers/packet_files.py": "names of files",
    "app/papers/downloads.py": "names of files",
    "app/repair/shop_repair.py": "identities of events",
    "casework/checks/as_cut_checks.py": "places of findings: keys of the job file",
    "casework/checks/case_checks.py": "places of findings: keys of the job file",
    "casework/checks/frame_checks.py": "places of findings: keys of the job file",
    "casework/checks/front_movement.py": "places of findings: keys of the job file",
    "casework/checks/front_checks.py": "places of findings: keys of the job file",
    "casework/checks/hinge_checks.py": "places of findings: keys of the job file",
    "casework/checks/frame_joint_checks.py": "places of findings: keys of the job file",
    "casework/checks/shared_frame_checks.py": "places of findings: keys of the job file",
    "casework/checks/drawer_checks.py": "places of findings: keys of the job file",
    "casework/checks/edging_checks.py": "places of findings: keys of the job file",
    "casework/checks/movement_checks.py": "places of findings: keys of the job file",
    "casework/checks/pin_checks.py": "places of findings: keys of the job file",
    "casework/checks/support_checks.py": "places of findings: keys of the job file",
    "casework/checks/wall_checks.py": "places of findings: keys of the job file",
    "casework/checks/worktop_checks.py": "places of findings: keys of the job file",
    "casework/checks/width_checks.py": "places of findings: keys of the job file",
    "bearing/hanging_wording.py": "names of files",
    "bearing/scribed_parts.py": "places of findings: keys of the job file",
    "app/editing/usual_values.py": "keys of the job file",
    "lengths/length.py": "decimal places",
    "jobfile/read/schema_faults.py": "places of findings",
    "planner/problem_faults.py": "places in a problem of the planner",
    "planner/problem_json.py": "places in a problem of the planner",
    "casework/checks/figure_checks.py": "places of findings: keys of the job file",
    "solids/solid_check.py": "places of findings: keys of the job file",
    "workshop/sheets/sheet_findings.py": "places in a problem of the planner",
    "web/routes/__init__.py": "names of modules",
    "web/shop_network.py": "names of machines",
}

ATTRIBUTES = {
    named.what
    for kind in vars(size_names).values()
    if isinstance(kind, type)
    for named in vars(kind).values()
    if isinstance(named, Named)
}
WORDS = ATTRIBUTES | set(CONSTRUCTION_SIZES) | {"bay", "below", "above", "pins"}
A_SIZE = re.compile(rf"\.({'|'.join(sorted(WORDS))})\b|\.$")


def put_together(node: ast.AST) -> bool:
    """An f-string in which a name is followed by a dot and a size, or by a dot and another name."""
    if not isinstance(node, ast.JoinedStr):
        return False
    for before, after in zip(node.values, node.values[1:], strict=False):
        if isinstance(before, ast.FormattedValue) and isinstance(after, ast.Constant):
            found = A_SIZE.match(str(after.value))
            if found and (
                found[1] or (not isinstance(before.value, ast.Call) and after is not node.values[-1])
            ):
                return True
    return False


def taken_apart(node: ast.AST) -> bool:
    """A call that splits at a dot or dash, or asks for a name's beginning or end."""
    if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute) or not node.args:
        return False
    first = node.args[0]
    texts = [one.value for one in ast.walk(first) if isinstance(one, ast.Constant)]
    said = [text for text in texts if isinstance(text, str)]
    if node.func.attr in ("partition", "rpartition", "split", "rsplit"):
        return said in (["."], ["-"])
    if node.func.attr in ("endswith", "removesuffix"):
        return any(text[:1] in "._" and text[1:] in WORDS | {"play", "filler"} for text in said)
    return node.func.attr in ("startswith", "removeprefix") and put_together_start(first)


def put_together_start(node: ast.AST) -> bool:
    last = node.values[-1] if isinstance(node, ast.JoinedStr) else None
    return isinstance(last, ast.Constant) and last.value == "."


def faults_of(text: str) -> Iterator[int]:
    for node in ast.walk(ast.parse(text)):
        if put_together(node) or taken_apart(node):
            assert isinstance(node, ast.expr)
            yield node.lineno


@pytest.mark.parametrize("path", sorted(SOURCE.rglob("*.py")), ids=lambda path: str(path.relative_to(SOURCE)))
def test_names_of_sizes_are_made_and_read_in_one_place(path: Path) -> None:
    if path == HOME or path.relative_to(SOURCE).as_posix() in NOT_SIZES:
        return
    assert list(faults_of(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    "text",
    [
        'f"{mark}.inside"',
        'f"run{number}.opening"',
        'f"{part.mark}.{feature.name}.depth"',
        'f"{owner}.{name}"',
        'f"{mark}.below{bay}{shelf}"',
        'name.rpartition(".")',
        'row.name.split("-")[:2]',
        'name.endswith(("_play", ".gap"))',
        'name.removesuffix(".thickness")',
        'one.startswith(f"{name}.")',
    ],
)
def test_the_check_sees_a_name_made_or_read_elsewhere(text: str) -> None:
    assert list(faults_of(text)) == [1]


@pytest.mark.parametrize("text", ['f"{stem}.svg"', 'f"{count}. {words}"', 'text.split("\\n")', 'f"{a}: {b}"'])
def test_the_check_leaves_other_text_alone(text: str) -> None:
    assert list(faults_of(text)) == []


def test_a_name_read_is_the_name_written() -> None:
    for name in draw_up(job()).sizes.ledger:
        assert str(read_name(name)) == name
        assert read_name(name).form.name == name


def test_what_a_name_says() -> None:
    assert read_name("B1-L.dado-bottom.at") == SizeName("B1-L", "dado-bottom", "at")
    assert read_name("W-3.inside") == SizeName("W-3", "", "inside")
    assert read_name("run12.left_filler").run == 12 and read_name("runner.width").run is None
    assert owners("B1-L.dado-bottom.at") == ("B1-L", "B1-L.dado-bottom")
    assert read_name("nothing") == SizeName("", "", "nothing")
