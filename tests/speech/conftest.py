"""The door to be tuned by voice is the one that is tuned by keys, and stands with the tests of the screen."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "screens"))
