"""Runs of other versions are made beside the tests of runs."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "run"))
