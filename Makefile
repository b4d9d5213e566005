# Two commands matter: `make demo` (what it does, in out/) and `make test`. `make` alone lists the rest.
PYTHON ?= python3
VENV ?= .venv
BIN := $(VENV)/bin
INSTALL := $(BIN)/python -m pip install --quiet --disable-pip-version-check
LOCK := .lockvenv/bin/uv pip compile --universal --python-version 3.11 --generate-hashes \
	--no-header --no-annotate --quiet $(LOCKFLAGS)
# Measured bodies for `make survey`, one person a row; any file of your own will do.
# The large table is found in the folder that CUTWRIGHT_BODIES names.
SURVEY ?= $(firstword $(if $(CUTWRIGHT_BODIES),$(wildcard $(CUTWRIGHT_BODIES)/ansur2_female.csv)) tests/survey/sample.csv)
# Test lays (one JSON document each), in the folder that CUTWRIGHT_LAYS names, and seconds a lay for `make lay-bench`.
DIR ?= $(CUTWRIGHT_LAYS)
SECONDS ?= 20

.PHONY: help demo test check browser postgres bench lay-bench mutants attack survey docs pictures words lock

help:           ## this list
	@sed -n 's/^\([a-z-]*\):.*## /\1\t/p' $(MAKEFILE_LIST)

demo: $(VENV)/.run  ## make the demo dress for a demo body; it comes out in out/
	$(BIN)/cutwright demo

test: $(VENV)/.dev $(VENV)/.compiled browser  ## run every test but those over many measured bodies (make survey)
	$(BIN)/python -m pytest -q -n auto --dist loadfile -m "not survey"

check: $(VENV)/.dev  ## style, types, layers, catalogue
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(BIN)/python -m tools.words --check
	@sh tools/check-scripts.sh

browser:        ## find or install the browser that the page is tested in
	@sh tools/get-browser.sh

postgres:       ## find or install the PostgreSQL that the book is tested on
	@sh tools/get-postgres.sh

bench: $(VENV)/.dev browser  ## how long the usual work takes on this machine
	$(BIN)/python -m benchmarks.instructions
	$(BIN)/python -m benchmarks.bench
	$(BIN)/python -m benchmarks.desk_latency

lay-bench: $(VENV)/.run  ## how well the lay does: make lay-bench DIR=folder SECONDS=20
	@test -n "$(DIR)" || { echo "Say where the test lays are: make lay-bench DIR=folder, or name it in CUTWRIGHT_LAYS"; exit 2; }
	$(BIN)/python -m benchmarks.lay_bench "$(DIR)" $(SECONDS)

mutants: $(VENV)/.mutants  ## break the program in small ways: does a test notice? make mutants MUTANTS="--seconds 600"
	$(BIN)/python -m tools.mutants $(MUTANTS)

attack: $(VENV)/.dev  ## attack it by chance, for an hour or so: make attack ATTACK="--seed 2 --kills 0"
	$(BIN)/python -m tests.attack $(ATTACK)

survey: $(VENV)/.dev  ## draft every style for many measured bodies: make survey SURVEY=file.csv
	@test -n "$(SURVEY)" || { echo "Say which bodies: make survey SURVEY=file.csv"; exit 2; }
	$(BIN)/cutwright survey --all --bodies "$(SURVEY)"
	$(BIN)/python -m tests.operations.options "$(SURVEY)"
	$(BIN)/python -m pytest -q -m survey

docs: $(VENV)/.run  ## write the reference pages from the declarations
	$(BIN)/python -m tools.make_docs

pictures: $(VENV)/.dev browser  ## take the pictures of the desk for the docs anew
	$(BIN)/python -m tools.take_pictures

words: $(VENV)/.run  ## gather every sentence for translators; compile what they gave back
	$(BIN)/python -m tools.words

lock:           ## work out the locked versions anew (newest of all: make lock LOCKFLAGS=--upgrade)
	test -x .lockvenv/bin/uv || { $(PYTHON) -m venv .lockvenv && .lockvenv/bin/python -m pip install --quiet uv; }
	$(LOCK) pyproject.toml --extra dev requirements/build.in --output-file requirements/dev.lock
	$(LOCK) pyproject.toml --constraint requirements/dev.lock --output-file requirements/run.lock
	$(LOCK) pyproject.toml --extra mutants --constraint requirements/dev.lock --output-file requirements/mutants.lock
	$(LOCK) requirements/build.in --constraint requirements/dev.lock --output-file requirements/build.lock
	@! grep -n '://\|^ *--[a-z-]*index' requirements/*.lock

$(VENV)/.run: pyproject.toml requirements/run.lock requirements/build.lock
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Python 3.11 or newer is needed: make PYTHON=python3.12 ...")'
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(INSTALL) --require-hashes -r requirements/run.lock -r requirements/build.lock
	$(INSTALL) --no-deps --no-build-isolation --editable .
	$(BIN)/python -m tools.words
	@touch $@

$(VENV)/.dev: requirements/dev.lock $(VENV)/.run
	$(INSTALL) --require-hashes -r requirements/dev.lock
	@touch $@

# The search for a lay is compiled by the first lay on a machine: once here, not by every worker of the tests at once.
$(VENV)/.compiled: $(VENV)/.run $(wildcard src/cutwright/lay/*.py)
	$(BIN)/cutwright lay shift --body the-alto --cloth plain-cotton-140 --places 1000 --out $(VENV)/first-lay >/dev/null
	@touch $@

$(VENV)/.mutants: requirements/mutants.lock $(VENV)/.dev
	$(INSTALL) --require-hashes -r requirements/mutants.lock
	@touch $@
