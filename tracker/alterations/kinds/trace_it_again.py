"""Trace it again: a piece taken from others is drawn anew from what they are now."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.out_of_date import out_of_date, traced_again
from tracker.alterations.told import on_paper
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch, Trace


@dataclass(frozen=True, kw_only=True)
class TraceAgain(Kind):
    """Draw a traced piece again.

    Attributes:
        piece: its name; empty for every piece that is out of date.
    """

    word: ClassVar[str] = "trace it again"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Draw a facing, lining, interfacing, band or collar again from the pieces it was taken "
        "from, as they are now; without a piece named, every one that is out of date."
    )

    piece: str = ""

    @classmethod
    def example(cls) -> Example:
        """A facing whose neckline was lowered since."""
        return Example(examples.faced(), cls(piece="front facing"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front facing traced again from the front"."""
        told = []
        for name in self._names(pattern):
            traced = pattern.piece(name).traced
            parents = dict.fromkeys(s.piece for s in traced.seen) if traced else {}
            told.append(f"{name} traced again from the {' and the '.join(parents)}")
        whole = "; ".join(told)
        return whole[0].upper() + whole[1:]

    def _names(self, pattern: Pattern) -> list[str]:
        if self.piece:
            piece = pattern.piece(self.piece)
            if piece.traced is None:
                raise PatternError(
                    f"the {self.piece} was not traced by a step, so none can trace it again"
                )
            return [self.piece]
        names = [o.piece for o in out_of_date(pattern)]
        if not names:
            raise PatternError(
                "no piece of this pattern is out of date; name one to have it drawn again all "
                "the same"
            )
        return names

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Put the fresh pieces where the old ones were."""
        del step_id  # what is drawn again has no older line beneath it
        before, fates, notes = pattern, list[Fate](), list[str]()
        for name in self._names(pattern):
            old = [p for p in pattern.pieces if p.name == name]
            if not old[0].has_outline:
                return on_paper(before, self.sentence(before))
            fresh, told = traced_again(pattern, name)
            notes += told
            fates += _fates(old, fresh)
            at = pattern.pieces.index(old[0])
            rest = [p for p in pattern.pieces if p.name != name]
            at = sum(p.name != name for p in pattern.pieces[:at])
            pattern = replace(pattern, pieces=(*rest[:at], *fresh, *rest[at:]))
        new = settled(pattern)
        return Applied(new, effect_between(before, new, notes=notes), Trace(tuple(fates)))


def _fates(old: list[Piece], fresh: tuple[Piece, ...]) -> list[Fate]:
    """What became of each edge: the edge of its name, or nothing."""
    out: list[Fate] = []
    kept = {(p.key, e.key): (p, e) for p in fresh for e in p.edges}
    for piece in old:
        for edge in piece.edges:
            now = kept.pop((piece.key, edge.key), None)
            was = Stretch.whole(piece, edge)
            if now is None:
                out.append(Fate(was, None))
            elif now[1].parts != edge.parts:
                out.append(Fate(was, Stretch.whole(*now)))
    out += [Fate(None, Stretch.whole(p, e)) for p, e in kept.values()]
    return out
