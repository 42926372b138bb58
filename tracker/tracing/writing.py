"""A pattern written as a tracing's tables: CSV or JSON that reads back as the same lines."""

import csv
import io
import itertools
import json
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.geometry.through import through
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.tracing.layout import TABLES

#: Points are written so closely that the line drawn through them again stays this near.
AGAIN_MM = 0.05
#: The steps between points tried, from wide to close; and so many at most on one smooth line.
STEPS_MM = (25.0, 12.5, 6.25, 3.0)
MOST_SPANS = 16
#: A bend of a line sharper than this, radians (half a degree), is a corner.
CORNER_RAD = 0.0087

Cells = dict[str, Any]
Tables = dict[str, list[Cells]]


def tables_of(pattern: Pattern, *, with_lines: bool = True) -> Tables:
    """Return a pattern as the rows of every table, lengths in millimetres.

    Args:
        pattern: the pattern.
        with_lines: with everything that is drawn; else only what a drawing cannot say.
    """
    out: Tables = {name: [] for name in TABLES}
    for piece in pattern.pieces:
        out["pieces"].append(_piece(piece))
        if with_lines or not piece.has_outline:
            _lines(piece, out)
        else:
            for level in piece.levels:
                own = {"piece": piece.name, "line": level.name, **_sides(piece, level.side)}
                out["lines"].extend({**own, "edge": name} for name in level.edges)
    for seam in pattern.seams:
        _seam(pattern, seam, out)
    out["girths"] = [{"line": line, "ease": _number(mm)} for line, mm in pattern.ease]
    return {name: rows for name, rows in out.items() if rows}


def csv_of(tables: Tables) -> str:
    """Return tables as the text of a CSV file, lines ended as RFC 4180 has them."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(("units", "mm"))
    for name, rows in tables.items():
        columns = [c.name for c in TABLES[name].columns if any(c.name in row for row in rows)]
        text.write("\r\n")
        writer.writerow((name,))
        writer.writerow(columns)
        writer.writerows([row.get(c, "") for c in columns] for row in rows)
    return text.getvalue()


def json_of(tables: Tables) -> str:
    """Return tables as the text of a JSON file, a row a line."""
    parts = ['{\n"units": "mm"']
    for name, rows in tables.items():
        lines = ",\n".join(f"  {json.dumps(row, ensure_ascii=False)}" for row in rows)
        parts.append(f"{json.dumps(name)}: [\n{lines}\n]")
    return ",\n".join(parts) + "\n}\n"


def _number(value: float) -> float | int:
    rounded = round(value, 3) + 0.0
    return int(rounded) if rounded == int(rounded) else rounded


def _xy(point: Point) -> Cells:
    return {"x": _number(point.real), "y": _number(point.imag)}


def _said(**cells: Any) -> Cells:
    """Cells that say something, underscores as blanks."""
    return {k.replace("_", " "): v for k, v in cells.items() if v not in (None, "", ())}


def _piece(piece: Piece) -> Cells:
    return _said(
        piece=piece.name,
        body_side=str(piece.side),
        layer=piece.layer,
        copies=piece.copies,
        fold=piece.fold,
        cut=piece.cut,
        taken_from=piece.taken_from,
    )


def _sides(piece: Piece, side: BodySide) -> Cells:
    """Body sides where they have to be told."""
    told = {} if side is piece.side else {"body side": str(side)}
    sided = piece.side in (BodySide.RIGHT, BodySide.LEFT)
    return told | ({"piece side": str(piece.side)} if sided else {})


def _lines(piece: Piece, out: Tables) -> None:
    for edge in piece.edges:
        own = {"piece": piece.name, "edge": edge.name, **_sides(piece, edge.side)}
        if edge.parts:
            out["points"].extend({**own, **row} for row in _points(edge))
        else:
            length = None if edge.declared_mm is None else _number(edge.declared_mm)
            ends = {"from": edge.start, "to": edge.end}
            out["edges"].append(own | ends | _said(length=length))
    for dart in piece.darts:
        own = {"piece": piece.name, "dart": dart.name, **_sides(piece, dart.side)}
        _dart(own, dart, out)
    for notch in piece.notches:
        out["notches"].append(
            {
                "piece": piece.name, "notch": notch.name, "edge": notch.edge,
                "from": notch.corner, "distance": _number(notch.distance_mm),
                "count": notch.count, **_sides(piece, notch.side),
            }
        )  # fmt: skip
    whole = _sides(piece, piece.side)
    out["grain"].extend({"piece": piece.name, **_xy(p), **whole} for p in piece.grain or ())
    for level in piece.levels:
        own = {"piece": piece.name, "line": level.name, **_sides(piece, level.side)}
        for number, stroke in enumerate(level.strokes, 1):
            out["lines"].extend({**own, "stroke": number, **_xy(p)} for p in stroke)
        out["lines"].extend({**own, "edge": name} for name in level.edges)
    for mark in piece.marks:
        own = {"piece": piece.name, "mark": mark.name, **_sides(piece, mark.side)}
        out["marks"].append({**own, **_xy(mark.point)})


def _points(edge: Edge) -> Iterable[Cells]:
    number = itertools.count(1)
    for index, part in enumerate(edge.drawn):
        stops = stops_of(part)
        for k, (point, corner) in enumerate(stops):
            kind, name = ("corner" if corner else "curve"), ""
            if k == 0 and index == 0:
                name = edge.start
            elif k == len(stops) - 1 and index == len(edge.parts) - 1:
                name = edge.end
            elif k == 0 and index:
                kind, name = "mouth", edge.mouths[index - 1]
            elif k == len(stops) - 1:
                kind, name = "mouth", edge.mouths[index]
            yield {"point": next(number), **_xy(point), "kind": kind, **_said(name=name)}


def stops_of(line: Curve) -> list[tuple[Point, bool]]:
    """Return points on a line, each with whether it is a corner, to draw it through again."""
    out = [(line.start, True)]
    for run in _runs(line):
        out.extend(_spaced(run)[1:])
    return out


def _runs(line: Curve) -> list[Curve]:
    """Part a line at its corners."""
    runs: list[list[tuple[Point, ...]]] = [[line.segments[0]]]
    for one, other in itertools.pairwise(line.segments):
        bend = turn_between(Curve.of([one]).end_heading, Curve.of([other]).start_heading)
        if abs(bend) > CORNER_RAD:
            runs.append([])
        runs[-1].append(other)
    return [Curve.of(run) for run in runs]


@lru_cache(maxsize=256)
def _spaced(run: Curve) -> tuple[tuple[Point, bool], ...]:
    """Points from which a smooth line is drawn again, each with whether it is a corner.

    Where so few do not do, the line is parted at the worst place: two lines of few points each
    are drawn again sooner, and nearer, than one of many.
    """
    ends = ((run.start, True), (run.end, True))
    if all(len(r) == 1 for r in run.runs):  # straight: what bends more was parted there
        return ends
    for step in STEPS_MM:
        count = max(1, round(run.length / step))
        if count > MOST_SPANS and step < STEPS_MM[0]:
            break
        points = [run.point_at(run.length * k / count) for k in range(count + 1)]
        again = through([complex(round(p.real, 3), round(p.imag, 3)) for p in points]).line
        stops = [again.length * k / (4 * count) for k in range(1, 4 * count)]
        off = [run.nearest_spot(again.point_at(at))[2] for at in stops]
        if max(off) <= AGAIN_MM:
            return ends[0], *((p, False) for p in points[1:-1]), ends[1]
    if run.length < 2 * STEPS_MM[-1]:
        return ends[0], *((p, False) for p in points[1:-1]), ends[1]
    worst = stops[off.index(max(off))] / again.length * run.length
    before, after = run.split(_parting(run, worst))
    return _spaced(before) + _spaced(after)[1:]


def _parting(run: Curve, worst_mm: float) -> float:
    """Where to part a line: at the joint of its pieces nearest to a place, or there."""
    margin = min(STEPS_MM[0], run.length / 4)
    joints = [at for at in run.reaches[1:] if margin <= at <= run.length - margin]
    return min((*joints, run.length / 2), key=lambda at: abs(at - worst_mm))


def _dart(own: Cells, dart: Dart, out: Tables) -> None:
    first, second = dart.legs
    told = _said(stand_back=_number(dart.stand_back_mm), pressed=dart.pressed)
    if dart.double_pointed:
        out["darts"].append({**own, **_xy(first.start), **told})
        out["darts"].append({**own, **_xy(first.end), **told})
        legs = first, second
    else:
        out["darts"].append({**own, **_xy(dart.pivot), **told})
        legs = first, second.reversed
    for number, leg in enumerate(legs, 1):
        for k, (point, corner) in enumerate(stops_of(leg)[1:-1], 1):
            kind = "corner" if corner else "curve"
            out["legs"].append({**own, "leg": number, "point": k, **_xy(point), "kind": kind})


def _seam(pattern: Pattern, seam: Seam, out: Tables) -> None:
    sides = [("first", seam.first)]
    if not seam.on_itself:
        sides.append(("second", seam.second))
    alike = sum(s.name == seam.name for s in pattern.seams) > 1
    side = str(seam.side)
    told = {"seam side": side} if alike else {}
    for sewn, runs in sides:
        for run in runs:
            out["seams"].append(
                {
                    "seam": seam.name, "sewn": sewn, "piece": run.piece, "edge": run.edge,
                    "starts at": _starts(pattern, run), "body side": str(run.side),
                    "seam side": side,
                }
            )  # fmt: skip
    for m in seam.matches:
        out["matches"].append(
            {
                "seam": seam.name, "first piece": m.first_piece, "first": m.first,
                "second piece": m.second_piece, "second": m.second, **told,
            }
        )  # fmt: skip
    for e in seam.ease:
        amount = {"amount": _number(e.amount_mm), "from": e.start, "to": e.end}
        out["ease"].append({"seam": seam.name, **amount, **told})


def _starts(pattern: Pattern, run: Run) -> str:
    edge = pattern.edge_of(run)
    return edge.end if run.backward else edge.start
