"""The grain line as it is drawn: in the pattern's direction, clear of darts, and long."""

import irregular
import pytest
import shapely

from tracker.geometry.area import polygon
from tracker.geometry.point import unit
from tracker.output.grain import CLEAR_MM, grain_drawn
from tracker.pattern.piece import Piece


def drawn(piece: Piece) -> shapely.LineString:
    grain = grain_drawn(piece)
    assert grain is not None
    return shapely.LineString([(p.real, p.imag) for p in grain])


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("sort", irregular.SORTS)
def test_a_grain_line_lies_clear_of_every_dart_and_in_the_grain(sort: str, number: int) -> None:
    for piece in irregular.block(sort, number).pieces:
        line = drawn(piece)
        assert piece.grain is not None
        (a, b), was = line.coords, unit(piece.grain[1] - piece.grain[0])
        assert unit(complex(*b) - complex(*a)) == pytest.approx(was, abs=1e-9)
        assert polygon(piece.plain_ring).contains(line)
        for dart in piece.darts:
            for leg in dart.legs:
                legs = shapely.LineString([(p.real, p.imag) for p in leg.flattened(0.1)])
                assert legs.distance(line) > CLEAR_MM - 0.5


@pytest.mark.parametrize("number", range(3))
def test_a_grain_line_is_at_least_half_as_long_as_the_piece_has_room_for(number: int) -> None:
    for sort in ("torso", "joined bodice", "skirt", "trousers"):
        for piece in irregular.block(sort, number).pieces:
            _, bottom, _, top = polygon(piece.plain_ring).buffer(-CLEAR_MM).bounds
            # Of an upright grain; a dart or a fold may take the longest place of all.
            assert drawn(piece).length > 0.4 * (top - bottom)
