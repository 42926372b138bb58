"""Format 1: a pattern as canonical JSON, and its digest.

Sorted keys, no spaces, coordinates rounded to 1e-6 mm. A run of a chain is two numbers (a
straight line's end) or six (two handles and the end of a cubic). Absent means the default, so
that a field added later leaves the digest of an older pattern alone.
"""

import hashlib
import json
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from tracker.geometry.curve import Curve
from tracker.geometry.point import DECIMALS, Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical_in import Record, piece_from
from tracker.pattern.canonical_in import pattern_from as pattern_from
from tracker.pattern.cut import Cut, Redrawn
from tracker.pattern.dart import Dart
from tracker.pattern.earlier import Earlier
from tracker.pattern.edge import Edge, kept
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.pattern import FORMAT, Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.traced import Traced

Key = tuple[str, BodySide]


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
        allowances=[{"edge": edge, "mm": number(mm)} for edge, mm in piece.allowances],
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
