"""A pattern read back from canonical JSON, format 1: the other way of ``canonical``.

Whatever is missing, of the wrong sort or no number is told in a sentence.
"""

import math
from collections.abc import Callable, Iterable
from typing import Any

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.profile import Profile, ProfileError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.cut import Cut, Redrawn
from tracker.pattern.dart import Dart
from tracker.pattern.earlier import Earlier
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.pattern import FORMAT, Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam
from tracker.pattern.traced import Seen, Sewn, Traced

Record = dict[str, Any]


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError(f"{value!r} where a number belongs")
    return float(value)


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise ValueError(f"{value!r} where a name belongs")
    return value


def _texts(values: object) -> tuple[str, ...]:
    if not isinstance(values, list | tuple):
        raise ValueError(f"{values!r} where a list of names belongs")
    return tuple(_text(v) for v in values)


def _point(xy: Iterable[float]) -> Point:
    x, y = xy
    return complex(_number(x), _number(y))


def _read_curve(record: Record) -> Curve:
    runs = []
    for flat in record["to"]:
        if len(flat) not in (2, 6):
            raise ValueError("a run has 2 or 6 numbers")
        runs.append(tuple(_point(flat[k : k + 2]) for k in range(0, len(flat), 2)))
    if not runs:
        raise ValueError("a line has one run at least")
    return Curve(_point(record["from"]), tuple(runs))


def _read_edge(r: Record) -> Edge:
    parts, bases = _all(_read_curve, r.get("parts")), _all(_read_curve, r.get("bases"))
    mouths = _texts(r.get("mouths", ()))
    if len(mouths) != max(len(parts) - 1, 0) or (bases and len(bases) != len(parts)):
        raise ValueError(f"the parts of the {r['name']} edge and its dart mouths do not tally")
    return Edge(
        name=_text(r["name"]),
        side=BodySide(r["side"]),
        start=_text(r["start"]),
        end=_text(r["end"]),
        parts=parts,
        mouths=mouths,
        bases=bases,
        displacements=tuple(
            Displacement(
                _text(d["step"]), Profile(tuple((_number(s), _number(v)) for s, v in d["profile"]))
            )
            for d in r.get("displacements", ())
        ),
        declared_mm=None if r.get("declared") is None else _number(r["declared"]),
    )


def _read_dart(r: Record) -> Dart:
    one, two = (_read_curve(leg) for leg in r["legs"])
    mouth = r.get("mouth")
    return Dart(
        name=_text(r["name"]),
        side=BodySide(r["side"]),
        legs=(one, two),
        stand_back_mm=_number(r["stand_back"]),
        pressed=_text(r["pressed"]),
        mouth=None if mouth is None else _text(mouth),
    )


def _read_notch(n: Record) -> Notch:
    return Notch(
        name=_text(n["name"]),
        side=BodySide(n["side"]),
        edge=_text(n["edge"]),
        corner=_text(n["corner"]),
        distance_mm=_number(n["distance"]),
        count=_whole(n["count"]),
    )


def _whole(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise ValueError(f"{value!r} where a whole number belongs")
    return value


def _read_level(v: Record) -> Level:
    return Level(
        _text(v["name"]),
        BodySide(v["side"]),
        tuple(_all(_point, s) for s in v.get("strokes", ())),
        _texts(v.get("edges", ())),
    )


def piece_from(r: Record) -> Piece:
    """Read a piece back."""
    grain, fold, taken_from = r.get("grain"), r.get("fold"), r.get("taken_from")
    traced = r.get("traced")
    return Piece(
        name=_text(r["name"]),
        side=BodySide(r["side"]),
        edges=_all(_read_edge, r["edges"]),
        darts=_all(_read_dart, r.get("darts")),
        notches=_all(_read_notch, r.get("notches")),
        levels=_all(_read_level, r.get("levels")),
        marks=_all(_read_mark, r.get("marks")),
        grain=None if grain is None else (_point(grain[0]), _point(grain[1])),
        fold=None if fold is None else _text(fold),
        layer=_text(r["layer"]),
        copies=_whole(r["copies"]),
        cut=_text(r["cut"]),
        taken_from=None if taken_from is None else _text(taken_from),
        traced=None if traced is None else _read_traced(traced),
        cuts=_all(_read_cut, r.get("cuts")),
        earlier=_all(_read_earlier, r.get("earlier")),
        allowances=_all(_read_allowance, r.get("allowances")),
    )


def _read_allowance(r: Record) -> tuple[str, float]:
    return _text(r["edge"]), _number(r["mm"])


def _read_earlier(r: Record) -> Earlier:
    grain = r.get("grain")
    return Earlier(
        word=_text(r["kind"]),
        parameters=dict(r["parameters"]),
        left=_text(r["left"]),
        edges=_all(_read_edge, r.get("edges")),
        darts=_all(_read_dart, r.get("darts")),
        notches=_all(_read_notch, r.get("notches")),
        levels=_all(_read_level, r.get("levels")),
        marks=_all(_read_mark, r.get("marks")),
        grain=None if grain is None else (_point(grain[0]), _point(grain[1])),
    )


def _read_mark(m: Record) -> Mark:
    return Mark(_text(m["name"]), BodySide(m["side"]), _point(m["at"]))


def _read_cut(r: Record) -> Cut:
    (a, b), (c, d) = _all(_point, r["spots"]), _all(_point, r["went"])
    one, other = _all(_read_redrawn, r["ends"])
    return Cut(
        (a, b), (c, d), (one, other), _all(_read_redrawn, r.get("beside")),
        tuple((_read_dart(was), _read_dart(now)) for was, now in r.get("darts", ())),
        tuple((_read_level(was), _read_level(now)) for was, now in r.get("levels", ())),
        _all(_read_edge, r.get("edges")),
    )  # fmt: skip


def _read_redrawn(r: Record) -> Redrawn:
    def span(name: str) -> tuple[float, float]:
        start, end = r.get(name, (0.0, 0.0))
        return _number(start), _number(end)

    return Redrawn(
        _text(r["edge"]), BodySide(r["side"]), _read_curve(r["was"]), _read_curve(r["now"]),
        span("taken"), span("put"), _number(r.get("by", 0.0)), bool(r.get("start_moved", False)),
    )  # fmt: skip


def _read_traced(r: Record) -> Traced:
    return Traced(
        word=_text(r["kind"]),
        parameters=dict(r["parameters"]),
        seen=tuple(
            Seen(_text(piece), _text(edge), BodySide(side), _number(length), _all(_point, points))
            for piece, edge, side, length, points in r["seen"]
        ),
        sewn=tuple(
            Sewn(_text(edge), BodySide(side), _all(_read_run, to), _whole(times), _number(longer))
            for edge, side, to, times, longer in r.get("sewn", ())
        ),
        beside=tuple((_text(edge), _read_run(run)) for edge, run in r.get("beside", ())),
    )


def _read_run(r: Record) -> Run:
    backward = r.get("backward", False)
    if not isinstance(backward, bool):
        raise ValueError(f"{backward!r} where yes or no belongs")
    return Run(_text(r["piece"]), _text(r["edge"]), BodySide(r["side"]), backward)


def _read_seam(r: Record) -> Seam:
    return Seam(
        name=_text(r["name"]),
        side=BodySide(r["side"]),
        first=_all(_read_run, r["first"]),
        second=_all(_read_run, r["second"]),
        matches=tuple(Match(*_texts(m)) for m in r.get("matches", ())),
        ease=tuple(
            PlannedEase(_number(e["amount"]), _text(e["start"]), _text(e["end"]))
            for e in r.get("ease", ())
        ),
    )


def _all(read: Callable[[Any], Any], records: Iterable[Any] | None) -> tuple[Any, ...]:
    return tuple(read(r) for r in records or ())


def pattern_from(record: Record) -> Pattern:
    """Read a pattern back from plain values.

    Raises:
        PatternError: the record is of a newer format, or not a pattern.
    """
    try:
        kept_in = record["format"]
    except (KeyError, TypeError, IndexError):
        kept_in = None
    if kept_in != FORMAT:
        wrote = "a newer program wrote it" if kept_in else "it is no pattern, or is damaged"
        raise PatternError(
            f"this pattern is kept in format {kept_in!r} and this program reads "
            f"format {FORMAT}; {wrote}"
        )
    try:
        return Pattern(
            pieces=_all(piece_from, record["pieces"]),
            seams=_all(_read_seam, record["seams"]),
            ease=tuple(sorted((line, _number(mm)) for line, mm in record["ease"].items())),
        )
    except (LookupError, TypeError, ValueError, AttributeError, ProfileError) as fault:
        what = f"{fault} is missing" if isinstance(fault, KeyError) else str(fault)
        raise PatternError(
            f"this pattern's record is damaged ({what}); check the store, or take it from a backup"
        ) from fault
