# Every check has one definition, here; CI calls these targets.
# Needs Python 3.11 or newer, git and make; everything else is installed on the way.

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
LOCKS  := requirements
PIP    := $(BIN)/python -m pip --disable-pip-version-check --quiet
INSTALL_SELF := $(PIP) install --no-deps --no-build-isolation --editable .

.DEFAULT_GOAL := help
.PHONY: help demo test accuracy bench lint format types wheel docs lock clean

help:  ## this list
	@awk -F':.*## ' '/^[a-z]+:.*## / {printf "make %-9s %s\n", $$1, $$2}' $(MAKEFILE_LIST)

demo: $(VENV)/.run  ## the whole job on the recording and the pictures that ship
	@$(BIN)/saywright demo

test: $(VENV)/.dev  ## every test
	@$(BIN)/python -m pytest

accuracy: $(VENV)/.dev  ## how well it hears and understands, into docs/accuracy.md; QUICK=1 prints a part
	@tools/system-packages accuracy
	@PYTHONPATH=tools $(BIN)/python -m accuracy $(if $(QUICK),--quick)

bench: $(VENV)/.dev  ## how fast it is, as ratios
	@$(BIN)/python tools/bench_judging.py
	@$(BIN)/python tools/bench_understanding.py
	@PYTHONPATH=tools $(BIN)/python tools/bench_hearing.py
	@PYTHONPATH=tools:tests $(BIN)/python tools/bench_live.py
	@$(BIN)/python tools/bench_photos.py
	@$(BIN)/python tools/bench_pictures.py
	@$(BIN)/python tools/bench_board.py
	@PYTHONPATH=tools:tests $(BIN)/python tools/bench_board_live.py
	@$(BIN)/python tools/bench_desk.py

lint: $(VENV)/.dev  ## style, and the size of modules and functions
	@$(BIN)/ruff check
	@$(BIN)/ruff format --check
	@$(BIN)/python tools/size_check.py

format: $(VENV)/.dev  ## write the code in its format
	@$(BIN)/ruff check --fix --quiet
	@$(BIN)/ruff format

types: $(VENV)/.dev  ## strict type check
	@$(BIN)/mypy

wheel: $(VENV)/.dev  ## build the wheel, install it alone elsewhere, run it there
	@tools/check-wheel $(BIN)/python

docs: $(VENV)/.dev  ## the command pages, made from --help
	@$(BIN)/python tools/command_pages.py docs/commands.md

lock: $(VENV)/.dev  ## resolve the dependencies anew
	@$(PIP) install --upgrade uv
	@echo uv | $(BIN)/uv pip compile $(UV_FLAGS) --no-annotate -o $(LOCKS)/installer.lock -
	@$(BIN)/uv pip compile $(UV_FLAGS) pyproject.toml --extra tiny-en --group build -o $(LOCKS)/run.lock
	@$(BIN)/uv pip compile $(UV_FLAGS) pyproject.toml --extra tiny-en --group dev -o $(LOCKS)/dev.lock
UV_FLAGS := --quiet --upgrade --universal --python-version 3.11 --generate-hashes --no-emit-index-url \
            --no-header

clean:  ## remove what the targets made, the environment too
	rm -rf $(VENV) build dist .mypy_cache .ruff_cache .pytest_cache .hypothesis .cache
	find . -name __pycache__ -type d -prune -exec rm -rf {} +

# A stamp stands for "installed"; a second run has nothing to do.

$(VENV)/.made:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Saywright needs Python 3.11 or newer: make PYTHON=/path/to/python3.11 ..."; exit 1; }
	@tools/system-packages venv || { echo "Install python3-venv, then run make again"; exit 1; }
	@$(PYTHON) -m venv $(VENV)
	@touch $@

$(VENV)/.run: $(VENV)/.made $(LOCKS)/run.lock pyproject.toml
	@tools/system-packages demo
	@echo "Installing what the demo needs, by the hashes in $(LOCKS)/run.lock"
	@tools/install-locked $(LOCKS)/run.lock $(BIN)/python
	@$(INSTALL_SELF)
	@touch $@

$(VENV)/.dev: $(VENV)/.made $(LOCKS)/dev.lock pyproject.toml
	@tools/system-packages test
	@echo "Installing what the tests need, by the hashes in $(LOCKS)/dev.lock"
	@tools/install-locked $(LOCKS)/dev.lock $(BIN)/python
	@$(INSTALL_SELF)
	@touch $@ $(VENV)/.run
