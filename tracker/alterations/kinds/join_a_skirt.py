"""Join a skirt to a bodice at the waist: a dress with a waist seam."""

import itertools
import json
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.told import applied, mm, on_paper
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_from, pattern_record
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace
from tracker.pattern.walk import walked

#: More than this in each half shows as fullness; common practice, no source.
MOST_EASE_MM = 6.0
#: The skirt's sides are fitted down to here where it has no hip line; common practice.
TO_HIP_MM = 200.0
#: A material line ends on an edge within this.
ON_EDGE_MM = 0.1
#: Closer than this the two waists need no fitting.
SAME_WAIST_MM = 0.05
_TRIES = 4


class Fit(StrEnum):
    """What is done where the two waists differ."""

    SKIRT = "fit the skirt"
    EASE = "ease it in"


@dataclass(frozen=True, kw_only=True)
class JoinSkirt(Kind):
    """Sew a skirt to the waist of a bodice.

    Attributes:
        skirt: the skirt's pattern as it is recorded, written out, so that the step can be done
            again whatever becomes of the other.
        of: which version it is, in words.
        fit: where the waists differ: fit the skirt at its side seams, to nothing at its hip
            line, or ease the skirt in, by at most 6 mm on each half.
        name: what the skirt's pieces and seams are called by, before their own names.
        edge: the edge both have in the seam.
    """

    word: ClassVar[str] = "join a skirt"
    family: ClassVar[str] = "record"
    help: ClassVar[str] = (
        "Sew a skirt drafted for the same client to the waist of a bodice: its pieces join the "
        "pattern, its side seams are fitted to the bodice's waist, and the waist seam is walked."
    )

    skirt: str
    of: str = ""
    fit: Fit = Fit.SKIRT
    name: str = "skirt"
    edge: str = "waist"

    @classmethod
    def of_pattern(cls, skirt: Pattern, of: str, fit: Fit = Fit.SKIRT) -> Self:
        """Return the step that joins a skirt's pattern."""
        text = json.dumps(pattern_record(skirt), sort_keys=True, separators=(",", ":"))
        return cls(skirt=text, of=of, fit=fit)

    @classmethod
    def example(cls) -> Example:
        """A skirt block sewn to a bodice block."""
        return Example(examples.bodice(), cls.of_pattern(examples.skirt(), ""))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Skirt mara/skirt@1 joined at the waist, fitted at its side seams"."""
        del pattern
        how = "fitted at its side seams" if self.fit == Fit.SKIRT else "eased in where it is longer"
        which = f" {self.of}" if self.of else ""
        return f"{self.name.capitalize()}{which} joined at the {self.edge}, {how}"

    def _read(self) -> Pattern:
        try:
            return pattern_from(json.loads(self.skirt))
        except (KeyError, TypeError, ValueError, AttributeError, TrackerError) as fault:
            raise PatternError("the skirt of this step is no pattern that can be read") from fault

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Fit the skirt, rename it, and sew it on."""
        before, skirt = pattern, self._read()
        halves = (pattern.pieces, skirt.pieces)
        if any(half and not any(p.has_outline for p in half) for half in halves):
            return on_paper(before, self.sentence(before))
        for one, what in ((pattern, "bodice"), (skirt, self.name)):
            self._refuse(one, what)
        upper, lower = _round(pattern, self.edge), _round(skirt, self.edge)
        notes = [
            f"{self.edge} of each half: bodice {mm(round(_length(pattern, upper), 1))}, "
            f"{self.name} {mm(round(_length(skirt, lower), 1))}"
        ]
        parts = _parts(pattern, upper), _parts(skirt, lower)
        fitted = len(parts[0]) == len(parts[1]) == 2
        off = (
            [b - a for a, b in zip(*parts, strict=True)]
            if fitted
            else [_length(skirt, lower) - _length(pattern, upper)]
        )
        ease: tuple[PlannedEase, ...] = ()
        if self.fit == Fit.SKIRT:
            if not fitted:
                raise PatternError(
                    f"to be fitted at its sides the {self.name} and the bodice each need a side "
                    "seam; ease it in instead, or join the skirt before the side panels are joined"
                )
            skirt = self._fitted(skirt, parts[0], step_id)
            for by, where in zip(off, ("front", "back"), strict=True):
                if abs(by) > SAME_WAIST_MM:
                    way = "in" if by > 0 else "out"
                    notes.append(
                        f"the {self.name}'s {where} was taken {way} by {mm(abs(round(by, 1)))} at "
                        f"each side at the {self.edge}, to nothing at the hip line"
                    )
        else:
            was = sum(off)
            if abs(was) > SAME_WAIST_MM and not 0 < was <= MOST_EASE_MM:
                raise PatternError(
                    f"the {self.name}'s {self.edge} is {abs(was):.1f} mm "
                    f"{'longer' if was > 0 else 'shorter'} on each half than the bodice's; at most "
                    f"{MOST_EASE_MM:.0f} mm longer can be eased in: fit the skirt instead"
                )
            if abs(was) > SAME_WAIST_MM:
                ends = walked(skirt, lower)
                ease = (PlannedEase(was, ends[0].first_corner, ends[-1].last_corner),)
                notes.append(f"{mm(round(was, 1))} of each half of the {self.name} eased in")
        notes += _darts_told(pattern, upper, skirt, _round(skirt, self.edge), self.name)
        joined, names = self._named(skirt)
        seam = Seam(
            f"{self.edge} seam" if _has_seam(pattern, self.edge) else self.edge,
            BodySide.BOTH,
            upper,
            tuple(replace(r, piece=names[r.piece]) for r in lower),
            self._sides_meet(pattern, upper, skirt, lower, names),
            ease,
        )
        planned = dict(skirt.ease) | dict(pattern.ease)
        new = replace(
            pattern,
            pieces=(*pattern.pieces, *joined.pieces),
            seams=(*pattern.seams, *joined.seams, seam),
            ease=tuple(planned.items()),
        )
        fates = tuple(
            Fate(None, Stretch.whole(piece, edge))
            for piece in joined.pieces
            for edge in piece.edges
        )
        renamed = (
            *(Renamed("piece", ("", ""), (p.name, str(p.side))) for p in joined.pieces),
            Renamed("seam", ("", ""), ("", seam.name)),
        )
        return applied(before, new, Trace(fates, renamed), notes=notes)

    def _refuse(self, pattern: Pattern, what: str) -> None:
        having = [
            p for p in pattern.pieces
            if p.layer == "shell" and any(e.name == self.edge for e in p.edges)
        ]  # fmt: skip
        if not having:
            raise PatternError(f"the {what} has no edge called {self.edge!r} to be joined at")
        for piece in having:
            if not piece.has_outline:
                raise PatternError(f"the {piece.label} of the {what} has no outline to be joined")
            if piece.side is not BodySide.BOTH:
                raise PatternError(
                    f"the {piece.label} of the {what} differs right and left; join them before "
                    "its sides are made to differ"
                )
            sewn = pattern.seams_on(piece, piece.edge(self.edge))
            if sewn:
                raise PatternError(
                    f"the {self.edge} of the {piece.label} is sewn in the {sewn[0].name} seam "
                    "already"
                )

    def _sides_meet(
        self,
        pattern: Pattern,
        upper: tuple[Run, ...],
        skirt: Pattern,
        lower: tuple[Run, ...],
        names: dict[str, str],
    ) -> tuple[Match, ...]:
        """The side seams of both meet, where both have one and were fitted to."""
        one, other = _at_side(pattern, upper), _at_side(skirt, lower)
        if self.fit != Fit.SKIRT or one is None or other is None:
            return ()
        above, below = walked(pattern, upper)[one], walked(skirt, lower)[other]
        return (
            Match(above.run.piece, above.last_corner, names[below.run.piece], below.last_corner),
        )

    def _fitted(self, skirt: Pattern, wanted: list[float], step_id: str) -> Pattern:
        """The skirt with its sides taken in until its front and its back are as long as wanted."""
        start = skirt
        side = skirt.seam("side")
        first = walked(skirt, side.first)
        corner = next(
            c for c in (first[0].first_corner, first[-1].last_corner) if c.endswith(self.edge)
        )
        reach = self._down_to_hip(skirt, side, corner)
        runs = _round(skirt, self.edge)
        ahead = runs[0].piece == side.first[0].piece or any(
            r.piece == side.first[0].piece for r in runs[: (_at_side(skirt, runs) or 0) + 1]
        )
        amounts = [b - a for a, b in zip(wanted, _parts(skirt, runs), strict=True)]
        for _ in range(_TRIES):
            skirt = start
            for amount, in_front in zip(amounts, (True, False), strict=True):
                if abs(amount) < SAME_WAIST_MM / 10:
                    continue
                step = TakeIn(
                    seam="side",
                    share=1.0 if in_front == ahead else 0.0,
                    amounts=(
                        AmountAt(corner=corner, distance_mm=0.0, amount_mm=amount),
                        AmountAt(corner=corner, distance_mm=reach, amount_mm=0.0),
                    ),
                )
                skirt = step.apply(skirt, f"{step_id} {'front' if in_front else 'back'}").pattern
            missed = [b - a for a, b in zip(wanted, _parts(skirt, runs), strict=True)]
            if max(map(abs, missed)) < SAME_WAIST_MM:
                break
            amounts = [a + m for a, m in zip(amounts, missed, strict=True)]
        return skirt

    @staticmethod
    def _down_to_hip(skirt: Pattern, side: Seam, corner: str) -> float:
        """How far down the side seam the hip line meets it."""
        piece = skirt.piece(side.first[0].piece)
        edge = piece.edge(side.first[0].edge)
        for level in piece.levels:
            if level.name == "hip line":
                for spot in [p for s in level.strokes for p in (s[0], s[-1])]:
                    at, gap = edge.nearest(spot)
                    if gap < ON_EDGE_MM:
                        return at if edge.start == corner else edge.length - at
        return min(TO_HIP_MM, edge.length / 2)

    def _named(self, skirt: Pattern) -> tuple[Pattern, dict[str, str]]:
        """The skirt with its pieces and seams named after it, its waist line left to the bodice."""
        names = {p.name: f"{self.name} {p.name}" for p in skirt.pieces}

        def runs(side: tuple[Run, ...]) -> tuple[Run, ...]:
            return tuple(replace(r, piece=names[r.piece]) for r in side)

        pieces = tuple(
            replace(
                p,
                name=names[p.name],
                taken_from=names.get(p.taken_from or "", p.taken_from),
                levels=tuple(v for v in p.levels if self.edge not in v.edges),
            )
            for p in skirt.pieces
        )
        seams = tuple(
            replace(
                s,
                name=f"{self.name} {s.name}",
                first=runs(s.first),
                second=runs(s.second),
                matches=tuple(
                    replace(m, first_piece=names[m.first_piece], second_piece=names[m.second_piece])
                    for m in s.matches
                ),
            )
            for s in skirt.seams
        )
        return replace(skirt, pieces=pieces, seams=seams), names


def _has_seam(pattern: Pattern, name: str) -> bool:
    return any(s.name == name for s in pattern.seams)


def _round(pattern: Pattern, edge: str) -> tuple[Run, ...]:
    """The edges of a name from the centre front round to the centre back, as sewn.

    Raises:
        PatternError: they do not follow each other from seam to seam.
    """
    pieces = [
        p for p in pattern.pieces
        if p.layer == "shell" and any(e.name == edge for e in p.edges)
    ]  # fmt: skip
    start = next(
        (p for p in pieces for e in _beside(p, p.edge(edge)) if e.name == "centre front"), None
    )
    if start is None:
        raise PatternError(f"no piece with a {edge} has a centre front to begin at")
    runs: list[Run] = []
    piece, came = start, "centre front"
    while True:
        own = piece.edge(edge)
        before, after = piece.before(own), piece.after(own)
        backward = before.name != came
        runs.append(Run(piece.name, edge, own.side, backward))
        leaving = before if backward else after
        onward = [
            (pattern.piece(r.piece, r.side), r.edge)
            for seam in pattern.seams_on(piece, leaving)
            if not seam.on_itself
            for r in (*seam.first, *seam.second)
            if r.piece != piece.name
        ]
        onward = [
            (p, name) for p, name in onward
            if p in pieces and any(e.name == name for e in _beside(p, p.edge(edge)))
        ]  # fmt: skip
        if not onward:
            break
        piece, came = onward[0]
        if any(r.piece == piece.name for r in runs):
            break
    if len(runs) != len(pieces):
        missing = next(p.label for p in pieces if p.name not in {r.piece for r in runs})
        raise PatternError(
            f"the {edge} of the {missing} does not follow from seam to seam from the centre front"
        )
    return tuple(runs)


def _beside(piece: Piece, edge: Edge) -> tuple[Edge, Edge]:
    return piece.before(edge), piece.after(edge)


def _at_side(pattern: Pattern, runs: tuple[Run, ...]) -> int | None:
    """Which of the edges round a waist is the last before the side seam."""
    for k, (one, other) in enumerate(itertools.pairwise(runs)):
        for seam in pattern.seams:
            names = {r.piece for r in (*seam.first, *seam.second)}
            if seam.name == "side" and {one.piece, other.piece} <= names:
                return k
    return None


def _parts(pattern: Pattern, runs: tuple[Run, ...]) -> list[float]:
    """The lengths before and behind the side seam; one length where there is none."""
    side, at = walked(pattern, runs), _at_side(pattern, runs)
    whole = side[-1].to_mm
    return [whole] if at is None else [side[at].to_mm, whole - side[at].to_mm]


def _length(pattern: Pattern, runs: tuple[Run, ...]) -> float:
    return walked(pattern, runs)[-1].to_mm


def _darts_told(
    one: Pattern, upper: tuple[Run, ...], other: Pattern, lower: tuple[Run, ...], name: str
) -> list[str]:
    """Say how far apart the darts of both meet the seam."""

    def places(pattern: Pattern, runs: tuple[Run, ...]) -> list[tuple[float, str]]:
        out = []
        for step in walked(pattern, runs):
            at = 0.0
            for part, mouth in zip(step.edge.drawn, step.edge.mouths, strict=False):
                at += part.length
                out.append((step.on_side(at), f"{mouth} of the {step.run.piece}"))
        return sorted(out)

    told = []
    found = places(other, lower)
    for at, dart in places(one, upper):
        if not found:
            break
        near, its = min(found, key=lambda f: abs(f[0] - at))
        if abs(near - at) >= 1.0:
            way = "further from" if near > at else "nearer"
            told.append(
                f"the {name}'s {its} meets the seam {abs(near - at):.0f} mm {way} the centre "
                f"front than the bodice's {dart}"
            )
    return told


__all__ = ["Fit", "JoinSkirt"]
