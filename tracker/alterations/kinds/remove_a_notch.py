"""Remove a notch, and the one it meets."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.notch_pairs import match_of, without_notch
from tracker.alterations.together import split_together
from tracker.alterations.told import ONE_SIDE, on_paper, only_on_paper, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Renamed, Trace


@dataclass(frozen=True, kw_only=True)
class RemoveNotch(Kind):
    """Remove a notch.

    Attributes:
        piece: the piece it is on.
        notch: its name.
        side: both, or the wearer's right or left only.
        partner: the notch it meets goes too.
    """

    word: ClassVar[str] = "remove a notch"
    help: ClassVar[str] = "Remove a notch; the notch it meets goes too unless you say not."

    piece: str
    notch: str
    side: BodySide = BodySide.BOTH
    partner: bool = True

    @classmethod
    def example(cls) -> Example:
        """The notches of the side seam."""
        return Example(examples.bodice(), cls(piece="front", notch="side notch"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Side notch of the front removed, and the one it meets"."""
        if not only_on_paper(pattern.piece(self.piece, self.side), self.notch):
            pattern.piece(self.piece, self.side).notch(self.notch)
        met = any(match_of(s, self.piece, self.notch) for s in pattern.seams)
        also = ""
        if met:
            also = ", and the one it meets" if self.partner else "; the one it met is left"
        begin = whose(self.side)
        name = self.notch if begin else self.notch[0].upper() + self.notch[1:]
        return f"{begin}{name} of the {self.piece} removed{also}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take the notch off its edge, its partner and their match with it."""
        del step_id  # a notch carries no displacement
        before = pattern
        piece = pattern.piece(self.piece, self.side)
        if only_on_paper(piece, self.notch):
            return on_paper(before, self.sentence(before))
        piece.notch(self.notch)
        names = {self.piece}
        for seam in pattern.seams:
            match = match_of(seam, self.piece, self.notch)
            if match:
                names |= {match.first_piece, match.second_piece}
        split = split_together(pattern, names, self.side)
        pattern = split.pattern
        gone: list[tuple[str, str, BodySide]] = []
        for piece in pattern.pieces:
            if piece.name == self.piece:
                gone += [
                    (piece.name, n.name, n.side)
                    for n in piece.notches
                    if n.name == self.notch and (self.side not in ONE_SIDE or n.side is self.side)
                ]
        for seam in pattern.seams:
            match = match_of(seam, self.piece, self.notch)
            if match is None or (self.side in ONE_SIDE and seam.side is not self.side):
                continue
            left = tuple(m for m in seam.matches if m is not match)
            pattern = pattern.with_seam(replace(seam, matches=left))
            if self.partner:
                for run in (*seam.first, *seam.second):
                    for name, notch in (
                        (match.first_piece, match.first),
                        (match.second_piece, match.second),
                    ):
                        if run.piece == name:
                            gone.append((name, notch, run.side))
        told: list[str] = []
        renamed: list[Renamed] = []
        for name, notch, side in dict.fromkeys(gone):
            piece = pattern.piece(name, side)
            if not any((n.name, n.side) == (notch, side) for n in piece.notches):
                continue
            pattern = without_notch(pattern, piece, notch, side)
            told.append(f"{notch} of the {piece.label} removed")
            renamed.append(Renamed("notch", (name, notch), ("", "")))
        trace = split.trace.then(Trace((), tuple(dict.fromkeys(renamed))))
        return Applied(pattern, effect_between(before, pattern, notches=told), trace)
