"""Lets the geometry tests import the curves beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
