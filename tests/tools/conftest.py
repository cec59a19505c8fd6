"""The tools are run with their folder on the path; so are their tests."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "tools"))
