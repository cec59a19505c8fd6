"""Modules that lie outside the package, loaded from their files."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

TOOLS = Path(__file__).parent.parent / "tools"


def load(path: Path, name: str) -> ModuleType:
    """The module in this file, as *name*."""
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up there
    spec.loader.exec_module(module)
    return module


def tool(name: str) -> ModuleType:
    """The module of this name under tools/."""
    return load(TOOLS / f"{name}.py", f"tool_{name}")
