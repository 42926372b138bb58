"""A client as the studio knows her."""

import re
from dataclasses import dataclass, field

from tracker.body.card import Card
from tracker.errors import TrackerError

_CODE = re.compile(r"[a-z0-9][a-z0-9-]{1,23}")


class BadCode(TrackerError):
    """A client code that cannot be written in an address or on a print."""


@dataclass(frozen=True, kw_only=True)
class Client:
    """A client.

    Attributes:
        code: what prints carry instead of her name: 2 to 24 of a-z, 0-9 and dashes.
        name: her name; never printed unless asked for.
        card: posture, likes, allergies, consent.
        note: anything else.
    """

    code: str
    name: str
    card: Card = field(default_factory=Card)
    note: str = ""

    def __post_init__(self) -> None:
        if not _CODE.fullmatch(self.code):
            raise BadCode(
                f"{self.code!r} cannot be a client's code; use 2 to 24 small letters, digits and "
                "dashes, such as mara or mara-2"
            )
