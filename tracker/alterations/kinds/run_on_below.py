"""Run a block on below: a bodice or a torso made a tunic or a dress."""

import math
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from tracker.alterations import examples
from tracker.alterations.hips_below import HIP_LINE, Hips, planned_at_the_hips, with_hip_line
from tracker.alterations.in_halves import in_halves, opened_again
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.lower_edges import edges_called, into_the_piece
from tracker.alterations.running_on import Below, RunOn, run_on
from tracker.alterations.told import applied, mm, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Notch
from tracker.pattern.measure import lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import PieceKey
from tracker.pattern.seam import Match, Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import notch_on_side, walked

#: Lower edges in the order they are looked for when none is named.
LOWER = ("hip", "waist", "hem")
#: A seam leans out, or in, by no more than this.
_MOST_LEAN_RAD = math.radians(60)
#: Leaning in, two seams take at most this share of the lower edge between them.
_MOST_TAKEN = 0.5
#: A hem as long as asked for to this.
_MET_MM = 1e-3


@dataclass(frozen=True, kw_only=True)
class RunOnBelow(Kind):
    """Run every piece on below its lower edge to a new hem.

    Attributes:
        by_mm: how far below the old lower edge, along every seam.
        hem_mm: how long the new hem is all round; none for seams that go down plumb.
        edge: the old lower edge, "hip" or "waist"; found when not told.
        named: what the new lower edge is called.
        dart_mm: how far below the old edge darts that opened from it come to a point.
        hip_below_mm: how far below the waist the body's hips are; 0 if that is not known.
        hip_girth_mm: how much they are round.
        hip_ease_mm: the least ease that is planned there.
    """

    word: ClassVar[str] = "run on below"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Run every piece on below its lower edge to a new hem of a stated length all round: a "
        "torso to a tunic or a dress, a bodice below the waist. Darts that opened from the old "
        "edge come to a point below it, and its line stays on the pieces, with a notch."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)
    one_way: ClassVar[bool] = True

    by_mm: float
    hem_mm: float | None = None
    edge: str = ""
    named: str = "hem"
    dart_mm: float = 110.0
    hip_below_mm: float = 0.0
    hip_girth_mm: float = 0.0
    hip_ease_mm: float = 0.0

    def __post_init__(self) -> None:
        if self.by_mm <= 0:
            raise PatternError("by how much? Say how far below the old lower edge the hem lies")
        if self.hem_mm is not None and self.hem_mm <= 0:
            raise PatternError("a hem is longer than nothing; say how long it is all round")
        if not self.named.strip():
            raise PatternError("the new lower edge needs a name, such as “hem”")

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values, without hips that are not known."""
        plain = super().parameters()
        if not self.hip_below_mm:
            for name in ("hip_below_mm", "hip_girth_mm", "hip_ease_mm"):
                del plain[name]
        return plain

    @classmethod
    def example(cls) -> Example:
        """A torso made a dress with a little flare."""
        return Example(examples.torso(), cls(by_mm=400.0, hem_mm=1250.0))

    def _edge(self, pattern: Pattern) -> str:
        if self.edge:
            return self.edge
        shell = [(p, e) for p in pattern.pieces if p.layer == "shell" for e in p.edges]
        for name in LOWER:
            found = [(p, e) for p, e in shell if e.name == name]
            # A skirt's waist is no lower edge, and a bodice's is.
            if found and all(not p.has_outline or into_the_piece(p, e) > 0 for p, e in found):
                return name
        raise PatternError("no piece has a hip, waist or hem to run on below; name the lower edge")

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front and back run on 400 mm below the hip to a hem of 1250 mm all round"."""
        edge = self._edge(pattern)
        names = list(dict.fromkeys(p.name for p, _ in edges_called(pattern, edge, BodySide.BOTH)))
        listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
        told = f"{listed.capitalize()} run on {mm(self.by_mm)} below the {edge} to a {self.named}"
        return f"{told} of {mm(self.hem_mm)} all round" if self.hem_mm else f"{told}, seams plumb"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Find how far the seams lean, run the pieces on, and carry their seams along."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before, name = pattern, self._edge(pattern)
        split, centres = in_halves(pattern, tuple(p.name for p in pattern.pieces))
        pattern = split.pattern
        found = edges_called(pattern, name, BodySide.BOTH)
        if any(not p.has_outline for p, _ in found):
            return on_paper(before, self.sentence(before))
        for piece, edge in found:
            sewn = pattern.seams_on(piece, edge)
            if sewn:
                raise PatternError(
                    f"the {name} of the {piece.label} is sewn in the {sewn[0].name} seam; run on "
                    "the pieces below it instead"
                )
            if into_the_piece(piece, edge) < 0:
                raise PatternError(
                    f"the {name} of the {piece.label} is no lower edge; name the edge at its foot"
                )
            if self.named != name and any(e.name == self.named for e in piece.edges):
                raise PatternError(
                    f"the {piece.label} has a {self.named} already; lengthen it there instead"
                )
        lean = 0.0 if self.hem_mm is None else self._lean(pattern, name)
        hips = self._hips(pattern, name)
        pattern, done = self._run(pattern, name, lean, hips)
        fates = [f for r in done for f in r.fates]
        pattern, notches = self._seams(pattern, done, name)
        whole = opened_again(pattern, split.trace.then(Trace(tuple(fates))), centres)
        pattern = whole.pattern
        hem = self._round(pattern)
        pattern, at_the_hips = planned_at_the_hips(pattern, hips) if hips else (pattern, [])
        notes = [*at_the_hips, f"{self.named} all round {mm(round(hem, 1))}"]
        if abs(lean) > 1e-9:
            way = "out" if lean > 0 else "in"
            notes.append(
                f"every seam but the centre leans {way} by {abs(math.degrees(lean)):.1f} degrees"
            )
        return applied(before, pattern, whole.trace, notches=notches, notes=notes)

    def _hips(self, pattern: Pattern, name: str) -> Hips | None:
        """The hips, where they lie below a waist and above the new hem, and have no line yet."""
        if name != "waist" or not 0 < self.hip_below_mm < self.by_mm:
            return None
        if HIP_LINE in lines_of(pattern):
            return None
        return Hips(self.hip_below_mm, self.hip_girth_mm, self.hip_ease_mm)

    def _run(
        self, pattern: Pattern, name: str, lean: float, hips: Hips | None = None
    ) -> tuple[Pattern, list[RunOn]]:
        done = []
        for key in dict.fromkeys(p.key for p, _ in edges_called(pattern, name, BodySide.BOTH)):
            piece = pattern.piece(*key)
            for edge in [e for e in piece.edges if e.name == name]:
                below = Below(piece.edge(*edge.key), self.by_mm, self.named, lean, self.dart_mm)
                made = run_on(piece, below)
                if hips:
                    made = replace(made, piece=with_hip_line(made, hips.below_mm, edge.side))
                piece = made.piece
                done.append(made)
            pattern = pattern.with_pieces(piece)
        return pattern, done

    def _round(self, pattern: Pattern) -> float:
        return sum(
            e.length * p.copies
            for p in pattern.pieces
            if p.layer == "shell"
            for e in p.edges
            if e.name == self.named
        )

    def _lean(self, pattern: Pattern, name: str) -> float:
        """How far the seams lean so that the hem is as long as asked for."""
        assert self.hem_mm is not None

        def long(lean: float) -> float:
            return self._round(self._run(pattern, name, lean)[0])

        narrowest = min(e.length for _, e in edges_called(pattern, name, BodySide.BOTH))
        low = -math.asin(min(0.4, _MOST_TAKEN * narrowest / 2 / self.by_mm))
        high = _MOST_LEAN_RAD
        ends = long(low), long(high)
        if not ends[0] <= self.hem_mm <= ends[1]:
            raise PatternError(
                f"{mm(self.by_mm)} below the {name} the {self.named} can be from "
                f"{math.ceil(ends[0])} to {math.floor(ends[1])} mm all round"
            )
        # The hem grows all but evenly with the lean: false position, the Illinois way.
        miss_low, miss_high = ends[0] - self.hem_mm, ends[1] - self.hem_mm
        lean, kept = low, 0
        for _ in range(40):
            lean = (low * miss_high - high * miss_low) / (miss_high - miss_low)
            miss = long(lean) - self.hem_mm
            if abs(miss) < _MET_MM:
                break
            if miss * miss_high > 0:
                high, miss_high = lean, miss
                miss_low, kept = (miss_low / 2, -1) if kept == -1 else (miss_low, -1)
            else:
                low, miss_low = lean, miss
                miss_high, kept = (miss_high / 2, 1) if kept == 1 else (miss_high, 1)
        return lean

    def _seams(self, pattern: Pattern, done: list[RunOn], name: str) -> tuple[Pattern, list[str]]:
        """The seams with their corners' new names, and a notch where the old edge was."""
        corners = {old: new for r in done for old, new in r.corners}
        spots: dict[tuple[PieceKey, tuple[str, BodySide]], float] = {
            (r.piece.key, edge): at for r in done for edge, at in r.old_at
        }
        seams, told = [], []
        for seam in pattern.seams:
            fresh = replace(
                seam,
                matches=tuple(
                    replace(m, first=corners.get(m.first, m.first),
                            second=corners.get(m.second, m.second))
                    for m in seam.matches
                ),
                ease=tuple(
                    replace(e, start=corners.get(e.start, e.start), end=corners.get(e.end, e.end))
                    for e in seam.ease
                ),
            )  # fmt: skip
            seams.append(fresh)
        pattern = replace(pattern, seams=tuple(seams))
        if name == self.named:
            return pattern, []
        word = f"{name} notch"
        for seam in pattern.seams:
            if seam.on_itself:
                continue
            ends = []
            for runs in (seam.first, seam.second):
                for run in runs:
                    piece = pattern.piece(run.piece, run.side)
                    at = spots.get((piece.key, (run.edge, run.side)))
                    if at is not None:
                        ends.append((piece.key, run.edge, run.side, at))
            if len(ends) != 2 or any(
                n.name == word and n.edge == e[1] and n.side is e[2]
                for e in ends
                for n in pattern.piece(*e[0]).notches
            ):
                continue
            pattern = _with_notches(pattern, seam, word, ends)
            told.append(f"a pair of notches set in the {seam.name} seam where the {name} was")
        return pattern, list(dict.fromkeys(told))


def _with_notches(
    pattern: Pattern,
    seam: Seam,
    word: str,
    ends: list[tuple[PieceKey, str, BodySide, float]],
) -> Pattern:
    names = []
    for key, edge_name, side, at in ends:
        piece = pattern.piece(*key)
        edge = piece.edge(edge_name, side)
        taken = {n.name for n in piece.notches if n.side is side}
        name = word if word not in taken else f"{seam.name} {word}"
        near_end = at > edge.length / 2
        # From its upper end, which is where it was.
        corner, distance = (edge.start, at) if near_end else (edge.end, edge.length - at)
        notch = Notch(name, side, edge_name, corner, distance)
        pattern = pattern.with_pieces(replace(piece, notches=(*piece.notches, notch)))
        names.append((piece.name, name))
    match = Match(*names[0], *names[1])
    side_one = walked(pattern, pattern.seam(*seam.key).first)
    pairs = [*pattern.seam(*seam.key).matches, match]
    pairs.sort(key=lambda m: notch_on_side(pattern, side_one, m.first_piece, m.first))
    return pattern.with_seam(replace(pattern.seam(*seam.key), matches=tuple(pairs)))


__all__ = ["RunOnBelow"]
