"""Count lines: modules below 300, functions of the package below 50. Exit 1 names each that is past it."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

MODULE_LINES = 300
FUNCTION_LINES = 50


def too_long(path: Path, *, functions: bool) -> list[str]:
    """What in the module is too long, one line each."""
    text = path.read_text(encoding="utf-8")
    lines = len(text.splitlines())
    found = [f"{path}: {lines} lines, {MODULE_LINES} or more"] if lines >= MODULE_LINES else []
    if functions:
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                length = (node.end_lineno or node.lineno) - node.lineno + 1
                if length >= FUNCTION_LINES:
                    found.append(
                        f"{path}:{node.lineno}: {node.name} has {length} lines, {FUNCTION_LINES} or more"
                    )
    return found


def main() -> int:
    """Check src, tests, tools and models; 1 where anything is too long."""
    root = Path(__file__).parent.parent
    faults = [
        fault
        for folder in ("src", "tests", "tools", "models")
        for path in sorted((root / folder).rglob("*.py"))
        for fault in too_long(path, functions=folder != "tests")
    ]
    print("\n".join(faults) if faults else "No module or function is too long")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
