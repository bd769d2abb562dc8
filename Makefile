# make demo   set up, then open the finished example in the browser and write its packet
# make test   set up, install what only the tests need (a browser among them), then run every check
# make bench  the benchmark tables (slow)

PYTHON ?= python3.11
VENV := .venv
BIN := $(VENV)/bin

.PHONY: demo test check bench setup clean

demo: $(VENV)/ready
	$(BIN)/casewright demo

test: $(VENV)/tests-ready check
	$(BIN)/python -m pytest -n 2 --dist worksteal

check: $(VENV)/tests-ready
	$(BIN)/ruff check .
	$(BIN)/mypy

bench: $(VENV)/tests-ready
	$(BIN)/python -m benchmarks

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
	rm -rf $(VENV) node_modules build src/*.egg-info src/casewright/web/static/vendor
