# make demo   the main job on the demo cranes, start to end
# make test   every test that CI runs
# Both do all the set-up on a fresh machine; Python 3.11 or newer is all they need.

SHELL := /bin/sh
export PYTHONDONTWRITEBYTECODE :=  # modules are compiled once, not at every start of a program
VENV := .venv
PY := $(VENV)/bin/python
RUN := $(VENV)/.ready-run
TEST := $(VENV)/.ready-test

.PHONY: demo test lint bench fuzz docs lock clean

demo: $(RUN)
	$(PY) -m becket.cli.main demo --into demo

test: $(TEST)
	sh tools/browser.sh
	sh tools/postgres.sh
	$(PY) -m pytest -q -n 2 --dist loadgroup

lint: $(TEST)
	$(PY) -m ruff check .
	$(PY) -m ruff format --check .
	$(PY) -m mypy
	$(VENV)/bin/lint-imports --no-cache
	$(VENV)/bin/deptry src

bench: $(TEST)
	QUICK=$(QUICK) $(PY) -m benchmarks.run

fuzz: $(TEST)
	$(PY) -m tests.fuzz.run --cases 100000
	$(PY) -m tests.records.kill --cases 500
	$(PY) -m tests.records.kill_server --cases 500

docs: $(RUN)
	$(PY) -m docs.make

# the exact set that was tested, with hashes; names no address
lock:
	sh tools/lock.sh

$(VENV)/bin/python:
	sh tools/make_venv.sh $(VENV)

$(RUN): requirements.txt pyproject.toml | $(VENV)/bin/python
	sh tools/install.sh $(VENV) requirements.txt
	touch $@

$(TEST): requirements-test.txt $(RUN)
	sh tools/install.sh $(VENV) requirements-test.txt
	touch $@

clean:
	rm -rf $(VENV) demo build dist .mypy_cache .pytest_cache .ruff_cache .hypothesis
