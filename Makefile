# Everything is set up in .venv from the project's own files; only Python 3.11 or later is needed.
PYTHON ?= python3
BIN := .venv/bin
JOB ?= examples/narrow_one_side.toml
# A reader of drawings that the tests compare with; it needs node and npm.
READER := tests/readers/node_modules/.package-lock.json
OUT ?= plans/$(basename $(notdir $(JOB)))

.PHONY: plan test bench check clean

plan: .venv/plan.done            ## set up and run a job: make plan JOB=my_table.toml
	mkdir -p $(dir $(OUT))
	$(BIN)/edgewright plan $(JOB) --out $(OUT) --force

test: .venv/test.done $(READER)  ## set up and run the whole test suite
	$(BIN)/python -m pytest -q -n auto

bench: .venv/test.done           ## benchmarks, kept apart from the tests
	$(BIN)/python -m pytest -q tests/bench --benchmark-only --override-ini addopts="--import-mode=importlib"

check: .venv/test.done           ## lint, format, types
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/python tests/type_check.py

.venv/bin/python:
	$(PYTHON) -c "import sys; sys.exit('Edgewright needs Python 3.11 or later') if sys.version_info < (3, 11) else None"
	$(PYTHON) -m venv .venv

.venv/plan.done: .venv/bin/python pyproject.toml
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e .
	touch $@

.venv/test.done: .venv/bin/python pyproject.toml
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e ".[dev]"
	touch $@ .venv/plan.done

$(READER): tests/readers/package.json
	npm install --silent --prefix tests/readers
	touch $@

clean:
	rm -rf tests/readers/node_modules .venv build dist *.egg-info plans
