"""What a check says of trousers: the crotch across the inside leg, the centres, the waist."""

import pytest
from trousered import BLOCKS, POINT, drafted

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.true_a_join import TrueJoin
from tracker.pattern.checks import check
from tracker.pattern.finding import Finding
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern

BLOCK = drafted()


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def bent(piece: str, amount: float) -> Kind:
    """A crotch that dips or rises in its last 40 mm, with its point where it was."""
    return ReshapeEdge(
        piece=piece, edge="crotch",
        amounts=(at(POINT, 0.0), at(POINT, amount, 14.0), at(POINT, 0.0, 40.0)),
    )  # fmt: skip


def turned(pattern: Pattern, piece: str, degrees: float) -> Pattern:
    """The crotch's end turned, so that its corner is no longer square."""
    step = TrueJoin(seam=f"centre {piece}", corner=POINT, degrees=180.0 + 2 * degrees)
    return apply_step(step, pattern, "turned").pattern


def found(pattern: Pattern) -> dict[str, Finding]:
    return {f"{f.code}: {f.place}": f for f in check(pattern).findings}


@pytest.mark.parametrize("block", BLOCKS[1:], ids=["size 12", "one of 260"])
def test_a_drafted_block_passes_with_a_figure_for_every_corner(block: Pattern) -> None:
    looked = check(block)
    assert looked.clean
    figures = dict(looked.figures)
    for place in (
        f"inside leg seam at the {POINT}",
        f"centre front seam at the {POINT}",
        f"centre back seam at the {POINT}",
        "centre front seam at the centre front waist",
        "centre back seam at the centre back waist",
        "side seam at the side waist",
        "side seam at the side hem",
        "inside leg seam at the inside hem",
    ):
        assert figures[f"joins: {place}"] == "0.0 °"
    for piece in block.pieces:
        crotch = piece.edge("crotch")
        for at_end in (False, True):
            assert corner_angle(piece, crotch, at_end) == pytest.approx(90.0, abs=0.01)


@pytest.mark.parametrize("degrees", [5.0, -5.0])
def test_a_crotch_that_is_bent_at_its_point_is_told_there(degrees: float) -> None:
    told = found(turned(BLOCK, "back", degrees))
    across = told[f"joins: inside leg seam at the {POINT}"]
    assert across.figure == pytest.approx(degrees, abs=0.3)
    assert ("a peak" if degrees > 0 else "a dip") in across.sentence
    assert across.remedy.startswith("draw the crotch in one sweep")
    centre = told[f"joins: centre back seam at the {POINT}"]
    assert centre.figure == pytest.approx(2 * degrees, abs=0.6)
    assert "inside leg" not in centre.remedy


def test_what_the_finding_names_can_be_trued() -> None:
    wrong = turned(BLOCK, "back", 6.0)
    step = TrueJoin(seam="centre back", corner=POINT)
    assert not found(apply_step(step, wrong, "one").pattern)


def test_inside_legs_that_differ_are_told_with_what_moves_in_trousers() -> None:
    step = MoveCorner(piece="back", corner="inside hem", edge="inside leg", along_mm=6.0)
    told = found(apply_step(step, BLOCK, "one").pattern)["seam sides: inside leg seam"]
    assert told.figure == pytest.approx(6.0, abs=0.1)
    assert "too long on the back" in told.sentence
    assert "hem" in told.remedy
    assert POINT in told.remedy


def test_a_waist_that_peaks_at_the_side_is_told() -> None:
    step = TrueJoin(seam="side", corner="side waist", degrees=190.0)
    told = found(apply_step(step, BLOCK, "one").pattern)["joins: side seam at the side waist"]
    assert told.figure == pytest.approx(10.0, abs=0.3)


def test_a_curve_changed_away_from_its_ends_bends_no_corner() -> None:
    assert not found(apply_step(bent("back", 2.0), BLOCK, "one").pattern)
