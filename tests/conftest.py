"""Shared by all tests: Hypothesis profiles and the patterns drawn by hand."""

import os
import sys
from pathlib import Path

import pytest
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


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    from browsers import chromium

    if not chromium():
        terminalreporter.write_line("no Chromium on this machine: the page tests were left out")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what opens a page where there is no browser; refuse to where it is required."""
    from browsers import chromium, required

    if chromium():
        return
    if required():
        raise pytest.UsageError("the page tests must run here, and there is no Chromium")
    out = [item for item in items if "browser" in getattr(item, "fixturenames", ())]
    items[:] = [item for item in items if item not in out]
    config.hook.pytest_deselected(items=out)
