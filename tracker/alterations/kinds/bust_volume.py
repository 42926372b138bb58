"""More or less room over the bust."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.fold_kept import opened_at_the_fold
from tracker.alterations.fuller import Fuller, fuller
from tracker.alterations.fuller_below import lower_edge_kept
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.opened_out import MEET_MM, as_a_pair, halves_of, whole_again
from tracker.alterations.shaping import spot
from tracker.alterations.slash import CutAt
from tracker.alterations.slashing import Centre
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted, whose
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Renamed, Trace
from tracker.pattern.walk import notch_on_edge

#: So far from its notch the hinge of one half goes, so that the centre is as long on both.
_HINGE_MM = 25.0
_HINGE_TRIES = 12
#: The lower edge of one half runs up to the centre over at most this far.
_RUN_UP_MM = 80.0


@dataclass(frozen=True, kw_only=True)
class BustVolume(Kind):
    """Give a front with a bust dart and a waist dart more, or less, room over the bust.

    Attributes:
        by_mm: the whole amount round the full bust: half of it on each half of the front, all
            of it on the one for one side only; negative is less.
        piece: the front.
        bust_dart: its dart from the side.
        waist_dart: its dart from the lower edge.
        armhole: the edge the hinge is on.
        hinge_mm: how far along the armhole from the shoulder point; nothing means at the front
            armhole notch, or two thirds of the way down.
        centre: for one side only, where the two halves are no longer equally long: "straighten the
            fold" brings the lower edge of the longer one up to the centre again, which stays as it
            is; "shape a seam" makes the centre front a seam.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "more or less bust volume"
    #: Rule 3 gives back what was there when its very opposite was done before.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Give the front more room over the bust (or, with a negative amount, less): the whole "
        "amount round the full bust; the length that goes with it is worked out, and shoulder, "
        "neckline, armhole and the side seam with its dart closed stay as they are; on a torso the "
        "hip too."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    by_mm: float
    piece: str = "front"
    bust_dart: str = "bust dart"
    waist_dart: str = "waist dart"
    armhole: str = "armhole"
    hinge_mm: float | None = None
    centre: Centre = Centre.REFUSE
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.by_mm:
            raise PatternError("by how much round the full bust? Nothing would be altered")
        if self.centre == Centre.STRAIGHTEN and self.side not in ONE_SIDE:
            raise PatternError("the centre stays straight where both sides are altered; leave it")

    @property
    def half_mm(self) -> float:
        """What one half of the front gains."""
        return self.by_mm if self.side in ONE_SIDE else self.by_mm / 2

    @classmethod
    def example(cls) -> Example:
        """A fuller bust."""
        return Example(examples.bodice(), cls(by_mm=40.0))

    def opposite(self, pattern: Pattern) -> Self | None:
        """As much less, or more."""
        del pattern
        return replace(self, by_mm=-self.by_mm)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "30 mm more round the full bust: 15 mm on each half of the front …"."""
        piece = pattern.piece(self.piece, self.side)
        more = self.by_mm > 0
        told = f"{mm(abs(self.by_mm))} {'more' if more else 'less'} round the full bust: "
        if self.side in ONE_SIDE:
            told = f"{whose(self.side)}{told}all of it on the {self.side} {self.piece}"
        else:
            told += f"{mm(abs(self.half_mm))} on each half of the {self.piece}"
        if not piece.has_outline:
            return told
        try:
            drop = self._drawn(piece, piece.dart(self.bust_dart, self.side).side).drop_mm
        except TrackerError:
            return told
        kept = self.centre == Centre.STRAIGHTEN
        where = "below it, to nothing at the centre" if kept else "at the centre"
        told = (
            f"{told}, and {mm(abs(drop))} {'longer' if drop > 0 else 'shorter'} {where}; "
            f"both darts {'grow' if more else 'shrink'}, nothing else does"
        )
        if piece.dart(self.waist_dart, self.side).double_pointed:
            told += (
                f"; below the waist the side seam of the {self.piece} is {'in' if more else 'out'} "
                "by as much, so that the lower edge keeps its length"
            )
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Open the front through its bust point, or close it."""
        before = pattern
        known = pattern.piece(self.piece, self.side)
        if not known.has_outline:
            return on_paper(before, self.sentence(before))
        for dart in (self.bust_dart, self.waist_dart):
            known.dart(dart, self.side)
        renamed: tuple[Renamed, ...] = ()
        if self.side in ONE_SIDE and known.fold:
            if self.centre == Centre.REFUSE:
                raise PatternError(self._unequal(known.fold, "lies on the fold"))
            if self.centre == Centre.SEAM:
                renamed = (Renamed("seam", ("", ""), ("", known.fold)),)
                pattern, _ = opened_at_the_fold(pattern, known)
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace = split.pattern, Trace((), renamed).then(split.trace)
        told: list[str] = []
        for piece in [p for p in pattern.pieces if p.name == self.piece]:
            if piece.side is BodySide.CENTRE:
                pattern, made = self._both_halves(pattern, piece, told, step_id)
            elif self.side not in ONE_SIDE or piece.side is self.side:
                side = piece.dart(self.bust_dart, self.side).side
                fresh, made, said = self._half(piece, self._drawn(piece, side), step_id)
                pattern = pattern.with_pieces(fresh)
                told += said
            else:
                continue
            trace = trace.then(made)
        leaves = list(self._centre_apart(pattern)) if self.side in ONE_SIDE else []
        return applied(before, pattern, trace, leaves=leaves, notes=dict.fromkeys(told))

    def _centre_apart(self, after: Pattern) -> Iterator[str]:
        """What one longer half leaves to be done at the lower end of the centre."""
        piece, other = (after.piece(self.piece, s) for s in (self.side, self.side.opposite))
        centres = (x for x in after.seams if x.side is BodySide.CENTRE)
        seam = next((x for x in centres if x.first[0].piece == x.second[0].piece == self.piece),
                    None)  # fmt: skip
        if seam is None:
            return
        mine = piece.edge(seam.first[0].edge, piece.side)
        by = mine.length - other.edge(mine.name, other.side).length
        corner = next((c for c in (mine.start, mine.end) if not c.endswith("neck")), mine.end)
        if abs(by) >= 0.5:
            yield (
                f"the {piece.label} is {mm(abs(by))} {'longer' if by > 0 else 'shorter'} at the "
                f"{mine.name} than the other half: move its {corner} {mm(abs(by))} "
                f"{'up' if by > 0 else 'down'} along the {mine.name}, so that the seam meets"
            )

    def _unequal(self, centre: str, how: str) -> str:
        return (
            f"one half of the {self.piece} would be longer at its {centre} than the other, and "
            f"it {how}; say “{Centre.STRAIGHTEN}” to bring its lower edge up to the centre again, "
            f"“{Centre.SEAM}” to make it a seam, or alter both sides"
        )

    def _both_halves(
        self, pattern: Pattern, piece: Piece, told: list[str], step_id: str
    ) -> tuple[Pattern, Trace]:
        """A front opened out: each half meant is altered, and they are put together again."""
        old = halves_of(piece)
        new: list[Piece] = []
        trace = Trace()
        drop: float | None = None
        for half in old:
            if self.side in ONE_SIDE and half.side is not self.side:
                new.append(half)
                continue
            done = self._drawn(half, half.side)
            if drop is not None:
                done = self._as_deep(half, done, drop)
            drop = done.drop_mm
            fresh, made, said = self._half(half, done, step_id)
            new.append(fresh)
            trace = trace.beside(made)
            told += said
        whole = whole_again(piece, *new)
        if whole is not None:
            # The centre is a line on it, no edge.
            of_edges = tuple(f for f in trace.fates if _on_an_edge_of(piece, f))
            return pattern.with_pieces(whole), replace(trace, fates=of_edges)
        if self.centre == Centre.REFUSE:
            (centre,) = {e.name for h in old for e in h.edges} - {e.name for e in piece.edges}
            raise PatternError(self._unequal(centre, "is cut in one across it"))
        pattern, cut = as_a_pair(pattern, piece, *old)
        return pattern.with_pieces(*new), cut.then(trace)

    def _half(self, old: Piece, done: Fuller, step_id: str) -> tuple[Piece, Trace, list[str]]:
        """A piece drawn, with what goes on below the waist; and that in words."""
        new, trace, told = done.piece, Trace(done.fates), [_centre_told(old, done)]
        if self.centre == Centre.STRAIGHTEN:
            new, made, said = self._up_to_the_centre(old, done, step_id)
            trace, told = trace.then(made), [said]
        bust = new.dart(self.bust_dart, self.side)
        if new.dart(self.waist_dart, bust.side).double_pointed:
            pattern, made, below = lower_edge_kept(
                Pattern((old,)), Pattern((new,)), new.key, str(bust.mouth), bust.side, step_id
            )
            (new,), trace, told = pattern.pieces, trace.then(made), [*told, *below]
        return new, trace, told

    def _up_to_the_centre(self, old: Piece, done: Fuller, step_id: str) -> tuple[Piece, Trace, str]:
        """One half whose centre is kept: its lower end moved back up along it."""
        piece = done.piece
        edge = piece.edge(*done.centre)
        corner = edge.start if edge.end.endswith("neck") else edge.end
        # From the waist dart on, as near as it is.
        legs = piece.dart(self.waist_dart, piece.side).legs
        near = min(abs(leg.end - piece.corner(corner)) for leg in legs)
        step = MoveCorner(
            piece=piece.name, corner=corner, edge=edge.name, side=self.side,
            along_mm=old.edge(*done.centre).length - edge.length,
            blend_mm=max(MoveCorner.blend_mm, min(near, _RUN_UP_MM)),
        )  # fmt: skip
        raised = step.apply(Pattern((piece,)), step_id)
        (kept,) = raised.pattern.pieces
        lower = done.drop_mm > 0
        told = (
            f"{old.label}: the lower edge {mm(abs(done.drop_mm))} {'lower' if lower else 'higher'} "
            f"beyond the waist dart, and {'up' if lower else 'down'} to the {corner}, which stays"
        )
        return kept, raised.trace, told

    def _as_deep(self, half: Piece, made: Fuller, drop_mm: float) -> Fuller:
        """The same with the hinge moved along the armhole until the centre is as much longer.

        The halves of one front differ a little at the armhole, and their centre is one.
        """
        arm = half.edge(self.armhole, half.side)
        at, best = made.hinge_mm, made
        step = 2.0
        for _ in range(_HINGE_TRIES):
            if abs(best.drop_mm - drop_mm) < MEET_MM / 4:
                return best
            try:
                other = self._hinged(half, half.side, arm, at + step)
            except PatternError:
                return made
            slope = (other.drop_mm - best.drop_mm) / step
            if not slope:
                return made
            at, best = at + step, other
            step = (drop_mm - best.drop_mm) / slope
            if abs(at + step - made.hinge_mm) > _HINGE_MM or not step:
                break
        return best if abs(best.drop_mm - drop_mm) < MEET_MM / 4 else made

    def _drawn(self, piece: Piece, side: BodySide) -> Fuller:
        if piece.side is BodySide.CENTRE:
            piece = next(h for h in halves_of(piece) if h.side is side)
        edge = piece.edge(self.armhole, side)
        shoulder = edge.start if piece.after(edge).name == self._beside(piece, side) else edge.end
        if self.hinge_mm is not None:
            at = spot(piece, edge, shoulder, self.hinge_mm)
        else:
            on = [n for n in piece.notches if (n.edge, n.side) == edge.key]
            share = edge.length * 2 / 3
            at = (
                notch_on_edge(edge, on[0])
                if on
                else (share if shoulder == edge.start else edge.length - share)
            )
        if not 3.0 < at < edge.length - 3.0:
            raise PatternError(
                f"the hinge lies too near the end of the {edge.name}; choose a place between 3 and "
                f"{edge.length - 3:.0f} mm from the {shoulder}"
            )
        return self._hinged(piece, side, edge, at)

    def _hinged(self, piece: Piece, side: BodySide, armhole: Edge, at_mm: float) -> Fuller:
        bust, waist = piece.dart(self.bust_dart, side), piece.dart(self.waist_dart, side)
        return fuller(piece, bust, waist, CutAt(armhole, at_mm), self.half_mm)

    def _beside(self, piece: Piece, side: BodySide) -> str:
        """The side edge, which the bust dart opens from."""
        return str(piece.dart(self.bust_dart, side).mouth)


def _centre_told(piece: Piece, made: Fuller) -> str:
    return (
        f"{piece.label}: centre {mm(abs(made.drop_mm))} "
        f"{'longer' if made.drop_mm > 0 else 'shorter'}, the lower edge level again"
    )


def _on_an_edge_of(piece: Piece, fate: Fate) -> bool:
    keys = {e.key for e in piece.edges}
    return all(s is None or (s.edge, s.side) in keys for s in (fate.old, fate.new))


__all__ = ["BustVolume"]
