# make demo   set up, then open the finished example in the browser and write its packet
# make test   set up, install what only the tests need (a browser among them), then run every check
# make quick  for the daily loop, after make test has been run once: ruff, mypy and a chosen part of the tests
# make lowest  tests with the lowest versions that pyproject.toml declares, in an environment of their own
# make bench  the benchmark tables (slow)
# make docs   the documentation as a site, in site/
# make wheel  a wheel for this platform, in dist/
# make changes  what the next changelog would say

PYTHON ?= python3.11
VENV := .venv
BIN := $(VENV)/bin

.PHONY: demo test check quick lowest bench docs wheel changes setup clean

demo: $(VENV)/ready
	$(BIN)/casewright demo $(DEMO)

test: $(VENV)/tests-ready check
	$(BIN)/python -m pytest -n 2 --dist worksteal

check: $(VENV)/tests-ready
	$(BIN)/ruff check .
	$(BIN)/mypy

# Core arithmetic, casework, job files, the planner's small parts, findings, the house rules, and a few of
# the app and the command line. Without the drawn examples, which make up most of a run.
QUICK := lengths sizes casework jobfile shop record \
  planner/test_shape.py planner/test_faults.py \
  planner/test_findings_of_planner.py planner/test_findings_of_planner_judge.py \
  workshop/test_findings_of_workshop.py app/test_findings_of_app.py app/test_followed.py \
  cli/test_findings_of_cli.py test_architecture.py test_every_finding.py test_size_names.py

quick: check
	$(BIN)/python -m pytest -m "not hypothesis" $(QUICK:%=tests/%)

lowest: $(VENV)/tests-ready
	$(BIN)/python tools/lowest_versions.py .lowest

bench: $(VENV)/tests-ready
	$(BIN)/python -m benchmarks

docs: $(VENV)/tests-ready
	$(BIN)/python -m sphinx --fail-on-warning --keep-going --quiet -d site/.doctrees docs site

wheel: $(VENV)/tests-ready
	$(BIN)/python -m build --no-isolation

changes: $(VENV)/tests-ready
	$(BIN)/towncrier build --draft --version next

setup: $(VENV)/tests-ready

KERNEL := setup.py $(wildcard src/casewright/planner/engine/kernel/*.[ch])

$(VENV)/ready: $(KERNEL) pyproject.toml requirements.lock tools/front_end.py package-lock.json
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --constraint requirements.lock --editable '.[step]'
	touch $@

$(VENV)/tests-ready: $(VENV)/ready
	$(BIN)/python -m pip install --quiet --constraint requirements.lock --editable '.[step,dev]'
	$(BIN)/python tools/front_end.py
	$(BIN)/python tools/test_browser.py
	touch $@

clean:
	rm -rf $(VENV) .lowest node_modules build dist site src/*.egg-info src/casewright/web/static/vendor
