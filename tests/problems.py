"""Fitting problems as a fitter tells them, and what a good pattern cutter would expect of each.

What is expected is measured on the pattern that was drawn, with rulers of this file's own where it
can be: edges by their points, girths by the lines' lengths, places by their distance from the old
edge. A problem names the source of its remedy, or "common practice".
"""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from fitted import fitted

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.fitting.observation import Observation, read_sign
from tracker.fitting.propose import Answer, Proposal, answers, check_readings
from tracker.fitting.reading import Reading, ReadingKind
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

R = ReadingKind
PIN, GAP, CHALK, TAPE, PAPER, FLOOR = (
    R.PINNED_FOLD, R.GAP, R.CHALK_LINE, R.TAPE_DIFFERENCE, R.ON_PAPER, R.FROM_FLOOR,
)  # fmt: skip
PRACTICE = "common practice"
RIGHT, LEFT = BodySide.RIGHT, BodySide.LEFT


def at(kind: R, value: float, corner: str, distance: float = 0.0, **more: str) -> Reading:
    """An amount read at a place."""
    return Reading(kind=kind, value_mm=value, corner=corner, distance_mm=distance, **more)


def seen(sign: str, *readings: Reading, words: str = "", **more: Any) -> Observation:
    """A note of a fitting."""
    return Observation(
        observation_id="n1", fitting_id="f1", number=1, sign=read_sign(sign), readings=readings,
        fitter_words=words, **more,
    )  # fmt: skip


@dataclass(frozen=True)
class Problem:
    """One problem.

    Attributes:
        told: the problem in a fitter's words.
        garment: what it is seen on.
        note: as it is noted.
        kinds: the words of the alterations expected, in order.
        expect: what is expected, by what is measured (see ``measured``), mm; with a second
            figure, how near.
        answer: the cause decided on and its amount, where the note has none.
        still: "piece.edge" (or a piece) that stay as they are to the last figure.
        source: where the remedy is from.
        nothing_at: where the change ends, as --nothing-at says it.
        shared_with: other seams that share it.
    """

    told: str
    garment: str
    note: Observation
    kinds: str
    expect: Mapping[str, float | tuple[float, float]] = field(default_factory=dict)
    answer: Answer | None = None
    still: tuple[str, ...] = ()
    source: str = PRACTICE
    nothing_at: tuple[tuple[str, float], ...] = ()
    shared_with: tuple[str, ...] = ()


@cache
def garment(word: str) -> Pattern:
    """Return a garment by its word, one joined without a side seam among them."""
    if word == "joined":
        return apply_step(JoinSidePanels(), fitted("panelled"), "join").pattern
    return fitted(word)


def solved(problem: Problem) -> tuple[Proposal, ...]:
    """Give a problem to the engine as a note is."""
    pattern = garment(problem.garment)
    check_readings(pattern, problem.note)
    return answers(
        pattern, problem.note, None, problem.nothing_at, problem.answer, problem.shared_with
    )


def judged(problem: Problem) -> None:
    """Hold what the engine proposes against what is expected.

    Raises:
        AssertionError: another alteration, another amount, or something moved that should not.
    """
    told = solved(problem)
    assert "; ".join(p.kind.word for p in told) == problem.kinds, told[-1].sentence
    before, after = garment(problem.garment), told[-1].pattern
    for what, given in problem.expect.items():
        wanted, near = given if isinstance(given, tuple) else (given, 0.11)
        got = measured(before, after, what)
        assert abs(got - wanted) < near, f"{what}: {wanted} expected, {got:.2f} drawn"
    for name in problem.still:
        assert _part(after, name) == _part(before, name), f"{name} moved"


def _part(pattern: Pattern, name: str) -> object:
    piece, _, edge = name.partition(".")
    found = [p for p in pattern.pieces if p.name == piece]
    assert found, f"no {piece}"
    return [p.edge(edge).parts for p in found] if edge else found


def measured(before: Pattern, after: Pattern, what: str) -> float:
    """Measure a change, mm.

    - ``round waist line``: of a line all round the garment;
    - ``long front.side``: of an edge's length as sewn (``right front.side`` of that side's piece);
    - ``out front.side at 150 from side waist``: how far the new edge lies outside the old one,
      square to it (in is negative);
    - ``dart front.bust dart``: of the width of a dart's mouth.
    """
    sort, _, rest = what.partition(" ")
    if sort == "round":
        return _round(after, rest) - _round(before, rest)
    if sort == "long":
        return _edge(after, rest)[1].length - _edge(before, rest)[1].length
    if sort == "dart":
        return _mouth(after, rest) - _mouth(before, rest)
    assert sort == "out", what
    name, _, place = rest.partition(" at ")
    distance, _, corner = place.partition(" from ")
    (old_piece, old), (new_piece, new) = _edge(before, name), _edge(after, name)
    halved = old_piece.side is not new_piece.side or old.side is not new.side
    mirrored = name.startswith("left ") and halved
    return _out(old, new, float(distance), corner, mirrored=mirrored)


def _edge(pattern: Pattern, name: str) -> tuple[Piece, Edge]:
    piece_name, _, edge = name.partition(".")
    side, _, bare = piece_name.partition(" ")
    sided = side in ("right", "left")
    pieces = [p for p in pattern.pieces if p.name == (bare if sided else piece_name)]
    wanted = BodySide(side) if sided else None
    for piece in pieces:
        for one in piece.edges:
            if one.name == edge and (
                wanted is None or wanted in (piece.side, one.side)
                or (BodySide.BOTH is piece.side and one.side is BodySide.BOTH)
            ):  # fmt: skip
                return piece, one
    raise AssertionError(f"no {name} among {[(p.name, str(p.side)) for p in pieces]}")


def _mouth(pattern: Pattern, name: str) -> float:
    piece_name, _, dart = name.partition(".")
    piece = next(p for p in pattern.pieces if p.name == piece_name)
    found = next(d for d in piece.darts if d.name == dart)
    return abs(found.mouth_end - found.mouth_start)


def _round(pattern: Pattern, line: str) -> float:
    whole = 0.0
    for piece in pattern.pieces:
        twice = 2.0 if piece.side is BodySide.BOTH else 1.0
        for level in piece.levels:
            if level.name == line and piece.layer == "shell":
                strokes = sum(abs(b - a) for s in level.strokes for a, b in itertools.pairwise(s))
                whole += twice * (strokes + sum(piece.edge(e).length for e in level.edges))
    assert whole, f"no {line}"
    return whole


def _out(old: Edge, new: Edge, distance: float, corner: str, *, mirrored: bool) -> float:
    """How far outside the old line the new one is, at a distance from a corner of the old.

    A piece is drawn counter-clockwise, so outside is to the right of an edge's way. What was kept
    as the wearer's right half is drawn mirrored for her left.
    """
    along = distance if corner == old.start else old.length - distance
    here, ahead = old.point_at(along), old.point_at(min(along + 0.01, old.length))
    if ahead == here:
        ahead, here = here, old.point_at(along - 0.01)
    way = (ahead - here) / abs(ahead - here)
    spot = old.point_at(along)
    best = 0.0
    nearest = 1e9
    for part in new.parts:
        for line in (part, _longer(part)):
            for k in range(4001):
                point = line.point_at(line.length * k / 4000)
                point = complex(-point.real, point.imag) if mirrored else point
                off = (point - spot) / way
                if abs(off.real) < nearest:
                    nearest, best = abs(off.real), -off.imag
    return best


def _longer(part: Curve) -> Curve:
    return part.run_on(60.0, 60.0)
