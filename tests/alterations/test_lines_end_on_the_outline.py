"""Material lines end on the outline, whatever was done to it, and come back with it."""

import os
import random

import pytest
from alterations.random_steps import a_step
from irregular import SORTS, block

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.part_at_a_height import NewPart, PartAtHeight
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.errors import TrackerError
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.levels import ON_EDGE_MM
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.units import write_tenths


def off_outline(pattern: Pattern) -> dict[tuple[str, ...], float]:
    """How far each end of each line is off its piece's outline, dart legs included."""
    return {
        (piece.label, level.name, level.side, str(k), str(at)): min(
            curve.nearest_spot(stroke[at])[2] for curve in piece.ring
        )
        for piece in pattern.pieces
        for level in piece.levels
        for k, stroke in enumerate(level.strokes)
        for at in (0, -1)
    }


def assert_ends_on_outline(before: Pattern, after: Pattern) -> None:
    """Every line that ended on the outline ends on it after."""
    was, now = off_outline(before), off_outline(after)
    for end, off in now.items():
        if was.get(end, 1.0) < ON_EDGE_MM:
            assert off < ON_EDGE_MM, end


def taken(seam: str, corner: str, amount: float) -> TakeIn:
    return TakeIn(seam=seam, amounts=(AmountAt(corner=corner, distance_mm=0.0, amount_mm=amount),))


@pytest.mark.parametrize("amount", [-9.0, -3.0, 3.0, 8.0])
@pytest.mark.parametrize(
    ("sort", "seam", "corner"),
    [
        ("trousers", "inside leg", "inside-leg point"),
        ("trousers", "centre back", "inside-leg point"),
        ("trousers", "centre front", "inside-leg point"),
        ("sleeved bodice", "underarm", "front underarm point"),
        ("sleeved bodice", "armhole", "underarm point"),
        ("sleeved bodice", "side", "underarm point"),
        ("torso", "side", "underarm point"),
        ("joined bodice", "side front", "side front waist"),
    ],
)
@pytest.mark.parametrize("number", [0, 1, 2])
def test_taken_in_and_let_out_the_lines_are_as_they_were_and_end_on_the_outline(
    sort: str, seam: str, corner: str, amount: float, number: int
) -> None:
    start = block(sort, number)
    if seam not in {s.name for s in start.seams}:
        seam = next(s.name for s in start.seams if "front" in s.name)
        corner = start.edge_of(start.seam(seam).first[0]).end
    once = apply_step(taken(seam, corner, amount), start, "one").pattern
    back = apply_step(taken(seam, corner, -amount), once, "two").pattern
    for before, after in ((start, once), (once, back)):
        assert_ends_on_outline(before, after)
    for line in lines_of(start):
        # A curved line is cut back by whole strokes and runs on straight; any other comes back.
        curved = any(
            len(s) > 2 for p in start.pieces for v in p.levels if v.name == line for s in v.strokes
        )
        assert girth(back, line) == pytest.approx(girth(start, line), abs=0.02 if curved else 1e-5)


@pytest.mark.parametrize("number", [0, 1, 2])
def test_a_line_that_a_yoke_seam_was_taken_in_across_ends_at_the_seam_and_it_is_told(
    number: int,
) -> None:
    """It once went on where it was, outside the cloth, its girth told unchanged."""
    yoke = PartAtHeight(
        line="across back", above_mm=3.0, named="yoke", part=NewPart.UPPER, pieces=("back",)
    )
    start = apply_step(yoke, block("bodice", number), "yoke").pattern

    def step(amount: float) -> TakeIn:
        ends = (("back yoke armhole", 0.0), ("back yoke centre back", amount))
        return TakeIn(
            seam="back yoke",
            amounts=tuple(AmountAt(corner=c, distance_mm=0.0, amount_mm=a) for c, a in ends),
        )

    done = apply_step(step(12.0), start, "one")
    assert_ends_on_outline(start, done.pattern)
    was, now = (girth(p, "across back") for p in (start, done.pattern))
    assert now < was - 2 * 50
    (told,) = [c for c in done.effect.girths if c.what == "across back"]
    assert told.by == pytest.approx(now - was, abs=1e-6)
    (note,) = [t for t in done.effect.notes if "across back" in t]
    assert "ends at its back yoke now" in note
    assert f"{write_tenths((was - now) / 2)} of it were cut away" in note
    back = apply_step(step(-12.0), done.pattern, "two").pattern
    assert girth(back, "across back") == pytest.approx(was, abs=1e-5)


#: On a piece grown past its centre, or cut off there, the line goes to the centre and no further;
#: where a gap is closed right at a line's end, the line is broken there.
ENDS_INSIDE = ("add a button stand", "cut the neckline", "close a gap into a dart")


def ends_on_edges(pattern: Pattern) -> dict[tuple[str, ...], tuple[int, Point, bool]]:
    """Each end of each line with its count of strokes, where it is, and if it is on an edge."""
    out = {}
    for piece in pattern.pieces:
        for level in piece.levels:
            for k, stroke in enumerate(level.strokes):
                for at in (0, -1):
                    off = min(e.nearest(stroke[at])[1] for e in piece.edges)
                    key = (piece.name, piece.side, level.name, level.side, str(k), str(at))
                    out[key] = len(level.strokes), stroke[at], off < ON_EDGE_MM
    return out


@pytest.mark.parametrize("seed", range(200 if os.environ.get("TRACKER_TESTS") == "deep" else 24))
def test_lines_that_ended_on_an_edge_end_on_the_outline_after_any_step(seed: int) -> None:
    rng, pattern = random.Random(seed), block(SORTS[seed % len(SORTS)], seed // len(SORTS) % 3)
    for number in range(10):
        try:
            kind = a_step(rng, pattern)
            new = apply_step(kind, pattern, f"s{number}").pattern
        except TrackerError:
            continue
        was, now = ends_on_edges(pattern), off_outline(new)
        known = ends_on_edges(new)
        for key, (count, _, on) in was.items() if kind.word not in ENDS_INSIDE else ():
            if on and key in known and known[key][0] == count:
                label = new.piece(key[0], BodySide(key[1])).label
                assert now[label, key[2], key[3], key[4], key[5]] < ON_EDGE_MM, (kind, key)
        pattern = new
