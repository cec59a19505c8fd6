"""The renderers of pictures with known truth, shared with the tool that prints bias and spread."""

from __future__ import annotations

from types import ModuleType

import pytest

from loading import tool


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
