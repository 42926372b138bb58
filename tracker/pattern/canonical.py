"""Format 1: a pattern as canonical JSON, and its digest.

Sorted keys, no spaces, coordinates rounded to 1e-6 mm. A run of a chain is two numbers (a
straight line's end) or six (two handles and the end of a cubic). Absent means the default, so
that a field added later leaves the digest of an older pattern alone.
"""

import hashlib
import json
import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from tracker.geometry.curve import Curve
from tracker.geometry.point import DECIMALS, Point
from tracker.geometry.profile import Profile, ProfileError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.cut import Cut, Redrawn
from tracker.pattern.dart import Dart
from tracker.pattern.earlier import Earlier
from tracker.pattern.edge import Displacement, Edge, kept
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.pattern import FORMAT, Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam
from tracker.pattern.traced import Seen, Sewn, Traced

Key = tuple[str, BodySide]
Record = dict[str, Any]


def number(value: float) -> float:
    """Return a length as the store keeps it; never −0.0."""
    return round(value, DECIMALS) + 0.0


def canonical(record: object) -> str:
    """Write a record so that equal records are equal texts."""
    return json.dumps(record, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def digest_of(record: object) -> str:
    """Return the SHA-256 of a record's canonical text, in hexadecimal."""
    return hashlib.sha256(canonical(record).encode()).hexdigest()


# -- out ---------------------------------------------------------------------------------


def _xy(point: Point) -> list[float]:
    return [number(point.real), number(point.imag)]


def _curve(curve: Curve) -> Record:
    return {
        "from": _xy(curve.start),
        "to": [[c for p in run for c in _xy(p)] for run in curve.runs],
    }


def _set(record: Record, **fields: Any) -> Record:
    """Add the fields that say something."""
    record.update({k: v for k, v in fields.items() if v not in (None, (), [], False, "")})
    return record


def _edge(edge: Edge) -> Record:
    return _set(
        {"name": edge.name, "side": str(edge.side), "start": edge.start, "end": edge.end},
        parts=[_curve(p) for p in edge.parts],
        mouths=list(edge.mouths),
        bases=[_curve(b) for b in edge.bases],
        displacements=[{"step": d.step, "profile": d.profile.plain} for d in edge.displacements],
        declared=None if edge.declared_mm is None else number(edge.declared_mm),
    )


def _dart(dart: Dart) -> Record:
    return _set(
        {
            "name": dart.name,
            "side": str(dart.side),
            "legs": [_curve(leg) for leg in dart.legs],
            "stand_back": number(dart.stand_back_mm),
            "pressed": dart.pressed,
        },
        mouth=dart.mouth,
    )


def _level(level: Level) -> Record:
    return _set(
        {"name": level.name, "side": str(level.side)},
        strokes=[[_xy(p) for p in stroke] for stroke in level.strokes],
        edges=list(level.edges),
    )


def piece_record(piece: Piece) -> Record:
    """Return a piece as plain values."""
    return _set(
        {
            "name": piece.name,
            "side": str(piece.side),
            "edges": [_edge(e) for e in piece.edges],
            "layer": piece.layer,
            "copies": piece.copies,
            "cut": piece.cut,
        },
        darts=[_dart(d) for d in piece.darts],
        notches=[_notch(n) for n in piece.notches],
        levels=[_level(v) for v in piece.levels],
        marks=[_mark(m) for m in piece.marks],
        grain=None if piece.grain is None else [_xy(p) for p in piece.grain],
        fold=piece.fold,
        taken_from=piece.taken_from,
        traced=None if piece.traced is None else _traced(piece.traced),
        cuts=[_cut(c) for c in piece.cuts],
        earlier=[_earlier(e) for e in piece.earlier],
    )  # fmt: skip


def _notch(n: Notch) -> Record:
    return {
        "name": n.name, "side": str(n.side), "edge": n.edge, "corner": n.corner,
        "distance": number(n.distance_mm), "count": n.count,
    }  # fmt: skip


def _mark(m: Mark) -> Record:
    return {"name": m.name, "side": str(m.side), "at": _xy(m.point)}


def _earlier(earlier: Earlier) -> Record:
    return _set(
        {"kind": earlier.word, "parameters": dict(earlier.parameters), "left": earlier.left},
        edges=[_edge(e) for e in earlier.edges],
        darts=[_dart(d) for d in earlier.darts],
        notches=[_notch(n) for n in earlier.notches],
        levels=[_level(v) for v in earlier.levels],
        marks=[_mark(m) for m in earlier.marks],
        grain=None if earlier.grain is None else [_xy(p) for p in earlier.grain],
    )


def changed_digest(piece: Piece, edges: Iterable[Key], darts: Iterable[Key]) -> str:
    """Return the digest of some edges and darts of a piece and of all that is marked on it."""
    return digest_of(
        {
            "edges": [_edge(piece.edge(*key)) for key in edges],
            "darts": [_dart(piece.dart(*key)) for key in darts],
            "notches": [_notch(n) for n in piece.notches],
            "levels": [_level(v) for v in piece.levels],
            "marks": [_mark(m) for m in piece.marks],
        }
    )[:16]


def _cut(cut: Cut) -> Record:
    return _set(
        {
            "spots": [_xy(p) for p in cut.spots],
            "went": [_xy(p) for p in cut.went],
            "ends": [_redrawn(r) for r in cut.ends],
        },
        beside=[_redrawn(r) for r in cut.beside],
        darts=[[_dart(was), _dart(now)] for was, now in cut.darts],
        levels=[[_level(was), _level(now)] for was, now in cut.levels],
        edges=[_edge(e) for e in cut.edges],
    )


def _redrawn(r: Redrawn) -> Record:
    return _set(
        {"edge": r.edge, "side": str(r.side), "was": _curve(r.was), "now": _curve(r.now)},
        taken=_span(r.taken),
        put=_span(r.put),
        by=number(r.by_mm),
        start_moved=r.start_moved,
    )


def _span(span: tuple[float, float]) -> list[float]:
    return [number(x) for x in span] if any(span) else []


def _traced(traced: Traced) -> Record:
    return _set(
        {
            "kind": traced.word,
            "parameters": dict(traced.parameters),
            "seen": [
                [s.piece, s.edge, str(s.side), number(s.length_mm), [_xy(p) for p in s.points]]
                for s in traced.seen
            ],
        },
        sewn=[
            [s.edge, str(s.side), [_run(r) for r in s.to], s.times, number(s.longer_mm)]
            for s in traced.sewn
        ],
        beside=[[edge, _run(run)] for edge, run in traced.beside],
    )


def _run(run: Run) -> Record:
    return _set(
        {"piece": run.piece, "edge": run.edge, "side": str(run.side)}, backward=run.backward
    )


def _seam(seam: Seam) -> Record:
    return _set(
        {
            "name": seam.name,
            "side": str(seam.side),
            "first": [_run(r) for r in seam.first],
            "second": [_run(r) for r in seam.second],
        },
        matches=[[m.first_piece, m.first, m.second_piece, m.second] for m in seam.matches],
        ease=[{"amount": number(e.amount_mm), "start": e.start, "end": e.end} for e in seam.ease],
    )


def pattern_record(pattern: Pattern) -> Record:
    """Return a pattern as plain values, format 1."""
    return {
        "format": FORMAT,
        "pieces": [piece_record(p) for p in pattern.pieces],
        "seams": [_seam(s) for s in pattern.seams],
        "ease": {line: number(mm) for line, mm in pattern.ease},
    }


def piece_digest(piece: Piece) -> str:
    """Return a piece's digest, worked out once and kept on the immutable piece."""
    kept = piece.__dict__.get("_digest")
    if kept is None:
        kept = piece.__dict__["_digest"] = digest_of(piece_record(piece))
    return str(kept)


def pattern_digest(pattern: Pattern) -> str:
    """Return the digest of the pieces' digests with the seams and the ease plan."""
    return digest_of(
        {
            "format": FORMAT,
            "pieces": [[p.name, str(p.side), piece_digest(p)] for p in pattern.pieces],
            "seams": [_seam(s) for s in pattern.seams],
            "ease": {line: number(mm) for line, mm in pattern.ease},
        }
    )


# -- in ----------------------------------------------------------------------------------


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
    )


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


def settled(pattern: Pattern) -> Pattern:
    """Return the pattern rounded as the store keeps it: what the next step starts from."""
    return Pattern(
        pieces=tuple(_settled_piece(p) for p in pattern.pieces),
        seams=tuple(_settled_seam(s) for s in pattern.seams),
        ease=tuple(sorted((line, number(mm)) for line, mm in pattern.ease)),
    )


def _settled_piece(piece: Piece) -> Piece:
    if "_settled" in piece.__dict__:
        return piece
    # Reading back what would be written makes memory and store agree by construction; edges
    # and darts that came from an already settled piece are what would be read.
    rest = piece_from(piece_record(replace(piece, edges=(), darts=())))
    fresh = replace(
        rest,
        edges=tuple(_settled_edge(e) for e in piece.edges),
        darts=tuple(_settled_dart(d) for d in piece.darts),
    )
    fresh.__dict__["_settled"] = True
    return fresh


def _settled_edge(edge: Edge) -> Edge:
    if "_settled" in edge.__dict__:
        return edge
    fresh = replace(
        edge,
        parts=tuple(p.rounded for p in edge.parts),
        bases=tuple(b.rounded for b in edge.bases),
        displacements=kept(edge.displacements),
        declared_mm=None if edge.declared_mm is None else number(edge.declared_mm),
    )
    fresh.__dict__["_settled"] = True
    return fresh


def _settled_seam(seam: Seam) -> Seam:
    ease = tuple(replace(e, amount_mm=number(e.amount_mm)) for e in seam.ease)
    return seam if ease == seam.ease else replace(seam, ease=ease)


def _settled_dart(dart: Dart) -> Dart:
    if "_settled" in dart.__dict__:
        return dart
    one, two = dart.legs
    fresh = replace(dart, legs=(one.rounded, two.rounded), stand_back_mm=number(dart.stand_back_mm))
    fresh.__dict__["_settled"] = True
    return fresh


__all__ = [
    "canonical", "digest_of", "number", "pattern_digest", "pattern_from", "pattern_record",
    "piece_digest", "piece_from", "piece_record", "settled",
]  # fmt: skip
