"""A pattern as a drawing with named paths, at full scale, that reads back as the same lines."""

import html

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, left_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge
from tracker.tracing.writing import csv_of, tables_of

#: Between two pieces, and round the drawing.
GAP_MM = 30.0
#: How far a notch is drawn into the piece, and a mark to each side.
TICK_MM = 5.0
_LOOKS = {
    "edge": 'stroke-width="0.5"',
    "dart": 'stroke-width="0.35" stroke-dasharray="5 2"',
    "line": 'stroke-width="0.25" stroke-dasharray="10 2 1 2"',
    "": 'stroke-width="0.35"',
}


def svg_of(pattern: Pattern, title: str) -> str:
    """Return the drawing.

    Args:
        pattern: the pattern; pieces without outline stand in the tables only.
        title: what it is.
    """
    groups, right, low, high = [], 0.0, 0.0, 0.0
    for piece in (p for p in pattern.pieces if p.has_outline):
        box = piece.box
        shift = complex(right + GAP_MM - box[0], 0.0)
        right += GAP_MM + box[2] - box[0]
        low, high = min(low, box[1]), max(high, box[3])
        groups.append(_group(piece, shift))
    wide, tall = right + GAP_MM, high - low + 2 * GAP_MM
    tables = csv_of(tables_of(pattern, with_lines=False))
    body = "\n".join(groups)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(wide)}mm" height="{_n(tall)}mm" '
        f'viewBox="0 {_n(-high - GAP_MM)} {_n(wide)} {_n(tall)}" fill="none" stroke="#000">\n'
        f"<title>{html.escape(title)}</title>\n"
        f"<metadata>\n{html.escape(tables, quote=False)}</metadata>\n{body}\n</svg>\n"
    )


def _group(piece: Piece, shift: Point) -> str:
    lines: list[str] = []

    def path(name: str, curves: list[Curve], *told: tuple[str, str]) -> None:
        data = "".join(_data(c, shift) for c in curves)
        desc = "; ".join(f"{k} {v}" for k, v in told if v)
        said = f"<desc>{html.escape(desc)}</desc>" if desc else ""
        look = _LOOKS.get(name.partition(" ")[0], _LOOKS[""])
        lines.append(f'<path d="{data}" {look}><title>{html.escape(name)}</title>{said}</path>')

    def side(of: BodySide) -> tuple[str, str]:
        return "body side", "" if of is piece.side else str(of)

    for edge in piece.edges:
        ends = ("from", edge.start), ("to", edge.end)
        path(f"edge {edge.name}", list(edge.drawn), *ends, side(edge.side))
    for dart in piece.darts:
        back = ("stand back", f"{_n(dart.stand_back_mm)} mm")
        path(f"dart {dart.name}", _legs(dart), back, ("pressed", dart.pressed), side(dart.side))
    for notch in piece.notches:
        edge = piece.edge(notch.edge, notch.side)
        along = notch_on_edge(edge, notch)
        spot = edge.point_at(along)
        tick = Curve.line(spot, spot + left_of(edge.heading_at(along)) * TICK_MM)
        told = ("edge", notch.edge), ("from", notch.corner), ("count", str(notch.count))
        path(f"notch {notch.name}", [tick], *told, side(notch.side))
    if piece.grain is not None:
        path("grain", [Curve.line(*piece.grain)])
    for level in (v for v in piece.levels if v.strokes):
        path(f"line {level.name}", [Curve.line(*s) for s in level.strokes], side(level.side))
    for mark in piece.marks:
        at = mark.point
        cross = [Curve.line(at, at + d * TICK_MM) for d in (1, 1j, -1, -1j)]
        path(f"mark {mark.name}", cross, side(mark.side))
    laid = f"<desc>laid at {_n(shift.real)} {_n(shift.imag)}</desc>"
    body = "\n".join(lines)
    return f"<g>\n<title>{html.escape(piece.label)}</title>{laid}\n{body}\n</g>"


def _legs(dart: Dart) -> list[Curve]:
    one, two = dart.legs
    return [one, two] if dart.double_pointed else [one.joined(two)]


def _data(line: Curve, shift: Point) -> str:
    out = [f"M{_xy(line.start + shift)}"]
    for run in line.runs:
        out.append(("L" if len(run) == 1 else "C") + " ".join(_xy(p + shift) for p in run))
    return "".join(out)


def _xy(p: Point) -> str:
    return f"{_n(p.real)} {_n(-p.imag)}"


def _n(value: float) -> str:
    """A coordinate to a ten-thousandth of a millimetre, as short as it goes."""
    return f"{round(value, 4) + 0.0:.4f}".rstrip("0").rstrip(".")
