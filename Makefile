# Two commands: `make demo` sets up, builds and shows the demo site; `make test` sets up and runs every check.
# `make site` only builds. Everything is installed in .venv; nothing outside this folder is touched.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PORT ?= 8000
AS_OF ?=
DAY := $(if $(AS_OF),--as-of $(AS_OF))

.PHONY: demo site site-internal test fast lint clean

demo: $(VENV)/.ready
	$(BIN)/archive-tools serve demo_collection --pages content --port $(PORT) $(DAY)

site: $(VENV)/.ready
	$(BIN)/archive-tools build demo_collection --pages content --out site $(DAY)

site-internal: $(VENV)/.ready
	$(BIN)/archive-tools build demo_collection --pages content --edition internal --out site-internal $(DAY)

test: $(VENV)/.ready-dev lint
	$(BIN)/python -m pytest -m "slow or not slow" -ra

fast: $(VENV)/.ready-dev
	$(BIN)/python -m pytest -n auto

lint: $(VENV)/.ready-dev
	$(BIN)/ruff check archive_tools tests
	$(BIN)/ruff format --check archive_tools tests
	$(BIN)/mypy
	$(BIN)/lint-imports

$(VENV)/bin/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Python 3.11 or newer is needed; name one with: make PYTHON=python3.12 $(MAKECMDGOALS)" >&2; exit 1; }
	$(PYTHON) -m venv $(VENV)

$(VENV)/.ready: $(VENV)/bin/python pyproject.toml constraints.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e .
	@touch $@

$(VENV)/.ready-dev: $(VENV)/.ready
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[dev]'
	@touch $@

clean:
	rm -rf $(VENV) site site-internal .archive-cache .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis
