"""A pattern as a fitter finds her way on it: the back at its shoulder, the height of the blades."""

from dataclasses import dataclass

from tracker.errors import TrackerError
from tracker.fitting.observation import Observation
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam

#: A line that ends on an edge lies this near to it.
_ON_EDGE_MM = 1.0
_STEPS = 200


class NotHere(TrackerError):
    """A remedy that the pattern has no place for."""


@dataclass(frozen=True)
class Scene:
    """A pattern with the note that is to be answered on it.

    Attributes:
        pattern: the pattern as it stands.
        note: the note.
        start: the pattern before the first step of the answer, where there were steps since.
    """

    pattern: Pattern
    note: Observation
    start: Pattern | None = None

    @property
    def side(self) -> str:
        """The body side an alteration is for."""
        return str(BodySide.BOTH if self.note.side is BodySide.CENTRE else self.note.side)

    @property
    def garment(self) -> str:
        """What sort of garment it is: bodice, skirt or trousers."""
        return garment_of(self.pattern)

    @property
    def drawn(self) -> bool:
        """Tell whether the pattern has outlines."""
        return any(p.has_outline for p in self.pattern.pieces)

    def _meant(self, thing_side: BodySide) -> bool:
        wanted = self.note.side
        return wanted not in (BodySide.RIGHT, BodySide.LEFT) or thing_side in (
            wanted, BodySide.BOTH, BodySide.CENTRE,
        )  # fmt: skip

    def on(self, part: str, edge: str) -> Piece:
        """Return the front, the back or the sleeve that has an edge; the noted piece first.

        Raises:
            NotHere: there is none.
        """
        found = [
            p for p in self.pattern.pieces
            if p.layer == "shell" and part_of(p) in (part, "side") and self._meant(p.side)
            and any(e.name == edge for e in p.edges)
        ]  # fmt: skip
        found.sort(key=lambda p: (p.name != self.note.piece, part_of(p) == "side"))
        if not found:
            raise NotHere(f"this pattern has no {part} with a {edge}")
        return found[0]

    def first(self, part: str, *edges: str) -> tuple[Piece, str]:
        """Return the first of some edges that a part has, with its piece.

        Raises:
            NotHere: it has none of them.
        """
        for edge in edges:
            try:
                return self.on(part, edge), edge
            except NotHere:
                continue
        raise NotHere(f"this pattern has no {part} with a {' or a '.join(edges)}")

    def seam(self, *names: str) -> Seam:
        """Return the first of some seams that the pattern has.

        Raises:
            NotHere: it has none of them.
        """
        for name in names:
            for seam in self.pattern.seams:
                if seam.name == name and self._meant(seam.side):
                    return seam
        raise NotHere(f"this pattern has no {' or '.join(names)} seam")

    def dart(self, part: str, *names: str) -> tuple[Piece, Dart]:
        """Return a dart of a part, with its piece.

        Raises:
            NotHere: it has none of them.
        """
        for name in names:
            for piece in self.pattern.pieces:
                if part_of(piece) == part and self._meant(piece.side):
                    for dart in piece.darts:
                        if dart.name == name and self._meant(dart.side):
                            return piece, dart
        raise NotHere(f"this pattern's {part} has no {' or '.join(names)}")

    def share_of(self, seam: Seam, piece: str) -> float:
        """Return the share of a seam's first side that takes all from one piece."""
        return 1.0 if any(run.piece == piece for run in seam.first) else 0.0

    def has_line(self, *names: str) -> str:
        """Return the first of some material lines that the pattern has.

        Raises:
            NotHere: it has none of them.
        """
        known = {level.name for p in self.pattern.pieces for level in p.levels}
        if not self.drawn:
            return names[0]
        for name in names:
            if name in known:
                return name
        raise NotHere(f"this pattern has no {' or '.join(names)}")

    def at_line(
        self, piece: Piece, edge_name: str, corner: str, *, otherwise: float, line: str = "",
        mark: str = "", share: float | None = None, up_mm: float = 0.0,
    ) -> float:  # fmt: skip
        """Return how far along an edge from a corner a line, or the height of a mark, is.

        Args:
            piece: the piece.
            edge_name: its edge.
            corner: the corner of that edge.
            otherwise: the distance where neither is drawn, millimetres.
            line: a material line that ends on the edge, or crosses its height.
            mark: a mark at whose height it is.
            share: of the edge's length, where neither is drawn.
            up_mm: so much above it.
        """
        edge = piece.edge(edge_name)
        if not piece.has_outline:
            length = length_of(edge, otherwise * 2)
            return round(min(otherwise if share is None else length * share, length), 1)
        height = self.height(piece, line=line, mark=mark)
        if height is None:
            along = edge.length * share if share is not None else min(otherwise, edge.length / 2)
            return round(along, 1)
        found = _at_height(edge, height + up_mm)
        if found is None:
            raise NotHere(f"the {edge_name} of the {piece.label} does not reach that height")
        return round(found if corner == edge.start else edge.length - found, 1)

    def at_height(self, edge: Edge, height: float) -> float | None:
        """Return how far along an edge it first passes a height; nothing where it does not."""
        return _at_height(edge, height)

    def height(self, piece: Piece, *, line: str = "", mark: str = "") -> float | None:
        """Return the height at which a line, or a mark, lies on a piece; nothing without one."""
        for level in piece.levels:
            if line and level.name == line and self._meant(level.side):
                if level.strokes:
                    return level.strokes[0][0].imag
                return piece.edge(level.edges[0]).point_at(0.0).imag
        for one in piece.marks:
            if mark and one.name == mark and self._meant(one.side):
                return one.point.imag
        return None

    def fold_at(self, piece: Piece, *edges: str) -> str:
        """Return what becomes of a piece's fold when one of some edges is cut."""
        return "straighten the fold" if piece.fold in edges else "refuse"


def garment_of(pattern: Pattern) -> str:
    """Return what sort of garment a pattern is by its edges: bodice, skirt or trousers."""
    edges = {e.name for p in pattern.pieces for e in p.edges}
    if edges & {"armhole", "shoulder", "neckline"}:
        return "bodice"
    return "trousers" if "crotch" in edges else "skirt"


def length_of(edge: Edge, otherwise: float) -> float:
    """Return an edge's length, drawn or declared; another where neither is known."""
    if edge.parts:
        return edge.length
    return edge.declared_mm if edge.declared_mm is not None else otherwise


def part_of(piece: Piece) -> str:
    """Return which part of a garment a piece is: front, back, sleeve, collar … by its name."""
    words = piece.name.lower().split()
    for part in ("sleeve", "collar", "cuff", "facing", "lining", "band", "back", "front"):
        if part in words:
            return part
    edges = {e.name for e in piece.edges}
    if "cap" in edges:
        return "sleeve"
    return "side"


def _at_height(edge: Edge, height: float) -> float | None:
    """Where an edge first passes a height, along it; None where it does not."""
    at = [edge.length * k / _STEPS for k in range(_STEPS + 1)]
    above = [edge.point_at(s).imag - height for s in at]
    for k in range(_STEPS):
        if abs(above[k]) < 1e-9:
            return at[k]
        if above[k] * above[k + 1] < 0:
            return at[k] + (at[k + 1] - at[k]) * above[k] / (above[k] - above[k + 1])
    nearest = min(range(_STEPS + 1), key=lambda k: abs(above[k]))
    return at[nearest] if abs(above[nearest]) < _ON_EDGE_MM else None
