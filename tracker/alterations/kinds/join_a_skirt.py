"""Join a skirt to a bodice at the waist: a dress with a waist seam."""

import json
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.round_the_waist import (
    at_side,
    darts_told,
    length_of,
    parts_of,
    round_of,
)
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_from, pattern_record
from tracker.pattern.checks import check
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
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


@dataclass(frozen=True)
class _Waist:
    """The edges of one waist seam, and the ease planned in it."""

    upper: tuple[Run, ...]
    lower: tuple[Run, ...]
    ease: tuple[PlannedEase, ...] = ()


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
        sides: tuple[BodySide, ...] = (BodySide.BOTH,)
        trace = Trace()
        if any(p.side is not BodySide.BOTH for one in (pattern, skirt) for p in one.pieces):
            sides = ONE_SIDE
            split = split_sides(pattern, {p.name for p in pattern.pieces})
            pattern, trace = split.pattern, split.trace
            skirt = split_sides(skirt, {p.name for p in skirt.pieces}).pattern
        unfitted, notes = skirt, list[str]()
        waists: list[tuple[_Waist, Pattern]] = []
        for side in sides:
            waist = _Waist(round_of(pattern, self.edge, side), round_of(skirt, self.edge, side))
            waist, skirt, told = self._fit_to(pattern, skirt, side, waist, step_id)
            waists.append((waist, skirt))
            notes += told if side is BodySide.BOTH else [f"{side} side: {t}" for t in told]
        joined, names = self._named(skirt)
        word = f"{self.edge} seam" if _has_seam(pattern, self.edge) else self.edge
        seams = [
            Seam(
                word,
                side,
                waist.upper,
                tuple(replace(r, piece=names[r.piece]) for r in waist.lower),
                self._sides_meet(pattern, waist.upper, skirt, waist.lower, names),
                waist.ease,
            )
            for side, (waist, _) in zip(sides, waists, strict=True)
        ]
        planned = dict(skirt.ease) | dict(pattern.ease)
        new = replace(
            pattern,
            pieces=(*pattern.pieces, *joined.pieces),
            seams=(*pattern.seams, *joined.seams, *seams),
            ease=tuple(planned.items()),
        )
        fates = tuple(
            Fate(None, Stretch.whole(piece, edge))
            for piece in joined.pieces
            for edge in piece.edges
        )
        renamed = (
            *(Renamed("piece", ("", ""), (p.name, str(p.side))) for p in joined.pieces),
            Renamed("seam", ("", ""), ("", word)),
        )
        # What the fitting left of the skirt's own seams: in the joined pattern they are all new.
        walked_out = tuple(f.place for f in check(joined).findings)
        left = [
            told
            for told in applied(self._named(unfitted)[0], joined, Trace()).effect.leaves
            if told.removeprefix("right ").removeprefix("left ").startswith(walked_out)
        ]
        return applied(before, new, trace.then(Trace(fates, renamed)), notes=notes, leaves=left)

    def _fit_to(
        self, pattern: Pattern, skirt: Pattern, side: BodySide, waist: "_Waist", step_id: str
    ) -> tuple["_Waist", Pattern, list[str]]:
        """The skirt fitted to one half of the bodice's waist, and what is said of it."""
        upper, lower = waist.upper, waist.lower
        notes = [
            f"{self.edge} of each half: bodice {mm(round(length_of(pattern, upper), 1))}, "
            f"{self.name} {mm(round(length_of(skirt, lower), 1))}"
        ]
        if side is not BodySide.BOTH:
            notes[0] = notes[0].replace(" of each half", "")
        parts = parts_of(pattern, upper), parts_of(skirt, lower)
        fitted = len(parts[0]) == len(parts[1]) == 2
        off = (
            [b - a for a, b in zip(*parts, strict=True)]
            if fitted
            else [length_of(skirt, lower) - length_of(pattern, upper)]
        )
        if self.fit == Fit.SKIRT:
            if not fitted:
                raise PatternError(
                    f"to be fitted at its sides the {self.name} and the bodice each need a side "
                    "seam; ease it in instead, or join the skirt before the side panels are joined"
                )
            skirt = self._fitted(skirt, parts[0], side, step_id)
            each = "each side" if side is BodySide.BOTH else "the side"
            for by, where in zip(off, ("front", "back"), strict=True):
                if abs(by) > SAME_WAIST_MM:
                    way = "in" if by > 0 else "out"
                    notes.append(
                        f"the {self.name}'s {where} was taken {way} by {mm(abs(round(by, 1)))} at "
                        f"{each} at the {self.edge}, to nothing at the hip line"
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
                ease = PlannedEase(was, ends[0].first_corner, ends[-1].last_corner)
                waist = replace(waist, ease=(ease,))
                notes.append(f"{mm(round(was, 1))} of each half of the {self.name} eased in")
        lower = round_of(skirt, self.edge, side)
        notes += darts_told(pattern, upper, skirt, lower, self.name)
        return waist, skirt, notes

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
            for edge in piece.edges:
                sewn = pattern.seams_on(piece, edge) if edge.name == self.edge else ()
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
        one, other = at_side(pattern, upper), at_side(skirt, lower)
        if self.fit != Fit.SKIRT or one is None or other is None:
            return ()
        above, below = walked(pattern, upper)[one], walked(skirt, lower)[other]
        return (
            Match(above.run.piece, above.last_corner, names[below.run.piece], below.last_corner),
        )

    def _fitted(self, skirt: Pattern, wanted: list[float], body: BodySide, step_id: str) -> Pattern:
        """The skirt with its sides taken in until its front and its back are as long as wanted."""
        start = skirt
        side = skirt.seam("side", body)
        first = walked(skirt, side.first)
        corner = next(
            c for c in (first[0].first_corner, first[-1].last_corner) if c.endswith(self.edge)
        )
        reach = self._down_to_hip(skirt, side, corner)
        runs = round_of(skirt, self.edge, body)
        ahead = runs[0].piece == side.first[0].piece or any(
            r.piece == side.first[0].piece for r in runs[: (at_side(skirt, runs) or 0) + 1]
        )
        amounts = [b - a for a, b in zip(wanted, parts_of(skirt, runs), strict=True)]
        told = "" if body is BodySide.BOTH else f" {body}"
        for _ in range(_TRIES):
            skirt = start
            for amount, in_front in zip(amounts, (True, False), strict=True):
                if abs(amount) < SAME_WAIST_MM / 10:
                    continue
                step = TakeIn(
                    seam="side",
                    side=body,
                    share=1.0 if in_front == ahead else 0.0,
                    amounts=(
                        AmountAt(corner=corner, distance_mm=0.0, amount_mm=amount),
                        AmountAt(corner=corner, distance_mm=reach, amount_mm=0.0),
                    ),
                )
                skirt = step.apply(
                    skirt, f"{step_id} {'front' if in_front else 'back'}{told}"
                ).pattern
            missed = [b - a for a, b in zip(wanted, parts_of(skirt, runs), strict=True)]
            if max(map(abs, missed)) < SAME_WAIST_MM:
                break
            amounts = [a + m for a, m in zip(amounts, missed, strict=True)]
        return skirt

    @staticmethod
    def _down_to_hip(skirt: Pattern, side: Seam, corner: str) -> float:
        """How far down the side seam the hip line meets it."""
        piece = skirt.piece(side.first[0].piece, side.first[0].side)
        edge = piece.edge(side.first[0].edge, side.first[0].side)
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


__all__ = ["Fit", "JoinSkirt"]
