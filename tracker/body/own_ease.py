"""How loosely one client likes a garment, where it differs from the ease tables."""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.body.ease import EasePlan
from tracker.body.ease_tables import ease_table

#: Where such an amount comes from, in a plan.
HER_OWN = "as this client likes it"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnEase:
    """The ease one client likes at one line, instead of the table's.

    Args:
        garment: the garment its table is of: bodice, sleeve …
        cloth: woven or stretch.
        line: the table's line.
        mm: how much larger than the body; negative in stretch cloth.

    Raises:
        TrackerError: there is no such table or line, or it is no ease.
    """

    garment: str
    cloth: str
    line: str
    mm: float

    def __post_init__(self) -> None:
        ease_table(self.garment, self.cloth).with_line(self.line, self.mm)


def own_plan(own: Iterable[OwnEase], garment: str, cloth: str) -> EasePlan:
    """Return the table's plan with a client's own amounts in it.

    Raises:
        UnknownEaseTable: there is no such table.
    """
    plan = ease_table(garment, cloth)
    for one in own:
        if (one.garment, one.cloth) == (garment, cloth):
            plan = plan.with_line(one.line, one.mm, HER_OWN)
    return plan


def changed(
    own: tuple[OwnEase, ...], wish: OwnEase | None, place: tuple[str, str, str]
) -> tuple[OwnEase, ...]:
    """Return a client's own amounts with another at a place, or with the table's there again.

    Args:
        own: as they are.
        wish: the amount; none for the table's.
        place: garment, cloth and line.

    Raises:
        TrackerError: there is no such table or line.
    """
    garment, cloth, line = place
    ease_table(garment, cloth).line(line)
    kept = tuple(n for n in own if (n.garment, n.cloth, n.line) != place)
    return kept if wish is None else (*kept, wish)
