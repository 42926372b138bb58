"""Shared by all tests: Hypothesis profiles and the patterns drawn by hand."""

import os
import sys
from pathlib import Path

from hypothesis import HealthCheck, settings

# tests/ itself is importable: `import wardrobe`, `from published import …`.
sys.path.insert(0, str(Path(__file__).parent))

settings.register_profile(
    "ci",
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("deep", settings.get_profile("ci"), max_examples=3000)
settings.load_profile(os.environ.get("TRACKER_TESTS", "ci"))
