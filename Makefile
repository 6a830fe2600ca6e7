# make run    work out the examples and print the papers
# make serve  open the workbench in the browser
# make test   everything that must hold before a change goes in
# make coverage  the same tests, with the lines that none of them runs
# make docs   write the generated pages of docs/ anew
# make bench  measure how fast it is
# make proof  long proofs: launches against another solver, edits against a killed server
# make screenshots  photograph every page for docs/screenshots
# make clean  remove what was made, the virtual environment too

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet

# One thread for each numeric library: results are repeatable and tests run side by side.
export OMP_NUM_THREADS := 1
export OPENBLAS_NUM_THREADS := 1
export PIP_CONSTRAINT := $(CURDIR)/constraints.txt
export PIP_BUILD_CONSTRAINT := $(CURDIR)/constraints.txt

.DEFAULT_GOAL := run
.PHONY: run serve test coverage docs bench proof screenshots clean

run: $(VENV)/.run-stamp
	@bash scripts/run-examples $(BIN)/axlewright out

serve: $(VENV)/.run-stamp
	@$(BIN)/axlewright serve

test: $(VENV)/.dev-stamp
	@bash scripts/browser
	@$(BIN)/ruff format --check
	@$(BIN)/ruff check
	@$(BIN)/mypy
	@$(BIN)/lint-imports
	@$(BIN)/python -m pytest -n auto --dist loadgroup

# Half as long again or more: not part of make test.
coverage: $(VENV)/.dev-stamp
	@bash scripts/browser
	@$(BIN)/python -m pytest -n auto --dist loadgroup --cov=axlewright --cov-report=term:skip-covered

docs: $(VENV)/.dev-stamp
	@$(BIN)/python scripts/docs.py
	@$(BIN)/python scripts/schemas.py
	@$(BIN)/python scripts/pictures.py

bench: $(VENV)/.dev-stamp
	@set -e; found=; for file in benchmarks/*.py; do \
	  [ -e "$$file" ] || break; found=yes; echo "== $$file"; $(BIN)/python "$$file"; \
	done; [ -n "$$found" ] || { echo "benchmarks/ holds no measurement yet" >&2; exit 1; }

proof: $(VENV)/.dev-stamp
	@set -e; for file in scripts/prove_*.py; do echo "== $$file"; $(BIN)/python "$$file"; done

screenshots: $(VENV)/.dev-stamp
	@bash scripts/browser
	@$(BIN)/python scripts/screenshots.py

clean:
	rm -rf $(VENV) out dist htmlcov .coverage .coverage.* \
	  .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache
	find . -name __pycache__ -type d -prune -exec rm -rf {} +

# The environment is made once, and again only when what it is made from has changed.
$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo "needs Python 3.11 or newer; try: make PYTHON=python3.11" >&2; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' \
	  || { echo "needs Python's venv module; on Debian: apt install python3-venv" >&2; exit 1; }
	@$(PYTHON) -m venv $(VENV)

$(VENV)/.run-stamp: pyproject.toml constraints.txt | $(BIN)/python
	@echo "installing into $(VENV)"
	@$(PIP) install --editable .
	@touch $@

$(VENV)/.dev-stamp: pyproject.toml constraints.txt | $(BIN)/python
	@echo "installing into $(VENV) with what the tests need"
	@$(PIP) install --editable '.[dev]'
	@touch $(VENV)/.run-stamp $@
