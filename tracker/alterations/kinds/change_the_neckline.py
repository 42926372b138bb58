"""Make the neckline tighter or looser, with its collar."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.collar import collar_lengthened, collars, cut_by_a_step, drawn_to_shape
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.shaping import EdgeAt, at, shaped, spot
from tracker.alterations.told import (
    ONE_SIDE,
    applied,
    edges_meant,
    kept_at_the_centre,
    mm,
    on_paper,
    one_sided,
    parted,
    whose,
)
from tracker.drafting.strip import NECK_EDGE
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace

NECKLINE = "neckline"


class Neck(StrEnum):
    """Which way the neckline goes."""

    TIGHTER = "tighter"
    LOOSER = "looser"


@dataclass(frozen=True, kw_only=True)
class NeckAt:
    """How much of the change is had at one place of a neckline.

    Attributes:
        piece: the piece.
        corner: the corner of its neckline the distance is from.
        distance_mm: along the neckline.
        share: 1 where the line moves most, 0 where it stays.
    """

    piece: str
    corner: str
    distance_mm: float
    share: float


@dataclass(frozen=True, kw_only=True)
class ChangeNeckline(Kind):
    """Change the neckline's length all round by moving its line.

    Attributes:
        to: tighter (shorter) or looser (longer).
        by_mm: the amount round the whole neck; for one body side, on that side alone.
        places: where the line moves and by what share; evenly all round when none is given.
            A piece not named stays.
        side: both, or the wearer's right or left only.
        collar: the collar is made to match at its centre back, where there is one.
    """

    word: ClassVar[str] = "change the neckline"
    help: ClassVar[str] = (
        "Make the neckline tighter or looser by an amount round the whole neck, evenly or at named "
        "places; a collar sewn to it is made as much longer or shorter at its centre back."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Neck
    by_mm: float
    places: tuple[NeckAt, ...] = ()
    side: BodySide = BodySide.BOTH
    collar: bool = True

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how much tighter or looser round the whole neck")
        if self.places and not any(p.share for p in self.places):
            raise PatternError("every share is nothing; say where the neckline moves")
        if any(not 0 <= p.share <= 1 for p in self.places):
            raise PatternError("a share of the neckline's change lies between 0 and 1")

    @property
    def _longer(self) -> float:
        return self.by_mm if self.to == Neck.LOOSER else -self.by_mm

    @classmethod
    def example(cls) -> Example:
        """A neckline that cuts in at the throat."""
        return Example(
            examples.bodice(),
            cls(
                to=Neck.LOOSER, by_mm=10.0,
                places=(
                    NeckAt(piece="front", corner="centre front neck", distance_mm=0.0, share=1.0),
                    NeckAt(piece="front", corner="neck point", distance_mm=0.0, share=0.0),
                ),
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Neckline 12 mm looser round the whole neck, evenly all round"."""
        self._edges(pattern)
        way = "looser" if self._longer > 0 else "tighter"
        begin = whose(self.side)
        who = "neckline" if begin else "Neckline"
        whole = "on that side" if begin else "round the whole neck"
        told = f"{begin}{who} {mm(abs(self.by_mm))} {way} {whole}"
        if not self.places:
            told += ", to nothing at the centre" if begin else ", evenly all round"
        else:
            at_places = [
                f"{'most' if p.share == 1 else f'{p.share:.0%}'} {self._where(p)}"
                for p in self.places
                if p.share
            ]
            nothing = [self._where(p).removeprefix("at ") for p in self.places if not p.share]
            told += ", " + ", ".join(at_places)
            if begin and not any("centre" in p.corner for p in self.places):
                nothing.append("the centre")
            if nothing:
                told += f", to nothing at {' and '.join(nothing)}"
        if self.collar and collars(pattern):
            again = self.side not in ONE_SIDE and any(
                drawn_to_shape(pattern, seam) for seam in collars(pattern)
            )
            told += "; the collar " + (
                "traced again" if again else "made to match at its centre back"
            )
        return told

    @staticmethod
    def _where(place: NeckAt) -> str:
        off = f"{mm(place.distance_mm)} from " if place.distance_mm else ""
        return f"at {off}the {place.corner} of the {place.piece}"

    def _edges(self, pattern: Pattern) -> list[tuple[Piece, Edge]]:
        names = dict.fromkeys(
            p.name
            for p in pattern.pieces
            if p.layer == "shell" and any(e.name == NECKLINE for e in p.edges)
        )
        if not names:
            raise PatternError("no piece of this pattern has an edge called 'neckline'")
        for place in self.places:
            pattern.piece(place.piece, self.side).edge(NECKLINE)
        return [m for name in names for m in edges_meant(pattern, name, NECKLINE, self.side)]

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the necklines until they are as long as wanted."""
        before = pattern
        if any(not e.parts for p in pattern.pieces for e in p.edges if e.name == NECKLINE):
            return on_paper(before, self.sentence(before))
        names = {p.name for p in pattern.pieces if any(e.name == NECKLINE for e in p.edges)}
        split = parted(pattern, names, self.side)
        start = split.pattern
        shares = dict(self._shares(start))
        side = self.side if self.side in ONE_SIDE else None
        wanted = around(start, NECKLINE, side) + self._longer

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            shapes = {key: (profile.times(amounts[0]),) for key, profile in shares.items()}
            return shaped(start, shapes, step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            return [around(drawn(amounts)[0], NECKLINE, side) - wanted]

        # A neckline moved into its pieces grows by about a full turn of it.
        amounts = adjusted(
            misses, [self._longer / 6], [4.0],
            "the neckline cannot be changed so far by moving its line there; a smaller amount "
            "would fit",
            decimals=3,
        )  # fmt: skip
        new, moved = drawn(amounts)
        trace = split.trace.then(moved)
        notes = [
            f"the line moved {mm(abs(amounts[0]))} {'in' if amounts[0] > 0 else 'out'} at most"
        ]
        leaves: list[str] = []
        for seam in collars(start):
            if drawn_to_shape(start, seam):
                if self.collar and self.side not in ONE_SIDE:
                    new, by, more = _traced_again(start, new, seam, step_id)
                    trace = trace.then(more)
                    notes.append(f"collar traced again, {_longer_told(by)} round the neck")
                continue  # else told as out of date
            if not self.collar or self.side in ONE_SIDE:
                leaves.append(
                    f"the {seam.name} seam: make the collar {mm(abs(self._longer))} "
                    f"{'longer' if self._longer > 0 else 'shorter'} at its centre back"
                )
                continue
            fitted = collar_lengthened(start, new, seam, step_id)
            if fitted is None and cut_by_a_step(start, seam):
                continue  # told as out of date
            if fitted is None:
                leaves.append(
                    f"the {seam.name} seam: the collar has no fold or seam at its centre back to "
                    f"be let out at; make it {mm(abs(self._longer))} "
                    f"{'longer' if self._longer > 0 else 'shorter'} there by hand"
                )
            else:
                new, by, more = fitted
                trace = trace.then(more)
                notes.append(f"collar {_longer_told(by)} at its centre back")
        if not collars(start):
            leaves.append(
                f"a collar or facing for this neckline needs {mm(abs(self._longer))} "
                f"{'more' if self._longer > 0 else 'less'} round the neck"
            )
        return applied(before, new, trace, notes=notes, leaves=leaves)

    def _shares(self, pattern: Pattern) -> Iterable[tuple[EdgeAt, Profile]]:
        """The shape of the change along each neckline, 1 where it is most."""
        for piece, edge in self._edges(pattern):
            if not self.places:
                yield at(piece, edge), one_sided(pattern, piece, edge, self.side)
                continue
            knots = [
                (edge.base_distance(spot(piece, edge, p.corner, p.distance_mm)), p.share)
                for p in self.places
                if p.piece == piece.name
            ]
            if knots:
                moved = Profile(tuple(sorted(knots)))
                yield at(piece, edge), kept_at_the_centre(piece, edge, moved, self.side)


def _longer_told(by_mm: float) -> str:
    return f"{mm(abs(by_mm))} {'longer' if by_mm > 0 else 'shorter'}"


def _traced_again(
    old: Pattern, new: Pattern, seam: Seam, step_id: str
) -> tuple[Pattern, float, Trace]:
    """A collar traced again from its new neckline, and how much longer it is all round."""
    name = drawn_to_shape(old, seam)
    made = TraceAgain(piece=name).apply(new, step_id)
    was, now = (p.piece(name) for p in (old, made.pattern))
    by = now.edge(NECK_EDGE).length - was.edge(NECK_EDGE).length
    return made.pattern, by * (2 if now.fold else 1), made.trace
