"""What was seen at a fitting, where, and what became of it."""

import re
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeVar

from tracker.errors import TrackerError, nearest_names
from tracker.fitting.garment import FittingError
from tracker.fitting.reading import Reading
from tracker.pattern.bodyside import BodySide

T = TypeVar("T", bound=StrEnum)


class Sign(StrEnum):
    """What is seen, in the trade's terms."""

    TOO_TIGHT = "too tight"
    TOO_LOOSE = "too loose"
    GAPING = "gaping"
    DRAG_LINES = "drag lines"
    FOLDS_ACROSS = "folds across"
    FOLDS_ALONG = "folds along"
    STRAIN = "strain"
    RIDING_UP = "riding up"
    TWISTING = "twisting"
    OFF_LEVEL = "line off level"
    SWINGING = "seam swinging"
    STANDING_AWAY = "standing away"
    NOT_MEETING = "notches not meeting"
    TOO_LONG = "too long"
    TOO_SHORT = "too short"
    OFF_PLACE = "off its place"
    OTHER = "other"


#: Other words people say for the same.
_SAID_AS = {
    "tight": Sign.TOO_TIGHT, "too small": Sign.TOO_TIGHT, "too narrow": Sign.TOO_TIGHT,
    "pulls": Sign.STRAIN, "pulling": Sign.STRAIN, "cuts in": Sign.TOO_TIGHT,
    "loose": Sign.TOO_LOOSE, "too big": Sign.TOO_LOOSE, "too wide": Sign.TOO_LOOSE,
    "too large": Sign.TOO_LOOSE, "gapes": Sign.GAPING, "gape": Sign.GAPING,
    "drag line": Sign.DRAG_LINES, "drags": Sign.DRAG_LINES, "diagonal folds": Sign.DRAG_LINES,
    "diagonal lines": Sign.DRAG_LINES, "horizontal folds": Sign.FOLDS_ACROSS,
    "folds": Sign.FOLDS_ACROSS, "fold across": Sign.FOLDS_ACROSS, "wrinkles": Sign.FOLDS_ACROSS,
    "vertical folds": Sign.FOLDS_ALONG, "fold along": Sign.FOLDS_ALONG,
    "fold": Sign.FOLDS_ACROSS, "rides up": Sign.RIDING_UP, "twists": Sign.TWISTING,
    "twisted": Sign.TWISTING, "off level": Sign.OFF_LEVEL, "not level": Sign.OFF_LEVEL,
    "uneven": Sign.OFF_LEVEL, "swings": Sign.SWINGING, "swinging": Sign.SWINGING,
    "stands off": Sign.STANDING_AWAY, "standing off": Sign.STANDING_AWAY,
    "stands away": Sign.STANDING_AWAY, "long": Sign.TOO_LONG, "short": Sign.TOO_SHORT,
    "too high": Sign.OFF_PLACE, "too low": Sign.OFF_PLACE, "out of place": Sign.OFF_PLACE,
    "off place": Sign.OFF_PLACE, "snug": Sign.TOO_TIGHT, "digs in": Sign.TOO_TIGHT,
    "cuts": Sign.TOO_TIGHT, "cut into": Sign.TOO_TIGHT,
    "binds": Sign.TOO_TIGHT, "binding": Sign.TOO_TIGHT, "pinches": Sign.TOO_TIGHT,
    "squeezes": Sign.TOO_TIGHT, "strains": Sign.STRAIN, "straining": Sign.STRAIN,
    "baggy": Sign.TOO_LOOSE, "bagging": Sign.TOO_LOOSE, "bags": Sign.TOO_LOOSE,
    "roomy": Sign.TOO_LOOSE, "slack": Sign.TOO_LOOSE, "empty": Sign.TOO_LOOSE,
    "gaps": Sign.GAPING, "gapping": Sign.GAPING, "sags": Sign.FOLDS_ACROSS,
    "sagging": Sign.FOLDS_ACROSS, "wrinkles across": Sign.FOLDS_ACROSS,
    "creases": Sign.FOLDS_ACROSS, "horizontal wrinkles": Sign.FOLDS_ACROSS,
    "horizontal creases": Sign.FOLDS_ACROSS, "crosswise folds": Sign.FOLDS_ACROSS,
    "crosswise wrinkles": Sign.FOLDS_ACROSS, "vertical wrinkles": Sign.FOLDS_ALONG,
    "vertical creases": Sign.FOLDS_ALONG, "lengthwise folds": Sign.FOLDS_ALONG,
    "lengthwise wrinkles": Sign.FOLDS_ALONG, "upright folds": Sign.FOLDS_ALONG,
    "diagonal wrinkles": Sign.DRAG_LINES, "pull lines": Sign.DRAG_LINES,
    "slanting folds": Sign.DRAG_LINES, "smiles": Sign.DRAG_LINES, "frowns": Sign.DRAG_LINES,
    "hikes up": Sign.RIDING_UP, "hitches up": Sign.RIDING_UP, "pulls up": Sign.RIDING_UP,
    "climbs": Sign.RIDING_UP, "creeps up": Sign.RIDING_UP, "lifts": Sign.RIDING_UP,
    "turns": Sign.TWISTING, "spirals": Sign.TWISTING, "dips": Sign.OFF_LEVEL,
    "drops": Sign.OFF_LEVEL, "droops": Sign.OFF_LEVEL, "crooked": Sign.OFF_LEVEL,
    "hangs unevenly": Sign.OFF_LEVEL, "leans": Sign.SWINGING, "bulges": Sign.STANDING_AWAY,
    "bulging": Sign.STANDING_AWAY, "pokes": Sign.STANDING_AWAY, "bubbles": Sign.STANDING_AWAY,
    "stands out": Sign.STANDING_AWAY,
}  # fmt: skip


#: Signs whose own words say which way; they are kept.
_WHICH_WAY = ("too high", "too low")


class Strength(StrEnum):
    """How strongly it shows."""

    SLIGHT = "slight"
    CLEAR = "clear"
    STRONG = "strong"


class Cause(StrEnum):
    """What a change is owed to: body proposes itself to the block, the rest stays here."""

    BODY = "body"
    STYLE = "style"
    CLOTH = "cloth"
    TASTE = "taste"


class State(StrEnum):
    """How far a note has been dealt with."""

    OPEN = "open"
    ALTERED = "altered"
    SETTLED = "settled"
    CAME_BACK = "came back"
    #: Sewn so on the garment itself; the pattern does not have it.
    ON_GARMENT = "done on the garment"


@dataclass(frozen=True, kw_only=True)
class Observation:
    """One note of a fitting, tied to a seam or a piece.

    Attributes:
        observation_id: opaque; versions name it by this.
        fitting_id: the fitting it was made at.
        number: its number within the fitting, from 1.
        seam: the seam it is at, or
        piece: the piece, and perhaps
        edge: its edge; without a piece the edges of that name on all of them (a hem).
        side: the wearer's side.
        sign: what is seen.
        strength: how strongly.
        direction: where drag lines or folds point, in words.
        readings: amounts at places.
        fitter_words: the fitter's words.
        client_words: the client's own words, kept apart.
        cause: body, style, cloth or taste.
        state: open, altered, done on the garment, settled or came back.
        dealt_with_in: the version's address it was altered in.
        settled_at: the fitting that settled it or brought it back.
        photo: the digest of a photograph, if any.
    """

    observation_id: str
    fitting_id: str
    number: int
    sign: Sign
    seam: str | None = None
    piece: str | None = None
    edge: str | None = None
    side: BodySide = BodySide.BOTH
    strength: Strength = Strength.CLEAR
    direction: str = ""
    readings: tuple[Reading, ...] = ()
    fitter_words: str = ""
    client_words: str = ""
    cause: Cause = Cause.BODY
    state: State = State.OPEN
    dealt_with_in: str | None = None
    settled_at: str | None = None
    photo: str | None = None

    def __post_init__(self) -> None:
        if self.seam is None and self.piece is None and self.edge is None:
            raise FittingError("a note is tied to a seam or to a piece; name the one it is at")

    @property
    def where(self) -> str:
        """The place in words."""
        if self.seam:
            line = f"{self.seam} seam"
        elif self.piece:
            line = f"{self.edge or 'the'} {self.piece}"
        else:
            line = f"{self.edge} all round"
        return line if self.side in (BodySide.BOTH, BodySide.CENTRE) else f"{self.side} {line}"

    @property
    def waiting(self) -> bool:
        """Tell whether it still wants dealing with."""
        return self.state in (State.OPEN, State.CAME_BACK)

    @property
    def only_on_garment(self) -> bool:
        """Tell whether the garment has what it asks for and the pattern does not."""
        settled_there = self.state is State.SETTLED and self.dealt_with_in is None
        return self.state is State.ON_GARMENT or settled_there

    def done_on_garment(self) -> "Observation":
        """Return the note once what it asks for was sewn on the garment itself.

        Raises:
            FittingError: it is dealt with already.
        """
        if not self.waiting:
            raise FittingError(
                f"note {self.number} is {self.state}; only one that waits is done on the garment"
            )
        return replace(self, state=State.ON_GARMENT, dealt_with_in=None)

    def altered_in(self, version: str) -> "Observation":
        """Return the note once a version deals with it.

        One that was settled on the garment alone stays settled: the pattern now has it too.

        Raises:
            FittingError: it is settled already.
        """
        if self.state is State.SETTLED and self.only_on_garment:
            return replace(self, dealt_with_in=version)
        if self.state is State.SETTLED:
            raise FittingError(
                f"note {self.number} was settled already; make a new note if it shows again"
            )
        return replace(self, state=State.ALTERED, dealt_with_in=version)

    def looked_at(self, fitting_id: str, *, settled: bool) -> "Observation":
        """Return the note after a later fitting looked at it.

        Raises:
            FittingError: no version has dealt with it, so there is nothing to look at.
        """
        if self.state not in (State.ALTERED, State.ON_GARMENT):
            raise FittingError(
                f"note {self.number} is {self.state}, not altered: only a note that a version "
                "dealt with, or that was done on the garment, can be settled or come back at a "
                "fitting"
            )
        return replace(
            self, state=State.SETTLED if settled else State.CAME_BACK, settled_at=fitting_id
        )


def read_word(words: type[T], text: str, what: str) -> T:
    """Read one of a list of words as typed, with the nearest suggested.

    Raises:
        TrackerError: it is none of them.
    """
    wanted = text.strip().lower().replace("-", " ")
    for word in words:
        if str(word) == wanted:
            return word
    known = [str(w) for w in words]
    raise TrackerError(
        f"{text!r} is no {what}; it is one of {', '.join(known)}.{nearest_names(text, known)}"
    )


def read_sign(text: str) -> Sign:
    """Read what is seen as people say it: "gapes", "tight", "stands off".

    Raises:
        TrackerError: it is none; the nearest are suggested.
    """
    plain = " ".join(text.strip().lower().replace("-", " ").split())
    return _SAID_AS[plain] if plain in _SAID_AS else read_word(Sign, plain, "sign")


def heard_sign(text: str) -> tuple[Sign, str]:
    """Read what is seen with the rest of what was said: "pulls across the bust".

    Returns:
        The sign, and the words after it, "across the bust"; none where it is a sign alone.

    Raises:
        TrackerError: it begins with no sign; the nearest are suggested.
    """
    words = text.split()
    for count in range(len(words), 0, -1):
        plain = " ".join(words[:count]).lower().replace("-", " ").rstrip(",;:")
        if plain in _SAID_AS or plain in [str(s) for s in Sign]:
            which = plain if plain in _WHICH_WAY else ""
            return read_sign(plain), " ".join(filter(None, (which, *words[count:])))
    return read_sign(text), ""


def signs_said(text: str) -> frozenset[Sign]:
    """Return the signs that words speak of: "it digs in, and gapes behind"."""
    plain = " ".join(re.findall(r"[\w-]+", text.lower()))
    known = _SAID_AS | {str(sign): sign for sign in Sign}
    return frozenset(
        sign for word, sign in known.items()
        if sign is not Sign.OTHER and re.search(rf"\b{re.escape(word)}\b", plain)
    )  # fmt: skip
