"""Flare or peg a hem: slash and spread from it evenly, darts closed into the flare."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.across import names_listed
from tracker.alterations.adjusted import adjusted
from tracker.alterations.down_to_hem import SeamDown, seams_down
from tracker.alterations.flared_at_seams import MOST_RAD, flared
from tracker.alterations.flaring import (
    closed_into,
    has_one_above,
    place_of_dart,
    slashed_evenly,
    upper_edge,
)
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.lower_edges import edges_called
from tracker.alterations.told import applied, mm, on_paper
from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import PieceKey
from tracker.pattern.trace import Trace

#: A hem is as long as wanted to this.
_MET_MM = 1e-3
#: More slashes than this in half a piece are no better than a circle.
MOST_SLASHES = 9


class Flare(StrEnum):
    """Which way the hem goes."""

    FLARE = "flare"
    PEG = "peg"


@dataclass(frozen=True, kw_only=True)
class FlareOrPeg(Kind):
    """Make a hem wider or narrower by cuts from it to the edge above, which keeps its length.

    Attributes:
        to: flare (wider) or peg (narrower).
        by_mm: by how much round the whole hem; shared by the pieces as their hems are long. 0
            to have only what the darts give that are closed.
        slashes: into how many places of each piece it goes, evenly along the hem.
        close: darts that are closed; the flare opens below their points. What they give counts.
        edge: the hem's name.
        pieces: which pieces; none named means all of the shell that have it.
        from_line: where pieces have no one edge above to hinge on (a dress without a seam at the
            waist) the hem is flared at the seams instead, from this line down: the hip line if
            none is named, or the waist line.
    """

    word: ClassVar[str] = "flare or peg a hem"
    #: Rule 3 gives back what an earlier cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Slash pieces from the hem to the edge above at even distances and spread them (or, for a "
        "pegged hem, overlap them): the hem changes by an amount all round, the waist not at all. "
        "Darts may be closed into the flare. A dress without a waist seam is flared at its seams."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)
    one_way: ClassVar[bool] = True

    to: Flare = Flare.FLARE
    by_mm: float = 0.0
    slashes: int = 3
    close: tuple[str, ...] = ()
    edge: str = "hem"
    pieces: tuple[str, ...] = ()
    from_line: str = ""

    def __post_init__(self) -> None:
        if not 1 <= self.slashes <= MOST_SLASHES:
            raise PatternError(f"a hem is slashed at 1 to {MOST_SLASHES} places of each piece")
        if not self.by_mm and not self.close:
            raise PatternError("by how much round the whole hem? Or name the darts to be closed")
        if self.by_mm < 0:
            raise PatternError("give how much wider, or say “peg” for narrower")
        if self.to == Flare.PEG and self.close:
            raise PatternError("a dart closed at the waist opens at the hem; it pegs nothing")

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; pieces may be one text: "back, front"."""
        return super().from_parameters(names_listed(parameters))

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values; without a line, as ever recorded."""
        plain = super().parameters()
        if not self.from_line:
            del plain["from_line"]
        return plain

    @classmethod
    def example(cls) -> Example:
        """A straight skirt made an A-line."""
        return Example(examples.skirt(), cls(by_mm=480.0, slashes=2, close=("waist dart",)))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Hem flared by 300 mm all round, slashed at 3 places of each half of …"."""
        names = list(dict.fromkeys(n for n, _ in self._keys(pattern)))
        word = "flared" if self.to == Flare.FLARE else "pegged"
        told = f"{self.edge.capitalize()} {word}"
        at_seams = self._at_seams(pattern, self._keys(pattern))
        if self.by_mm and at_seams:
            told += f" by {mm(self.by_mm)} all round at the seams, from the {at_seams[0]} down,"
        elif self.by_mm:
            count = f"{self.slashes} {'place' if self.slashes == 1 else 'places'}"
            told += f" by {mm(self.by_mm)} all round, slashed at {count} of each half"
        told += f" of the {' and '.join(names)}"
        if self.close:
            told += f"; the {' and the '.join(self.close)} closed into the flare"
        return told if at_seams else f"{told}; the edge above keeps its length"

    def _at_seams(
        self, pattern: Pattern, keys: list[PieceKey]
    ) -> tuple[str, tuple[SeamDown, ...]] | None:
        """The line and the seams it is flared at, where slashes have no one edge to hinge on."""
        pieces = [pattern.piece(*k) for k in keys]
        if not all(p.has_outline for p in pieces):
            return None
        if not self.from_line and all(
            has_one_above(p, e) for p in pieces for e in p.edges if e.name == self.edge
        ):
            return None
        return seams_down(pattern, keys, self.edge, self.from_line)

    def _keys(self, pattern: Pattern) -> list[PieceKey]:
        wanted = {pattern.piece(n, None).name for n in self.pieces}
        found = edges_called(pattern, self.edge, BodySide.BOTH)
        keys = list(dict.fromkeys(p.key for p, _ in found if not wanted or p.name in wanted))
        if not keys:
            raise UnknownName(f"the {' and the '.join(self.pieces)} have no {self.edge}")
        return keys

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Close the darts, then slash until the hem is as long as wanted."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        keys = self._keys(pattern)
        if not all(pattern.piece(*k).has_outline for k in keys):
            return on_paper(before, self.sentence(before))
        start, trace, notes = self._darts_closed(pattern, keys)
        wanted = self.by_mm if self.to == Flare.FLARE else -self.by_mm
        given = self._round(start, keys) - self._round(pattern, keys)
        if self.close:
            notes.append(f"the darts give {mm(round(given, 1))} round the whole {self.edge}")
        rest = wanted - given
        if self.to == Flare.FLARE and self.by_mm and rest < -0.5:
            notes.append(
                f"the darts alone give more than the {mm(self.by_mm)} asked for; nothing was "
                "slashed"
            )
        if not self.by_mm or (self.to == Flare.FLARE and rest < 0.5):
            return self._told(before, start, trace, keys, notes)
        at_seams = self._at_seams(pattern, keys)
        if at_seams:
            line, seams = at_seams
            new, moved = self._bent(start, keys, seams, rest)
            names = " and ".join(s.seam for s in seams)
            way = "bent out" if rest > 0 else "bent in"
            notes.append(f"the {names} seams {way} from the {line} down, both sides alike")
            return self._told(before, new, trace.then(moved), keys, notes)
        goal = self._round(pattern, keys) + wanted

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            return self._slashed(start, keys, amounts[0])

        def misses(amounts: Sequence[float]) -> list[float]:
            return [self._round(drawn(amounts)[0], keys) - goal]

        amounts = adjusted(
            misses, [rest], [1.0],
            f"the {self.edge} cannot be changed so far by slashing it there; a smaller amount, or "
            "more slashes, would fit",
            decimals=3,
        )  # fmt: skip
        new, moved = drawn(amounts)
        each = amounts[0] / self._round(start, keys)
        for key in keys:
            hem = start.piece(*key).edge(self.edge)
            share = each * hem.length / self.slashes
            notes.append(
                f"{start.piece(*key).label}: {mm(abs(round(share, 1)))} "
                f"{'put in' if share > 0 else 'taken out'} at each of {self.slashes} slashes"
            )
        return self._told(before, new, trace.then(moved), keys, notes)

    def _bent(
        self, pattern: Pattern, keys: list[PieceKey], seams: tuple[SeamDown, ...], by_mm: float
    ) -> tuple[Pattern, Trace]:
        """Bend the seams until the hem is as long as wanted."""
        goal = self._round(pattern, keys) + by_mm
        sign = 1 if by_mm > 0 else -1
        low, high = 0.0, math.radians(1)
        drawn = flared(pattern, seams, self.edge, sign * high)
        start, gives = self._round(pattern, keys), 0.0
        while (self._round(drawn[0], keys) - goal) * sign < 0:
            gives = max(gives, (self._round(drawn[0], keys) - start) * sign)
            low, high = high, high * 1.6
            if high > MOST_RAD:
                raise PatternError(
                    f"bent at its seams the {self.edge} changes by at most about {gives:.0f} mm "
                    f"there, not {abs(by_mm):.0f}; flare it from a higher line, or part it at the "
                    "waist first"
                )
            drawn = flared(pattern, seams, self.edge, sign * high)
        for _ in range(60):
            turn = (low + high) / 2
            drawn = flared(pattern, seams, self.edge, sign * turn)
            off = (self._round(drawn[0], keys) - goal) * sign
            if abs(off) < _MET_MM:
                break
            low, high = (low, turn) if off > 0 else (turn, high)
        return drawn

    def _told(
        self, before: Pattern, new: Pattern, trace: Trace, keys: list[PieceKey], notes: list[str]
    ) -> Applied:
        was, now = self._round(before, keys), self._round(new, keys)
        notes.insert(
            0, f"{self.edge} all round {mm(round(was, 1))} before, {mm(round(now, 1))} now"
        )
        return applied(before, new, trace, notes=dict.fromkeys(notes))

    def _round(self, pattern: Pattern, keys: list[PieceKey]) -> float:
        """The hem's length round the whole garment."""
        return sum(
            e.length * pattern.piece(*k).copies
            for k in keys
            for e in pattern.piece(*k).edges
            if e.name == self.edge
        )

    def _darts_closed(
        self, pattern: Pattern, keys: list[PieceKey]
    ) -> tuple[Pattern, Trace, list[str]]:
        trace, found = Trace(), set()
        for key in keys:
            for name in self.close:
                piece = pattern.piece(*key)
                for side in [d.side for d in piece.darts if d.name == name]:
                    piece = pattern.piece(*key)
                    dart = piece.dart(name, side)
                    at = place_of_dart(piece, dart, self.edge)
                    done = closed_into(piece, dart, self.edge, at)
                    pattern, trace = pattern.with_pieces(done.piece), trace.then(done.trace)
                    found.add(name)
        for name in self.close:
            if name not in found:
                known = sorted({d.name for k in keys for d in pattern.piece(*k).darts})
                raise UnknownName(
                    f"no piece with that {self.edge} has a {name}.{nearest_names(name, known)}"
                )
        return pattern, trace, []

    def _slashed(
        self, pattern: Pattern, keys: list[PieceKey], whole: float
    ) -> tuple[Pattern, Trace]:
        """Slash every piece, sharing an amount by the lengths of their hems."""
        trace, round_mm = Trace(), self._round(pattern, keys)
        for key in keys:
            piece = pattern.piece(*key)
            sides = [e.side for e in piece.edges if e.name == self.edge]
            for side in sides:
                hem = piece.edge(self.edge, side)
                share = whole * hem.length / round_mm
                above = upper_edge(piece, hem)
                done = slashed_evenly(piece, hem, above, share, self.slashes)
                piece, trace = done.piece, trace.then(done.trace)
            pattern = pattern.with_pieces(piece)
        return pattern, trace


__all__ = ["Flare", "FlareOrPeg"]
