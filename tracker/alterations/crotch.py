"""Where the crotch meets the inside leg, front and back: what the crotch alterations share."""

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.alterations.across import up_of
from tracker.alterations.told import ONE_SIDE, mm
from tracker.geometry.crossing import nearest_crossing
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

CROTCH, INSIDE_LEG = "crotch", "inside leg"
HIP_LINE, CROTCH_LINE, KNEE_LINE = "hip line", "crotch line", "knee line"
#: The inside leg is back on its old line so far above the knee line unless told; common
#: practice, no source.
ABOVE_KNEE_MM = 50.0
#: Where no knee line is drawn: this share of the inside leg from its point.
_SHARE_OF_LEG = 0.35
#: The inside leg is drawn anew over this much at least, and not to its very end.
LEAST_LEG_MM = 60.0
_FROM_END_MM = 2.0


@dataclass(frozen=True)
class Fork:
    """A piece's inside-leg point: the corner its crotch and its inside leg share.

    Attributes:
        where: "front" or "back".
        piece: the piece.
        crotch: its crotch edge, from the waist.
        inside: its inside leg.
        at_start: whether the crotch starts at the point, and the inside leg ends there.
    """

    where: str
    piece: Piece
    crotch: Edge
    inside: Edge
    at_start: bool

    @property
    def corner(self) -> str:
        """The point's name."""
        return self.crotch.start if self.at_start else self.crotch.end

    @property
    def centre(self) -> str:
        """The name of the crotch's other end, at the waist."""
        return self.crotch.end if self.at_start else self.crotch.start

    @property
    def point(self) -> Point:
        """The point itself."""
        return self.crotch.drawn[0].start if self.at_start else self.crotch.drawn[-1].end

    def of_piece(self, piece: Piece) -> "Fork":
        """Return the same of the piece drawn again."""
        crotch, inside = piece.edge(*self.crotch.key), piece.edge(*self.inside.key)
        return Fork(self.where, piece, crotch, inside, self.at_start)

    def corner_deg(self) -> float:
        """The angle between crotch and inside leg, inside the piece."""
        return corner_angle(self.piece, self.crotch, not self.at_start)

    def outward(self) -> Point:
        """The direction square to the grain, out of the piece at the point."""
        up = up_of(self.piece)
        along = complex(up.imag, -up.real)
        left, low, right, high = self.piece.box
        middle = complex((left + right) / 2, (low + high) / 2)
        return along if dot(self.point - middle, along) > 0 else -along


def forks(pattern: Pattern, side: BodySide) -> tuple[Fork, ...]:
    """Return the inside-leg points a body side means, front pieces first.

    Raises:
        PatternError: the pattern is no pair of trousers.
    """
    found = []
    for piece in pattern.pieces:
        if side in ONE_SIDE and piece.side not in (side, BodySide.BOTH):
            continue
        for crotch in piece.edges:
            if crotch.name != CROTCH:
                continue
            before, after = piece.before(crotch), piece.after(crotch)
            if INSIDE_LEG in (before.name, after.name):
                starts = before.name == INSIDE_LEG
                where = _where(piece, crotch.end if starts else crotch.start)
                found.append(Fork(where, piece, crotch, before if starts else after, starts))
    if not found:
        named = ", ".join(p.label for p in pattern.pieces)
        raise PatternError(
            f"no piece has a {CROTCH} edge that meets an {INSIDE_LEG}; its pieces are {named}. "
            f"This is for trousers whose edges are called {CROTCH} and {INSIDE_LEG}"
        )
    return tuple(sorted(found, key=lambda f: f.where != "front"))


def _where(piece: Piece, centre: str) -> str:
    """Tell a front from a back: by the piece's name, else by that of its centre."""
    for name in (piece.name, centre):
        for where in ("front", "back"):
            if where in name:
                return where
    raise PatternError(
        f"neither the name of the {piece.label} nor its corner {centre!r} says front or back"
    )


def forks_of(pattern: Pattern, side: BodySide, where: str) -> tuple[Fork, ...]:
    """Return the inside-leg points of the fronts, or of the backs.

    Raises:
        PatternError: there are none.
    """
    found = tuple(f for f in forks(pattern, side) if f.where == where)
    if not found:
        raise PatternError(f"the pattern has no {where} with a {CROTCH}")
    return found


def leg_mm(fork: Fork, given_mm: float) -> float:
    """Return how far from its point an inside leg is back on its old line, along it.

    Args:
        fork: the inside-leg point.
        given_mm: as it was said; 0 is a little above the knee.

    Raises:
        PatternError: that is too near the point, or off the end of the inside leg.
    """
    length = fork.inside.length
    if not given_mm:
        return usual_leg_mm(fork)
    if given_mm < LEAST_LEG_MM:
        raise PatternError(
            f"the inside leg cannot be back on its old line {mm(given_mm)} below the "
            f"{fork.corner}; give {LEAST_LEG_MM:.0f} mm at least"
        )
    if given_mm > length - _FROM_END_MM:
        raise PatternError(
            f"{mm(given_mm)} below the {fork.corner} is off the end of the {INSIDE_LEG} of the "
            f"{fork.piece.label}, which is {length:.0f} mm long"
        )
    return given_mm


def usual_leg_mm(fork: Fork) -> float:
    """Return where an inside leg is back on its old line unless told, to 5 mm."""
    knee = line_on(fork.piece, fork.inside, KNEE_LINE)
    down = _SHARE_OF_LEG * fork.inside.length
    if knee is not None:
        below = fork.inside.length - knee if fork.at_start else knee
        if below - ABOVE_KNEE_MM >= LEAST_LEG_MM:
            down = below - ABOVE_KNEE_MM
    return max(5 * round(down / 5), LEAST_LEG_MM)


def leg_words(found: Sequence[Fork], given_mm: float) -> str:
    """Say where inside legs are back on their old lines: "285 mm below it", as given or usual."""
    if given_mm:
        return f"{mm(given_mm)} below it"
    if not all(f.piece.has_outline for f in found):
        return "a little above the knee"
    return " and ".join(dict.fromkeys(mm(usual_leg_mm(f)) for f in found)) + " below it"


def line_on(piece: Piece, edge: Edge, line: str) -> float | None:
    """Return where a material line meets an edge, from the edge's start as sewn."""
    for level in piece.levels:
        if level.name != line:
            continue
        for stroke in level.strokes:
            for end in (stroke[0], stroke[-1]):
                along, gap = edge.nearest(end)
                if gap < 0.5:
                    return along
            reach = Curve.line(*stroke).run_on(30.0, 30.0)
            for part in edge.drawn:
                met = nearest_crossing(reach, part, stroke[0])
                if met is not None:
                    return edge.nearest(met.point)[0]
    return None
