"""The client's card: how she stands, her likes, her allergies, and what she agreed to."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date
from enum import StrEnum
from typing import Any

from tracker.body.body import reading_record
from tracker.body.measurement import BodySide
from tracker.body.own_ease import OwnEase
from tracker.errors import TrackerError, nearest_names


class NotOnACard(TrackerError):
    """Something was put on a client's card that cannot stand there; the sentence says why."""

    exit_code = 2


class Degree(StrEnum):
    """How strongly a posture shows."""

    NONE = "none"
    SLIGHT = "slight"
    MARKED = "marked"


class Part(StrEnum):
    """The part of the body a posture is looked for in, from the top down."""

    HEAD = "head"
    BACK = "back"
    SHOULDERS = "shoulders"
    HIPS = "hips"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """One sort of posture, and how it is recognised.

    Args:
        name: the trade's name.
        part: where it is looked for.
        look: what is seen.
        sided: whether it may be on one side only.
        against: a sort it cannot go with on the same side.
    """

    name: str
    part: Part
    look: str
    sided: bool = False
    against: str | None = None


SORTS: tuple[Sort, ...] = (
    Sort(
        name="forward head",
        part=Part.HEAD,
        look="seen from the side, the ear stands before the shoulder point",
    ),
    Sort(
        name="tilted head",
        part=Part.HEAD,
        look="seen from the front, the head leans to one side",
        sided=True,
    ),
    Sort(
        name="round back",
        part=Part.BACK,
        look="the upper back curves out and the bodice rides up behind",
        against="erect back",
    ),
    Sort(
        name="erect back",
        part=Part.BACK,
        look="the back is flat and the chest lifted; cloth folds across behind",
        against="round back",
    ),
    Sort(
        name="hollow back",
        part=Part.BACK,
        look="the small of the back curves in; cloth folds across at the waist behind",
    ),
    Sort(
        name="prominent blade",
        part=Part.BACK,
        look="the shoulder blade stands out",
        sided=True,
    ),
    Sort(
        name="square shoulder",
        part=Part.SHOULDERS,
        look="the shoulder falls little",
        sided=True,
        against="sloping shoulder",
    ),
    Sort(
        name="sloping shoulder",
        part=Part.SHOULDERS,
        look="the shoulder falls steeply",
        sided=True,
        against="square shoulder",
    ),
    Sort(
        name="low shoulder",
        part=Part.SHOULDERS,
        look="one shoulder point hangs lower than the other",
        sided=True,
    ),
    Sort(
        name="forward shoulder",
        part=Part.SHOULDERS,
        look="the shoulder point stands before the neck point",
        sided=True,
    ),
    Sort(
        name="high hip",
        part=Part.HIPS,
        look="one hip bone stands higher and the hem dips on the other side",
        sided=True,
    ),
    Sort(
        name="full hip",
        part=Part.HIPS,
        look="one hip curves out further than the other",
        sided=True,
    ),
    Sort(
        name="forward hips",
        part=Part.HIPS,
        look="the hips are carried before the shoulders and the hem swings forward",
        against="hips carried back",
    ),
    Sort(
        name="hips carried back",
        part=Part.HIPS,
        look="the seat stands out behind and the hem rises there",
        against="forward hips",
    ),
)

_SORT_OF: dict[str, Sort] = {sort.name: sort for sort in SORTS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Posture:
    """One thing seen of how she stands.

    Args:
        sort: one of the names in ``SORTS``.
        degree: none, slight or marked. "None" records that it was looked for and not seen.
        side: the wearer's side it is on.
    """

    sort: str
    degree: Degree
    side: BodySide = "both"

    def __post_init__(self) -> None:
        if self.sort not in _SORT_OF:
            names = list(_SORT_OF)
            hint = nearest_names(self.sort, names) or f" It knows {', '.join(names)}."
            raise NotOnACard(f"the card knows no posture “{self.sort}”.{hint}")
        if self.degree not in tuple(Degree):
            raise NotOnACard(f"a posture is none, slight or marked, not “{self.degree}”")
        if self.side not in ("both", "right", "left"):
            raise NotOnACard(f"“{self.side}” is not a side of the body; use right, left or both")
        if self.side != "both" and not _SORT_OF[self.sort].sided:
            raise NotOnACard(f"{self.sort} has no {self.side} side; leave the side out")
        object.__setattr__(self, "degree", Degree(self.degree))

    @property
    def part(self) -> Part:
        """The part of the body it is looked for in."""
        return _SORT_OF[self.sort].part

    @property
    def words(self) -> str:
        """In words: ``marked low shoulder, right``."""
        side = "" if self.side == "both" else f", {self.side}"
        if self.degree is Degree.NONE:
            return f"no {self.sort}{side}"
        return f"{self.degree} {self.sort}{side}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Consent:
    """What a client agreed to, and when.

    Args:
        to: what: "measurements", "notes", "photos" … in her maker's words.
        given_on: the day she agreed.
        withdrawn_on: the day she took it back, if she did.
    """

    to: str
    given_on: date
    withdrawn_on: date | None = None

    def __post_init__(self) -> None:
        if not self.to.strip():
            raise NotOnACard("a consent needs what it is for: measurements, notes, photos")
        if self.withdrawn_on is not None and self.withdrawn_on < self.given_on:
            raise NotOnACard(
                f"the consent to {self.to} cannot be withdrawn on {self.withdrawn_on}, before it "
                f"was given on {self.given_on}"
            )

    def holds_on(self, day: date) -> bool:
        """Whether it was given and not yet withdrawn on a day."""
        if day < self.given_on:
            return False
        return self.withdrawn_on is None or day < self.withdrawn_on


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What is known of a client besides her measurements.

    Args:
        posture: what was seen of how she stands; at most one of a sort and side.
        likes: what she likes in clothes, in her own words.
        allergies: what must not touch her skin: latex, metal, wool …
        consents: what she agreed to.
        note: anything else.
        ease: how loosely she likes a garment where it differs from the tables.
    """

    posture: tuple[Posture, ...] = ()
    likes: tuple[str, ...] = ()
    allergies: tuple[str, ...] = ()
    consents: tuple[Consent, ...] = ()
    note: str = ""
    ease: tuple[OwnEase, ...] = ()

    def __post_init__(self) -> None:
        seen: set[tuple[str, BodySide]] = set()
        for one in self.posture:
            if (one.sort, one.side) in seen:
                raise NotOnACard(f"{one.sort} stands twice on the card; keep one of them")
            seen.add((one.sort, one.side))
        shown = [one for one in self.posture if one.degree is not Degree.NONE]
        for one in shown:
            against = _SORT_OF[one.sort].against
            for other in shown:
                if other.sort == against and _share_a_side(one.side, other.side):
                    raise NotOnACard(
                        f"{one.words} and {other.words} cannot both be; keep one of them"
                    )

    def with_posture(self, posture: Posture) -> "Card":
        """Return this card with a posture put in; the same sort and side is replaced."""
        kept = tuple(
            one for one in self.posture if (one.sort, one.side) != (posture.sort, posture.side)
        )
        return replace(self, posture=(*kept, posture))

    def of_part(self, part: Part) -> tuple[Posture, ...]:
        """Return what was seen at one part of the body."""
        return tuple(one for one in self.posture if one.part is part)

    def agreed_to(self, what: str, day: date) -> bool:
        """Whether she has agreed to something on a day."""
        wanted = what.strip().lower()
        return any(one.to.strip().lower() == wanted and one.holds_on(day) for one in self.consents)

    def cautions(self) -> tuple[str, ...]:
        """Return a caution for each allergy, for the head of a measuring sheet or fitting card."""
        return tuple(_caution(what) for what in self.allergies)

    def to_record(self) -> dict[str, Any]:
        """Return plain values for storing."""
        own = [asdict(one) for one in self.ease]
        return {
            "format": 1,
            **({"ease": own} if own else {}),
            "posture": [
                {"sort": one.sort, "degree": str(one.degree), "side": str(one.side)}
                for one in self.posture
            ],
            "likes": list(self.likes),
            "allergies": list(self.allergies),
            "consents": [
                {
                    "to": one.to,
                    "given_on": one.given_on.isoformat(),
                    "withdrawn_on": one.withdrawn_on.isoformat() if one.withdrawn_on else None,
                }
                for one in self.consents
            ],
            "note": self.note,
        }

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> "Card":
        """Read what ``to_record`` wrote."""
        with reading_record(record, "client's card"):
            return cls(
                posture=tuple(
                    Posture(sort=one["sort"], degree=Degree(one["degree"]), side=one["side"])
                    for one in record["posture"]
                ),
                likes=tuple(record["likes"]),
                allergies=tuple(record["allergies"]),
                consents=tuple(
                    Consent(
                        to=one["to"],
                        given_on=date.fromisoformat(one["given_on"]),
                        withdrawn_on=(
                            date.fromisoformat(one["withdrawn_on"]) if one["withdrawn_on"] else None
                        ),
                    )
                    for one in record["consents"]
                ),
                note=record["note"],
                ease=tuple(OwnEase(**one) for one in record.get("ease", ())),
            )


def _share_a_side(one: BodySide, other: BodySide) -> bool:
    return one == other or "both" in (one, other)


def _caution(allergy: str) -> str:
    kind = allergy.strip().lower()
    if "latex" in kind or "rubber" in kind:
        return (
            "Latex: no elastic, rubber-backed tape or latex gloves on her skin; mark the waist "
            "with a woven tape."
        )
    if "metal" in kind or "nickel" in kind:
        return (
            "Metal: no bare pins, hooks or tape ends on her skin; pin through two layers, or baste."
        )
    return f"{allergy.strip().capitalize()}: keep it off her skin."
