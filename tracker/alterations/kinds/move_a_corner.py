"""Move a corner of a piece, its two edges following over a stated distance."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import BLEND_MM, EdgeAt, at, shaped
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted, whose
from tracker.errors import nearest_names
from tracker.geometry.point import cross, dot, left_of
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

#: Edges that bend by less at their corner (as a slope) have none to be moved.
_STRAIGHT_ON = 0.1


@dataclass(frozen=True, kw_only=True)
class MoveCorner(Kind):
    """Move a corner along one of its edges and square to it.

    Attributes:
        piece: the piece's name.
        corner: the corner's name.
        edge: the edge the two amounts are told by, one of the two that meet there.
        along_mm: along that edge; positive lengthens it.
        across_mm: square to that edge; positive into the piece.
        blend_mm: how far from the corner each of the two edges is back on its old line.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "move a corner"
    #: Rule 3 gives back what was there when its very opposite was done before.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Move a corner along one of its edges, square to it, or both; the two edges that meet "
        "there follow and are back on their old lines a stated distance away."
    )

    piece: str
    corner: str
    edge: str
    along_mm: float = 0.0
    across_mm: float = 0.0
    blend_mm: float = BLEND_MM
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.along_mm and not self.across_mm:
            raise PatternError("the corner is moved by nothing; say how far along or across")
        if self.blend_mm < 5:
            raise PatternError("the edges follow a moved corner over 5 mm at least")

    @property
    def amount_mm(self) -> float:
        """How far it goes."""
        return math.hypot(self.along_mm, self.across_mm)

    def scaled(self, factor: float) -> Self:
        """Return the same with both amounts multiplied."""
        return replace(self, along_mm=self.along_mm * factor, across_mm=self.across_mm * factor)

    @classmethod
    def example(cls) -> Example:
        """An underarm that sits too high."""
        return Example(
            examples.bodice(),
            cls(piece="front", corner="underarm point", edge="side", along_mm=-8.0),
        )

    def opposite(self, pattern: Pattern) -> Self | None:
        """As far the other way."""
        del pattern
        return replace(self, along_mm=-self.along_mm, across_mm=-self.across_mm)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Shoulder point of the front 5 mm out along the shoulder and 3 mm into …"."""
        self._meeting(pattern.piece(self.piece, self.side))
        told = []
        if self.along_mm:
            way = "out" if self.along_mm > 0 else "back"
            told.append(f"{mm(abs(self.along_mm))} {way} along the {self.edge}")
        if self.across_mm:
            way = "into" if self.across_mm > 0 else "out of"
            told.append(f"{mm(abs(self.across_mm))} {way} the piece, square to the {self.edge}")
        begin = whose(self.side)
        corner = self.corner if begin else self.corner.capitalize()
        return (
            f"{begin}{corner} of the {self.piece} {' and '.join(told)}; both edges back on their "
            f"old lines {mm(self.blend_mm)} away"
        )

    def _meeting(self, piece: Piece) -> tuple[tuple[Edge, Edge], ...]:
        """The pairs of edges that meet at the corner, first the one that ends there.

        Raises:
            UnknownName: the piece has no such corner, or the edge does not reach it.
        """
        pairs = tuple(
            (e, piece.after(e))
            for e in piece.edges
            if e.end == self.corner and (self.side not in ONE_SIDE or e.side in (self.side, BOTH))
        )
        if not pairs:
            known = list(dict.fromkeys(piece.corners))
            if self.corner in known:
                raise PatternError(
                    f"the {self.corner} of the {piece.name} lies at the centre and belongs to "
                    f"both halves; move it on both sides, or reshape the {self.edge} on one"
                )
            raise UnknownName(
                f"the {piece.label} has no corner called {self.corner!r}; its corners are "
                f"{', '.join(known)}.{nearest_names(self.corner, known)}"
            )
        names = [e.name for e in pairs[0]]
        if self.edge not in names:
            raise UnknownName(
                f"the {self.edge!r} of the {piece.label} does not reach the {self.corner}; the "
                f"{' and the '.join(names)} meet there"
            )
        return pairs

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the corner and draw its piece again."""
        before = pattern
        self._meeting(pattern.piece(self.piece, self.side))
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace = split.pattern, split.trace
        for piece in split.pattern.pieces:
            if piece.name != self.piece or (self.side in ONE_SIDE and piece.side not in
                                            (self.side, BodySide.CENTRE)):  # fmt: skip
                continue
            for one, two in self._meeting(piece):
                pattern, moved = self._moved(pattern, piece, one, two, step_id)
                trace = trace.then(moved)
        return applied(before, pattern, trace)

    def _moved(
        self, pattern: Pattern, piece: Piece, one: Edge, two: Edge, step_id: str
    ) -> tuple[Pattern, Trace]:
        h1, h2 = one.drawn[-1].end_heading, two.drawn[0].start_heading
        if abs(cross(h1, h2)) < _STRAIGHT_ON:
            raise PatternError(
                f"the {one.name} and the {two.name} run on in one another at the {self.corner} of "
                f"the {piece.label}, so it is no corner to be moved; reshape them instead"
            )
        out, inward = (h1, left_of(h1)) if self.edge == one.name else (-h2, left_of(h2))
        shift = out * self.along_mm + inward * self.across_mm
        target = one.drawn[-1].end + shift
        moving: list[tuple[EdgeAt, bool, Edge, complex]] = []
        for edge, at_start, heading in ((one, False, h1), (two, True, h2)):
            if edge.name == piece.fold:
                if abs(dot(shift, left_of(heading))) > 0.01:
                    raise PatternError(
                        f"the {self.corner} of the {piece.label} lies on the fold and can only be "
                        f"moved along it: give an amount along the {edge.name}"
                    )
                continue
            moving.append((at(piece, edge), at_start, edge, left_of(heading)))

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            shapes = {}
            for (key, at_start, edge, _), amount in zip(moving, amounts, strict=True):
                whole = edge.base_length
                blend = min(self.blend_mm, whole)
                ends = ((0.0, amount), (blend, 0.0))
                back = ((whole - blend, 0.0), (whole, amount))
                shapes[key] = (Profile(ends if at_start else back),)
            return shaped(pattern, shapes, step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            now = drawn(amounts)[0].piece(piece.name, piece.side).edge(*one.key).drawn[-1].end
            return [dot(now - target, square) for *_, square in moving]

        amounts = adjusted(
            misses, [dot(shift, square) for *_, square in moving], [1.0] * len(moving),
            f"the {self.corner} of the {piece.label} cannot be moved there; a smaller amount or a "
            "longer blend would",
        )  # fmt: skip
        return drawn(amounts)


BOTH = BodySide.BOTH
