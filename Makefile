# Two commands on a fresh machine: `make site` and `make test`.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
MUSEUM := decisions
PIP := $(BIN)/python -m pip --disable-pip-version-check -q
RUN_TREE := $(VENV)/.run-tree
TEST_TREE := $(VENV)/.test-tree

.PHONY: site serve test check lint bench soak fuzz pictures clean help

help:
	@echo "make site   set up, check the demo museum and publish its site into site/ and site-plain/"
	@echo "make serve  look at the published site on this computer"
	@echo "make test   set up and run every test, Chromium included"
	@echo "make check  check the demo museum"
	@echo "make lint   ruff, mypy and codespell"
	@echo "make bench  print the budgets as ratios"
	@echo "make pictures   pictures of every kind of page, to be looked at, in pictures/"
	@echo "make soak   the long sweeps"
	@echo "make fuzz   a fuzzer that follows the code, a minute a target (Linux)"

$(RUN_TREE): requirements.lock pyproject.toml
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@$(BIN)/python -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo "Python 3.11 or later is needed; set PYTHON=..."; exit 1; }
	$(PIP) install -r requirements.lock
	$(PIP) install --no-deps --no-build-isolation -e .
	@touch $@

$(TEST_TREE): requirements-test.lock $(RUN_TREE)
	$(PIP) install -r requirements-test.lock
	@touch $@

site: $(RUN_TREE)
	$(BIN)/witnessmark check $(MUSEUM) --as-of demo
	$(BIN)/witnessmark publish $(MUSEUM) --as-of demo --out site
	$(BIN)/witnessmark publish $(MUSEUM) --as-of demo --skin plain --out site-plain

serve: $(RUN_TREE)
	$(BIN)/witnessmark serve site

check: $(RUN_TREE)
	$(BIN)/witnessmark check $(MUSEUM) --as-of demo

lint: $(TEST_TREE)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/codespell README.md DEVELOPERS.md CHANGELOG.md tooling decisions site_src

test: $(TEST_TREE)
	@.ci/chromium
	@.ci/html-checker
	$(MAKE) --no-print-directory lint
	$(BIN)/python -m pytest -n auto

bench: $(TEST_TREE)
	$(BIN)/python -m tests.bench

soak: $(TEST_TREE)
	@.ci/chromium
	WITNESSMARK_SOAK=1 $(BIN)/python -m pytest -n auto

# In no lock file, since it installs on few systems; the tests run its targets without it.
FUZZER := atheris==3.0.0
TARGETS := reader record policy quantity rule list review
fuzz: $(TEST_TREE)
	$(PIP) install $(FUZZER)
	for target in $(TARGETS); do \
	  $(BIN)/python -m tests.fuzzing $$target -max_total_time=60 -rss_limit_mb=4096 || exit 1; \
	done

pictures: $(TEST_TREE)
	@.ci/chromium
	$(BIN)/python -m tests.pictures

clean:
	rm -rf site site-plain pictures $(VENV) .mypy_cache .ruff_cache .pytest_cache .hypothesis
