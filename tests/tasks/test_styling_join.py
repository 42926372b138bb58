import datetime as dt
from pathlib import Path

import pytest
import studio

from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import girth
from tracker.tasks.styling import PanelWish, join_panels, panel

DAY = dt.date(2026, 4, 2)


def test_side_panels_are_joined_into_a_new_pattern_and_the_panels_stay(tmp_path: Path) -> None:
    store = studio.build(tmp_path / "s.db")
    panel(store, "mara/bodice", PanelWish(), DAY, "panelled")
    made = join_panels(
        store, "mara/panelled", {"waist line": 1.0}, {}, 40.0, "centre back", BodySide.BOTH, DAY,
        "seamless",
    )  # fmt: skip
    assert made.version is not None
    with store.reading() as books:
        joined = books.version("mara", "seamless").pattern
        panelled = books.version("mara", "panelled").pattern
    assert {p.name for p in joined.pieces} == {"centre front", "side panel", "centre back"}
    assert {p.name for p in panelled.pieces} > {"side front", "side back"}
    assert girth(joined, "waist line") == pytest.approx(girth(panelled, "waist line"), abs=0.05)


def test_joining_what_has_no_side_panels_is_refused_and_nothing_is_stored(tmp_path: Path) -> None:
    store = studio.build(tmp_path / "s.db")
    before = studio.everything(store.path)
    with pytest.raises(TrackerError, match="panel it first"):
        join_panels(store, "mara/bodice", {}, {}, 40.0, "", BodySide.BOTH, DAY, "seamless")
    assert studio.everything(store.path) == before
