"""Style a block: panels in front and behind, and sleeves, as steps of a version."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.drafting.style_leftover import Leftover
from tracker.errors import TrackerError
from tracker.history.version import Standing
from tracker.pattern.bodyside import BodySide
from tracker.tasks.altering import Altered, alter
from tracker.tasks.bodies import body_of
from tracker.tasks.easing import planned_for, with_choices
from tracker.tasks.named import the_version
from tracker.tasks.said import as_it_is

if TYPE_CHECKING:
    from tracker.store.engine import Store


class NoPanels(TrackerError):
    """Panels were asked for of neither front nor back, or there are none to be joined."""

    exit_code = 2


class NotAChoice(TrackerError):
    """A word that is none of those that can be chosen."""

    exit_code = 2


def leftover_said(text: str) -> Leftover:
    """Read what becomes of what is left of the bust dart.

    Raises:
        NotAChoice: it is neither ease nor dart.
    """
    words = [str(choice) for choice in Leftover]
    if text.strip().lower() not in words:
        raise NotAChoice(
            "what is left beside the line is eased or sewn as a short dart; say "
            f"{' or '.join(words)}, not “{text}”"
        )
    return Leftover(text.strip().lower())


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelWish:
    """What the maker asks of panels.

    Attributes:
        front: panel the front, and
        back: the back.
        front_from: the edge the front line starts from, shoulder or armhole.
        front_at_mm: how far along it; none for half-way.
        back_from: the edge the back line starts from, armhole or shoulder.
        back_at_mm: how far along it; none for half-way, or the shoulder dart.
        back_foot: waist dart, waist, or "" for the dart where there is one.
        rounding_mm: how far above and below the bust point the corner is rounded.
        beside_mm: how far beside the bust point the front line passes; negative to the centre.
        leftover: what becomes of what is left of the bust dart then, ease or a short dart.
        side: both, or the wearer's right or left only.
    """

    front: bool = True
    back: bool = True
    front_from: str = "shoulder"
    front_at_mm: float | None = None
    back_from: str = "armhole"
    back_at_mm: float | None = None
    back_foot: str = ""
    rounding_mm: float = 50.0
    beside_mm: float = 0.0
    leftover: Leftover = Leftover.EASE
    side: BodySide = BodySide.BOTH

    def kinds(self) -> tuple[Kind, ...]:
        """Return the steps, front first.

        Raises:
            NoPanels: neither front nor back.
        """
        steps: list[Kind] = []
        if self.front:
            steps.append(PanelFront(
                start=self.front_from, distance_mm=self.front_at_mm,
                rounding_mm=self.rounding_mm, beside_mm=self.beside_mm,
                leftover=self.leftover, side=self.side,
            ))  # fmt: skip
        if self.back:
            steps.append(PanelBack(
                start=self.back_from, distance_mm=self.back_at_mm, foot=self.back_foot,
                rounding_mm=self.rounding_mm, side=self.side,
            ))  # fmt: skip
        if not steps:
            raise NoPanels("panel the front, the back, or both; neither leaves nothing to do")
        return tuple(steps)


def panel(
    store: "Store",
    said: str | None,
    wish: PanelWish,
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> tuple[Altered, tuple[str, ...]]:
    """Panel a block: a new pattern beside it, or its next version; and what to mind.

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
    with store.reading() as books:
        block = the_version(books, said)
    makers = [as_it_is(kind) for kind in wish.kinds()]
    made = alter(store, str(block.address), makers, today, dry=dry, into=into)
    settled = block.standing in (Standing.FITTED, Standing.APPROVED_FOR_CLOTH)
    mind = (
        f"{block.address} was not fitted yet; panels are best drawn on a block whose fit is settled"
    )
    return made, () if settled else (mind,)


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveWish:
    """What the maker asks of sleeves.

    Attributes:
        cloth: woven or stretch; the ease table that is started from.
        ease: (line, mm) of her own choice: upper-arm, elbow, wrist, sleeve-cap, arm-length.
        elbow_dart_mm: width of an elbow dart; nothing for a straight sleeve.
        estimate: work out what of the arm was not measured.
        session: the number of the measuring session; none for the newest usual values.
        side: both, or the wearer's right or left only.
    """

    cloth: str = "woven"
    ease: tuple[tuple[str, float], ...] = ()
    elbow_dart_mm: float = 0.0
    estimate: bool = False
    session: int | None = None
    side: BodySide = BodySide.BOTH


def sew_in_sleeves(
    store: "Store",
    said: str | None,
    wish: SleeveWish,
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> tuple[Altered, tuple[str, ...]]:
    """Draft sleeves to the armholes of a version and sew them in; and what to mind.

    Args:
        store: the store.
        said: the version to start from.
        wish: what she asks.
        today: the date of the new version.
        into: the new pattern's name; none makes the next version of the same pattern.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: the arm was not measured, or no sleeve can be drawn to the armhole.
    """
    from tracker.alterations.kinds.add_a_sleeve import AddSleeve
    from tracker.body.estimate import SLEEVE_NEEDS, estimate
    from tracker.body.measurement import BodySide as ArmSide
    from tracker.drafting.sleeve_wants import Arm

    with store.reading() as books:
        bodice = the_version(books, said)
        body = body_of(books, bodice.address.client, wish.session, with_passing=False)
        planned = planned_for(books, bodice.address.client, "sleeve", wish.cloth)
    plan = with_choices(planned, wish.ease)
    if wish.estimate:
        body = estimate(body, SLEEVE_NEEDS)
    arm_side: ArmSide = "both" if wish.side is BodySide.BOTH else _arm_side(wish.side)
    kind = AddSleeve.to_fit(Arm.of(body, arm_side), plan, wish.side)
    guessed = [v.name for v in body.estimates if v.key in SLEEVE_NEEDS]
    kind = replace(kind, elbow_dart_mm=wish.elbow_dart_mm, estimated=tuple(guessed))
    mind = (f"estimated, not measured: {', '.join(guessed)}",) if guessed else ()
    sentence = f"{kind.sentence(bodice.pattern)}; {mind[0]}" if mind else ""
    makers = [as_it_is(kind)]
    made = alter(store, str(bodice.address), makers, today, sentence=sentence, dry=dry, into=into)
    return made, mind


def join_panels(
    store: "Store",
    said: str | None,
    dart: Mapping[str, float],
    seams: Mapping[str, float],
    dart_point_mm: float,
    opening: str,
    side: BodySide,
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> Altered:
    """Join the side panels of a version into one piece without a side seam.

    Args:
        store: the store.
        said: the version to start from.
        dart: by line, the share of the gap that goes into the dart, 0 to 1.
        seams: by line, the share the panel seams take or give.
        dart_point_mm: how far below the underarm the dart's point lies.
        opening: the seam that carries the opening; empty asks for it.
        side: both, or the wearer's right or left.
        today: the date of the new version.
        into: the new pattern's name.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: there are no side panels, or they cannot be joined.
    """
    from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
    from tracker.drafting.style_join_choice import AtLine

    at = tuple(
        AtLine(line=line, dart=dart.get(line, 0.0), seams=seams.get(line, 0.0))
        for line in dict.fromkeys((*dart, *seams))
    )
    kind = JoinSidePanels(at=at, dart_point_mm=dart_point_mm, opening_in=opening or None, side=side)
    with store.reading() as books:
        version = the_version(books, said)
    names = {p.name for p in version.pattern.pieces}
    if not {kind.front, kind.back} <= names:
        raise NoPanels(
            f"{version.address} has no side panels to be joined; panel it first, with: tracker "
            f"style panels {version.address}"
        )
    return alter(store, str(version.address), [as_it_is(kind)], today, dry=dry, into=into)


def make_sleeveless(
    store: "Store",
    said: str | None,
    raised_mm: float,
    side_in_mm: float,
    shoulder_mm: float,
    side: BodySide,
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> Altered:
    """Take the sleeves off a version and cut its armhole closer.

    Args:
        store: the store.
        said: the version to start from.
        raised_mm: how far the underarm is raised.
        side_in_mm: how much the side seam is taken in at the underarm.
        shoulder_mm: how much shorter the shoulder is.
        side: both, or the wearer's right or left.
        today: the date of the new version.
        into: the new pattern's name.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: there is no armhole, or the amounts cannot be drawn.
    """
    from tracker.alterations.kinds.make_it_sleeveless import MakeSleeveless

    kind = MakeSleeveless(
        raised_mm=raised_mm, side_in_mm=side_in_mm, shoulder_mm=shoulder_mm, side=side
    )
    with store.reading() as books:
        start = str(the_version(books, said).address)
    return alter(store, start, [as_it_is(kind)], today, dry=dry, into=into)


def _arm_side(side: BodySide) -> Literal["right", "left"]:
    return "right" if side is BodySide.RIGHT else "left"
