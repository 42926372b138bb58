"""Where a browser is, for the tests that open a page in one."""

import os
import shutil


def chromium() -> str | None:
    """Return the Chromium of this machine, or nothing."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


def required() -> bool:
    """Tell whether the page tests must run: where changes are accepted they must."""
    return os.environ.get("TRACKER_BROWSER") == "required"
