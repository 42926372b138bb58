"""A neck facing of a front whose button facing is grown on stops at it, and is sewn to it."""

import irregular
import pytest

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.cut_the_neckline import CutNeckline
from tracker.alterations.kinds.reshape_an_edge import AmountAt, ReshapeEdge
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import out_of_date
from tracker.alterations.tracing import EdgeOf
from tracker.geometry.transform import Motion
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern

STAND = AddButtonStand(width_mm=20.0, facing_mm=65.0)


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def facing(*pieces: str) -> TraceFacing:
    edges = tuple(EdgeOf(piece=p, edge="neckline") for p in pieces)
    return TraceFacing(name="neck facing", edges=edges, width_mm=50.0)


@pytest.mark.parametrize("pieces", [("front",), ("front", "back")], ids=" and ".join)
@pytest.mark.parametrize("number", range(4))
def test_it_covers_the_neckline_from_where_the_grown_on_one_ends(
    number: int, pieces: tuple[str, ...]
) -> None:
    block = done(irregular.block("bodice", number), STAND)
    new = done(block, facing(*pieces))
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    front, traced = new.piece("front"), new.piece("neck facing")
    # Turned in over the front edge, the grown-on facing ends along the new one's edge.
    fold = front.level("front fold line").strokes[0]
    grown = front.edge("facing edge").drawn[0].moved(Motion.mirror(fold[0], fold[-1]))
    join = traced.edge("facing join")
    lean = join.drawn[0].end - join.drawn[0].start
    assert join.length < grown.length
    covered = sum(front.edge(e).length for e in ("facing neckline", "stand neckline"))
    whole = sum(new.piece(p).edge("neckline").length for p in pieces)
    # What the grown-on one covers beyond the centre line, and this one, are the neckline.
    stand = front.edge("stand neckline").length
    mine = traced.edge("neckline").length
    assert mine + covered - 2 * stand == pytest.approx(whole, abs=0.5)
    assert abs(lean) == pytest.approx(join.length, abs=1e-3)


def test_it_is_out_of_date_when_the_neckline_or_the_grown_on_facing_changes() -> None:
    start = done(irregular.block("bodice"), STAND, facing("front"))
    assert out_of_date(start) == ()
    edge = start.piece("front").edge("shoulder")
    wider = ReshapeEdge(
        piece="front", edge="shoulder",
        amounts=(
            AmountAt(corner="neck point", distance_mm=0.0, amount_mm=5.0),
            AmountAt(corner="shoulder point", distance_mm=0.0, amount_mm=0.0),
        ),
    )  # fmt: skip
    assert edge.length > 50
    changed = done(start, wider)
    assert [o.piece for o in out_of_date(changed)] == ["neck facing"]
    again = done(changed, TraceAgain())
    assert out_of_date(again) == ()
    assert again.piece("neck facing").edge("shoulder").length == pytest.approx(50.0, abs=2.0)


def test_without_a_facing_grown_on_the_stand_is_named_too_as_ever() -> None:
    block = done(irregular.block("bodice"), AddButtonStand(width_mm=20.0))
    edges = tuple(EdgeOf(piece="front", edge=e) for e in ("neckline", "stand neckline"))
    new = done(block, TraceFacing(name="neck facing", edges=edges, width_mm=50.0))
    assert "front edge" in {e.name for e in new.piece("neck facing").edges}


def test_lowered_before_the_stand_it_is_faced_all_the_same() -> None:
    block = done(irregular.block("bodice"), CutNeckline(front_mm=30.0, shoulder_mm=20.0), STAND)
    new = done(block, facing("front"))
    assert "facing join" in {e.name for e in new.piece("neck facing").edges}
