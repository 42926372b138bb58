"""Take a dart to other places as a style: sewn there, gathered or eased, wholly or in shares."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.alterations.kind import Kind
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.tasks.altering import Altered
from tracker.tasks.style_steps import style_by

if TYPE_CHECKING:
    from tracker.store.engine import Store

#: How what was taken elsewhere is sewn.
SEWN = ("dart", "gathers", "ease")


class NotPlaced(TrackerError):
    """A dart's new places that cannot be what is meant."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class DartPlace:
    """A place a dart, or a share of it, is taken to.

    Attributes:
        share: the share of its angle as it is, 0 to 1; none for an even share of the rest.
        into: another dart of the same point that takes it; or
        edge: the edge of a new mouth,
        corner: the corner its place is measured from, and
        distance_mm: how far from there.
    """

    share: float | None = None
    into: str = ""
    edge: str = ""
    corner: str = ""
    distance_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DartWish:
    """What the maker asks of a dart.

    Attributes:
        piece: the piece.
        dart: the dart.
        to: where it is taken; nowhere to sew it otherwise where it is.
        sewn: dart, gathers or ease.
        spread_mm: how far to either side of a mouth gathers are spread.
        side: both, or the wearer's right or left only.
    """

    piece: str
    dart: str
    to: tuple[DartPlace, ...] = ()
    sewn: str = "dart"
    spread_mm: float = 30.0
    side: BodySide = BodySide.BOTH

    def kinds(self) -> tuple[Kind, ...]:
        """Return the steps: each turn, then how what was turned is sewn.

        Raises:
            TrackerError: nothing is asked, or the shares add up to more than the dart.
        """
        from tracker.alterations.kinds.gather_a_dart import GatherDart
        from tracker.alterations.kinds.remove_a_dart import RemoveDart
        from tracker.alterations.kinds.turn_a_dart import TurnDart

        if self.sewn not in SEWN:
            raise NotPlaced(f"a dart is sewn as {', '.join(SEWN)}, not as “{self.sewn}”")
        if not self.to and self.sewn == "dart":
            raise NotPlaced(
                "where to? Name a place, as in “60mm from neck point on shoulder”, or say that it "
                "is sewn as gathers or ease"
            )
        steps: list[Kind] = []
        names: list[str] = []
        left = 1.0
        for place, share in zip(self.to, shares_of(self.to), strict=True):
            name = place.into or _name(place.edge, names)
            names.append(name)
            steps.append(TurnDart(
                piece=self.piece, dart=self.dart, into=place.into, edge=place.edge,
                corner=place.corner, distance_mm=place.distance_mm,
                share=1.0 if share > left - 1e-9 else share / left,
                name="" if place.into else name, side=self.side,
            ))  # fmt: skip
            left -= share
        for name in names or [self.dart]:
            if self.sewn == "gathers":
                steps.append(GatherDart(
                    piece=self.piece, dart=name, each_side_mm=self.spread_mm, side=self.side
                ))  # fmt: skip
            elif self.sewn == "ease":
                steps.append(RemoveDart(piece=self.piece, dart=name, side=self.side))
        return tuple(steps)


def _name(edge: str, taken: list[str]) -> str:
    """What a new dart is called; a second one on the same edge is told from the first."""
    count = sum(name.startswith(f"{edge} dart") for name in taken)
    return f"{edge} dart {count + 1}" if count else f"{edge} dart"


def shares_of(places: Sequence[DartPlace]) -> list[float]:
    """Return every place's share; those that name none share the rest evenly.

    Raises:
        NotPlaced: they add up to more than the whole, or nothing is left to share.
    """
    told = sum(p.share for p in places if p.share is not None)
    open_ones = [p for p in places if p.share is None]
    if told > 1 + 1e-9:
        raise NotPlaced(
            f"the shares add up to {told:.0%}; a dart can be shared out once, so 100% at most"
        )
    if open_ones and told > 1 - 1e-9:
        raise NotPlaced("the shares named take the whole dart; nothing is left for the others")
    rest = (1 - told) / len(open_ones) if open_ones else 0.0
    return [rest if p.share is None else p.share for p in places]


def style_a_dart(
    store: "Store",
    said: str | None,
    wish: DartWish,
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> Altered:
    """Take a dart elsewhere, or sew it otherwise: a new pattern, or the next version.

    Args:
        store: the store.
        said: the version to start from.
        wish: what she asks.
        today: the date of the new version.
        into: the new pattern's name; none makes the next version of the same pattern.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: it cannot be drawn; the sentence says why.
    """
    return style_by(store, said, wish.kinds(), today, into, dry)
