"""Shift a seam: what one piece loses the other gains. A forward shoulder is one."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt, seams_meant
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.seam_shift import cap_of, shifted
from tracker.alterations.together import split_together
from tracker.alterations.told import ONE_SIDE, applied, edges_meant, mm, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Run, Seam


@dataclass(frozen=True, kw_only=True)
class ShiftSeam(Kind):
    """Move a seam towards one of the pieces it joins.

    Attributes:
        seam: the seam's name.
        towards: the piece it moves towards, which loses what the other gains; of a sleeve's own
            seam, the edge.
        amounts: at least one, at places of the seam; joined smoothly, flat at a nothing.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "shift a seam"
    #: Rule 3 finds a place again that an earlier step named, on both sides and over every edge.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Move a seam towards one of its two pieces; that piece loses what the other gains, and "
        "no girth changes. A forward shoulder is the shoulder seam shifted towards the front at "
        "the shoulder point, to nothing at the neck."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("amounts",)

    seam: str
    towards: str
    amounts: tuple[AmountAt, ...]
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not any(a.amount_mm for a in self.amounts):
            raise PatternError("how much, and where? Give an amount that is not nothing")

    @classmethod
    def example(cls) -> Example:
        """Forward shoulders."""
        return Example(
            examples.bodice(),
            cls(
                seam="shoulder", towards="front",
                amounts=(
                    AmountAt(corner="neck point", distance_mm=0.0, amount_mm=0.0),
                    AmountAt(corner="shoulder point", distance_mm=0.0, amount_mm=10.0),
                ),
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Right and left shoulder seams 10 mm towards the front at the shoulder …"."""
        seam = pattern.seam(self.seam, self.side)
        first = self._towards_first(pattern, seam)
        sides = (seam.first, seam.second) if first else (seam.second, seam.first)
        pieces = [pattern.piece(runs[0].piece, runs[0].side) for runs in sides]
        loser, gainer = (p.label if self.side in ONE_SIDE else p.name for p in pieces)
        if loser == gainer:
            loser, gainer = (runs[0].edge for runs in sides)
        if seam.side is BodySide.CENTRE:
            who = f"{self.seam.capitalize()} seam"
        elif self.side in ONE_SIDE:
            who = f"{self.side.capitalize()} {self.seam} seam only:"
        else:
            who = f"Right and left {self.seam} seams"
        some = [
            f"{mm(abs(a.amount_mm))} towards the {loser if a.amount_mm > 0 else gainer} {a.words}"
            for a in self.amounts
            if a.amount_mm
        ]
        nothing = [a.words.removeprefix("at ") for a in self.amounts if not a.amount_mm]
        told = f"{who} {', '.join(some)}"
        if len(self.amounts) == 1:
            told += " and the same all along"
        if nothing:
            told += f", to nothing at {' and '.join(nothing)}"
        verbs = ("loses", "gains") if self.amount_mm > 0 else ("gains", "loses")
        return f"{told}: the {loser} {verbs[0]} what the {gainer} {verbs[1]}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both sides' edges the same way, and share out what lies across them."""
        before = pattern
        seam = pattern.seam(self.seam, self.side)
        if seam.on_itself:
            raise PatternError(
                f"the {seam.name} seam joins a piece to its own mirror image, so there is no side "
                "to shift it towards; take it in, or alter one body side first"
            )
        self._towards_first(pattern, seam)
        runs = (*seam.first, *seam.second)
        if any(not pattern.edge_of(r).parts for r in runs):
            return on_paper(before, self.sentence(before))
        names = {r.piece for r in runs}
        if seam.side is BodySide.BOTH:
            names |= {r.piece for r in cap_of(pattern, seam)}
        split = split_together(pattern, names, self.side)
        pattern, trace = split.pattern, split.trace
        notches: list[str] = []
        notes: list[str] = []
        for part in seams_meant(pattern, self.seam, self.side):
            way = 1.0 if self._towards_first(pattern, part) else -1.0
            done = shifted(pattern, part, self.amounts, way, step_id)
            pattern, trace = done.pattern, trace.then(done.trace)
            notches.extend(done.notches)
            notes.extend(done.notes)
        return applied(
            before,
            pattern,
            trace,
            notches=notches,
            notes=tuple(dict.fromkeys(notes)),
            leaves=self._cap(before, pattern, seam),
        )

    def _towards_first(self, pattern: Pattern, seam: Seam) -> bool:
        """Tell whether the seam moves towards its first side's piece."""
        sides: list[list[str]] = []
        for runs in (seam.first, seam.second):
            sides.append(_names(pattern, runs))
        for names, first in zip(sides, (True, False), strict=True):
            if self.towards in names and self.towards not in sides[1 if first else 0]:
                return first
        if sides[0] == sides[1]:
            # A sleeve's own seam: the way is told by its edges.
            edges = [runs[0].edge for runs in (seam.first, seam.second)]
            if self.towards in edges and edges[0] != edges[1]:
                return self.towards == edges[0]
            raise PatternError(
                f"both sides of the {seam.name} seam belong to the {sides[0][-1]}, so it cannot be "
                f"told which way it is to go; say towards which edge: the {edges[0]} or the "
                f"{edges[1]}"
            )
        known = " or the ".join(s[-1] for s in sides)
        raise UnknownName(
            f"the {seam.name} seam cannot move towards the {self.towards!r}; it moves towards the "
            f"{known}"
        )

    def _cap(self, before: Pattern, after: Pattern, seam: Seam) -> Iterable[str]:
        """Say where a sleeve's cap notch goes, when there is no sleeve to move it on."""
        moved = [a for a in self.amounts if a.corner == "shoulder point" and a.amount_mm]
        if seam.name != "shoulder" or not moved or cap_of(before, seam):
            return
        first = self._towards_first(before, seam)
        run = (seam.first if first else seam.second)[-1]
        by = max(
            abs(e.length - before.piece(p.name, p.side).edge(e.name, e.side).length)
            for p, e in edges_meant(after, run.piece, "armhole", self.side)
        )
        way = self.towards if moved[0].amount_mm > 0 else "other side"
        yield f"a sleeve's cap notch goes {by:.1f} mm towards the {way} too"


def _names(pattern: Pattern, runs: Sequence[Run]) -> list[str]:
    labels = [pattern.piece(r.piece, r.side).label for r in runs]
    return [*labels, *(r.piece for r in runs)]


__all__ = ["AmountAt", "ShiftSeam"]
