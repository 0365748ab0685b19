"""Lets these tests use the generated procedures of the benchmark."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "benchmarks"))
