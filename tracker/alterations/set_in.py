"""Sleeves set into armholes: found by the seams that sew them in, whatever they are called."""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.drafting.sleeve_armhole import BACK_EDGE
from tracker.drafting.sleeve_armhole import EDGES as ARMHOLES
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.walk import Walked, notch_on_side, walked

SLEEVE = "sleeve"
_ONE_SIDE = (BodySide.RIGHT, BodySide.LEFT)


class NoSleeve(UnknownName):
    """A sleeve was meant where none is sewn into an armhole."""


@dataclass(frozen=True, slots=True)
class SetIn:
    """A sleeve whose cap is on one piece, set into an armhole.

    Attributes:
        seam: the seam that sews its cap to the armhole.
        piece: the sleeve.
        cap: its cap.
        begins: the sleeve's edge that ends where the cap begins, going round the piece.
        ends: the edge that begins where the cap ends.
        under: the seam that sews those two together.
        start_is_front: whether the cap begins at the front.
    """

    seam: Seam
    piece: Piece
    cap: Edge
    begins: Edge
    ends: Edge
    under: Seam
    start_is_front: bool

    def notches(self, pattern: Pattern) -> tuple[tuple[str, float], ...]:
        """Return the cap's matched notches: name and distance from the cap's own start, in order.

        A corner that is matched is none of them.
        """
        step = Walked(self.seam.second[0], self.cap, 0.0)
        names = {n.name for n in self.piece.notches if (n.edge, n.side) == self.cap.key}
        found = []
        for match in self.seam.matches:
            if match.second in names:
                along = notch_on_side(pattern, (step,), match.second_piece, match.second)
                found.append((match.second, step.on_edge(along)))
        return tuple(sorted(found, key=lambda pair: pair[1]))


def armhole_seams(pattern: Pattern, side: BodySide = BodySide.BOTH) -> Iterable[Seam]:
    """Return the seams that sew something of the shell to armhole edges, on a body side."""
    for seam in pattern.seams:
        if side in _ONE_SIDE and seam.side not in (side, BodySide.BOTH):
            continue
        if sews_in_a_cap(pattern, seam):
            yield seam


def sews_in_a_cap(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam's first side is an armhole and its second something of the shell."""
    return (
        not seam.on_itself
        and all(r.edge in ARMHOLES for r in seam.first)
        and all(r.edge not in ARMHOLES for r in seam.second)
        and all(pattern.piece(r.piece, r.side).layer == "shell" for r in seam.second)
    )


def set_in(pattern: Pattern, side: BodySide = BodySide.BOTH) -> tuple[SetIn, ...]:
    """Return the sleeves of one piece set into armholes, on a body side.

    A sleeve drawn once for both arms comes once for each armhole seam it is in.

    Raises:
        NoSleeve: there is none, or it is not of one piece.
    """
    found = []
    pieced = ""
    for seam in armhole_seams(pattern, side):
        sleeve = sleeve_in(pattern, seam)
        if sleeve is None:
            pieced = _pieced(pattern, seam)
        else:
            found.append(sleeve)
    if found:
        return tuple(found)
    if pieced:
        raise NoSleeve(pieced)
    whose = f" on the {side} side" if side in _ONE_SIDE else ""
    raise NoSleeve(f"no sleeve is sewn into an armhole of this pattern{whose}; add a sleeve first")


def _pieced(pattern: Pattern, seam: Seam) -> str:
    """Say why a cap that is on several pieces is not altered whole, and what does it."""
    names = list(dict.fromkeys(r.piece for r in seam.second))
    if len(names) == 1:
        return (
            f"the {names[0]} is not a sleeve of one piece with one underarm seam; alter its edges "
            "one by one"
        )
    between = [
        s.name for s in pattern.seams
        if {r.piece for r in s.first} <= set(names) and {r.piece for r in s.second} <= set(names)
        and s.key != seam.key
    ]  # fmt: skip
    listed = " and ".join(f"“{n}”" for n in dict.fromkeys(between))
    return (
        f"the cap is on several pieces, the {' and the '.join(names)}, and is altered only where "
        "it is on one: withdraw the parting, alter the sleeve whole and part it again; or take in "
        f"or let out the seams that end on the cap, {listed}, and move its notches"
    )


def sleeve_in(pattern: Pattern, seam: Seam) -> SetIn | None:
    """Return the sleeve an armhole seam sews in; nothing where it is not of one piece."""
    if len(seam.second) != 1:
        return None
    run = seam.second[0]
    piece, cap = pattern.piece(run.piece, run.side), pattern.edge_of(run)
    begins, ends = piece.before(cap), piece.after(cap)
    wanted = (piece.name, begins.name), (piece.name, ends.name)
    for under in pattern.seams:
        # Parted at the elbow, what hangs on the sleeve goes on in the same seam.
        one, two = ({(r.piece, r.edge) for r in runs} for runs in (under.first, under.second))
        if any(a in one and b in two for a, b in (wanted, wanted[::-1])):
            front = _behind_first(pattern, seam) == run.backward
            return SetIn(seam, piece, cap, begins, ends, under, front)
    return None


def _behind_first(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether an armhole seam is sewn from the back: by names, else by its double notch."""
    edges = seam.first[0].edge, seam.first[-1].edge
    if BACK_EDGE in edges:
        return edges[0] == BACK_EDGE
    names = seam.first[0].piece, seam.first[-1].piece
    if ("back" in names[0]) != ("back" in names[1]):
        return "back" in names[0]
    if ("front" in names[0]) != ("front" in names[1]):
        return "front" in names[1]
    side = walked(pattern, seam.second)
    piece = pattern.piece(seam.second[0].piece, seam.second[0].side)
    at = [
        (notch_on_side(pattern, side, m.second_piece, m.second), n.count)
        for m in seam.matches
        for n in piece.notches
        if (n.name, n.side) == (m.second, seam.second[0].side)
    ]
    at.sort()
    return bool(at) and at[0][1] >= at[-1][1]


__all__ = ["NoSleeve", "SetIn", "armhole_seams", "set_in", "sews_in_a_cap", "sleeve_in"]
