"""Move a notch, its partner with it unless told otherwise."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.together import split_together
from tracker.alterations.told import mm, on_paper, only_on_paper, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import OffTheEnd


@dataclass(frozen=True, kw_only=True)
class MoveNotch(Kind):
    """Move a notch along its edge.

    Attributes:
        piece: the piece it is on.
        notch: its name.
        by_mm: away from the corner it is measured from; negative is towards it.
        side: both, or the wearer's right or left only.
        partner: the notch it meets in a seam goes by as much, the same way along the seam.
    """

    word: ClassVar[str] = "move a notch"
    help: ClassVar[str] = (
        "Move a notch along its seam; the notch it meets goes along unless you say not."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    piece: str
    notch: str
    by_mm: float
    side: BodySide = BodySide.BOTH
    partner: bool = True

    @classmethod
    def example(cls) -> Example:
        """The notch of the side seam, lower."""
        return Example(examples.bodice(), cls(piece="front", notch="side notch", by_mm=20.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front armhole notch of the front moved 10 mm away from the shoulder point"."""
        piece = pattern.piece(self.piece, self.side)
        if only_on_paper(piece, self.notch):
            who = whose(self.side)
            name = self.notch if who else self.notch[:1].upper() + self.notch[1:]
            way = "onwards" if self.by_mm >= 0 else "back"
            also = ", and the one it meets" if self.partner else ""
            return (
                f"{who}{name} of the {self.piece} moved {mm(abs(self.by_mm))} {way} along its "
                f"edge, counted from the corner it is measured from{also}"
            )
        notch = piece.notch(self.notch, _of(self.side))
        way = "away from" if self.by_mm >= 0 else "towards"
        who = "" if self.side is BodySide.BOTH else f"{self.side} side only: "
        partner = self._partner_of(pattern, notch)
        also = ""
        if partner:
            also = ", its partner with it" if self.partner else ", its partner left where it is"
        told = f"{self.notch} of the {self.piece} moved {mm(abs(self.by_mm))} {way} the "
        return f"{who}{told}{notch.corner}{also}"

    def _met_by(self, pattern: Pattern, notch: Notch) -> tuple[Seam, Run, str] | None:
        """The seam in which it meets something, on which edge, and that notch or corner."""
        for seam in pattern.seams:
            if not seam.side.covers(notch.side):
                continue
            for mine, theirs in ((seam.first, seam.second), (seam.second, seam.first)):
                if not any(r.piece == self.piece and r.edge == notch.edge for r in mine):
                    continue
                for match in seam.matches:
                    pairs = (
                        (match.first_piece, match.first),
                        (match.second_piece, match.second),
                    )
                    here, there = pairs if mine is seam.first else pairs[::-1]
                    run = next((r for r in theirs if r.piece == there[0]), None)
                    if here == (self.piece, notch.name) and run:
                        return seam, run, there[1]
        return None

    def _partner_of(self, pattern: Pattern, notch: Notch) -> tuple[Run, str] | None:
        """The edge and the name of the notch it meets; what it meets may be a corner."""
        met = self._met_by(pattern, notch)
        return met[1:] if met and _is_notch(pattern, met[1], met[2]) else None

    def _parted(self, pattern: Pattern, notch: Notch) -> tuple[str, ...]:
        """Say that it no longer meets what it met: a corner stays, and a notch told to."""
        met = self._met_by(pattern, notch)
        if met is None:
            return ()
        seam, run, name = met
        stays = not _is_notch(pattern, run, name)
        way_out = "a corner stays, so move the notch back" if stays else "move the other as much"
        return (
            f"the {notch.name} of the {self.piece} no longer meets the {name} of the {run.piece}: "
            f"{mm(abs(self.by_mm))} apart when the {seam.name} seam is walked; {way_out}, or "
            "remove it",
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Put the notch and, unless told otherwise, its partner in their new places."""
        del step_id  # a notch carries no displacement
        if self.by_mm == 0:
            raise PatternError("the notch is moved by nothing; say how far")
        before = pattern
        if only_on_paper(pattern.piece(self.piece, self.side), self.notch):
            return on_paper(before, self.sentence(before))
        notch = pattern.piece(self.piece, self.side).notch(self.notch, _of(self.side))
        found = self._partner_of(pattern, notch) if self.partner else None
        names = {self.piece} | ({found[0].piece} if found else set())
        split = split_together(pattern, names, self.side)
        pattern = split.pattern
        told: list[str] = []
        leaves: list[str] = []
        for side in _sides(pattern, self.piece, self.side):
            piece = pattern.piece(self.piece, side)
            notch = piece.notch(self.notch, side)
            pattern = pattern.with_pieces(_moved(piece, notch, self.by_mm))
            told.append(f"{notch.name} of the {piece.label} {self.by_mm:+.0f} mm")
            pair = self._partner_of(pattern, notch) if self.partner else None
            if pair:
                run, name = pair
                other = pattern.piece(run.piece, side)
                theirs = other.notch(name, side if side in _ONE else None)
                # The same corner name at both means the same way along the seam.
                way = 1.0 if theirs.corner == notch.corner else -1.0
                pattern = pattern.with_pieces(_moved(other, theirs, way * self.by_mm))
                told.append(f"{name} of the {other.label} with it")
            else:
                leaves += self._parted(pattern, notch)
        effect = effect_between(before, pattern, notches=told, leaves=dict.fromkeys(leaves))
        return Applied(pattern, effect, split.trace)


_ONE = (BodySide.RIGHT, BodySide.LEFT)


def _is_notch(pattern: Pattern, run: Run, name: str) -> bool:
    return any(n.name == name for p in pattern.pieces if p.name == run.piece for n in p.notches)


def _of(side: BodySide) -> BodySide | None:
    return None if side not in _ONE else side


def _sides(pattern: Pattern, piece: str, side: BodySide) -> tuple[BodySide, ...]:
    """The body sides on which a piece carries what is asked for."""
    if side in _ONE:
        return (side,)
    found = [e.side for p in pattern.pieces if p.name == piece for e in p.edges]
    return tuple(dict.fromkeys(s for s in found if s is not BodySide.CENTRE))


def _moved(piece: Piece, notch: Notch, by_mm: float) -> Piece:
    edge = piece.edge(notch.edge, notch.side)
    at = notch.distance_mm + by_mm
    whole = edge.length if edge.parts or edge.declared_mm is not None else float("inf")
    if not 0 < at < whole:
        raise OffTheEnd(
            f"the {notch.name} of the {piece.label} would stand {at:.0f} mm from the "
            f"{notch.corner}, off the {edge.name}, which is {whole:.0f} mm long"
        )
    return piece.with_notch(replace(notch, distance_mm=at))
