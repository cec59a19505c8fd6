"""The renderers of pictures with known truth, shared with the tool that prints bias and spread."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

TOOLS = Path(__file__).parents[2] / "tools"


@pytest.fixture(scope="session")
def scenes() -> ModuleType:
    """tools/photo_scenes.py as a module."""
    return tool("photo_scenes")


@pytest.fixture(scope="session")
def cloths() -> ModuleType:
    """tools/photo_cloths.py as a module."""
    return tool("photo_cloths")


@pytest.fixture(scope="session")
def faults() -> ModuleType:
    """tools/photo_faults.py as a module."""
    return tool("photo_faults")


@pytest.fixture(scope="session")
def fuzz() -> ModuleType:
    """tools/fuzz_matching.py as a module."""
    return tool("fuzz_matching")


def tool(name: str) -> ModuleType:
    """The module of this name under tools/."""
    spec = importlib.util.spec_from_file_location(f"tool_{name}", TOOLS / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up there
    spec.loader.exec_module(module)
    return module
