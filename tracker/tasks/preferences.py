"""The maker's preferences: her unit, her words, her usual allowance."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.errors import TrackerError, nearest_names
from tracker.units import Unit, read_length, write_change, write_length

if TYPE_CHECKING:
    from tracker.store.engine import Store


class NotAPreference(TrackerError):
    """A preference that does not exist, or a value it cannot have."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class Preference:
    """One thing a maker may prefer.

    Attributes:
        name: its name.
        means: what it does, in a sentence.
        words: the values it may have; none when it is free or a length.
        usual: its value until she says otherwise.
    """

    name: str
    means: str
    words: tuple[str, ...]
    usual: str


PREFERENCES: tuple[Preference, ...] = (
    Preference("unit", "A bare number is read in it and lengths are shown in it.",
               ("cm", "inch"), "cm"),
    Preference("test garment", "Your word for a garment sewn to be fitted.",
               ("test garment", "toile", "muslin"), "test garment"),
    Preference("block", "Your word for a pattern without style.", ("block", "sloper"), "block"),
    Preference("seam allowance", "Drawn outside every sewing line on prints; hems have their own.",
               (), ""),
    Preference("paper", "What prints are made on.", ("a4", "letter", "sheet"), "a4"),
    Preference("maker", "Who measures and fits when nobody else is named.", (), ""),
    Preference("studio", "The name of your studio, at the head of reports and prints.", (), ""),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Manner:
    """How this maker wants to be spoken to.

    Attributes:
        unit: her unit.
        test_garment: her word for it.
        block: her word for it.
        allowance_mm: her usual seam allowance in millimetres.
        paper: a4, letter or sheet.
        maker: who does the work, or "".
        studio: the studio's name, or "".
    """

    unit: Unit = Unit.CM
    test_garment: str = "test garment"
    block: str = "block"
    allowance_mm: float = 15.0
    paper: str = "a4"
    maker: str = ""
    studio: str = ""

    def length(self, mm: float) -> str:
        """Write a length in her unit."""
        return write_length(mm, self.unit)

    def change(self, old_mm: float | None, new_mm: float | None, by_mm: float) -> str:
        """Write by how much a length changed in her unit; of what was not there, all of it."""
        if old_mm is None or new_mm is None:
            return f"{'+' if by_mm > 0 else ''}{self.length(by_mm)}"
        return write_change(old_mm, new_mm, self.unit)

    def worded(self, text: str) -> str:
        """Put her words for test garment into a text."""
        return text.replace("test garment", self.test_garment)


def preferences(store: "Store") -> tuple[tuple[Preference, str], ...]:
    """Return every preference with its present value."""
    with store.reading() as books:
        return tuple((p, books.preference(p.name) or p.usual) for p in PREFERENCES)


def manner(store: "Store") -> Manner:
    """Return the preferences as they are used."""
    kept = {p.name: value for p, value in preferences(store)}
    unit = Unit(kept["unit"])
    return Manner(
        unit=unit,
        test_garment=kept["test garment"],
        block=kept["block"],
        allowance_mm=_allowance(kept["seam allowance"], unit),
        paper=kept["paper"],
        maker=kept["maker"],
        studio=kept["studio"],
    )


def _allowance(kept: str, unit: Unit) -> float:
    """Read the kept allowance; until she says otherwise 15 mm, or 5/8 in."""
    return read_length(kept or {Unit.CM: "15 mm", Unit.INCH: "5/8 in"}[unit])


def prefer(store: "Store", name: str, value: str) -> tuple[Preference, str]:
    """Keep a preference; return it with the value as it was understood.

    Raises:
        NotAPreference: no such preference, or not a value of it.
        NotALength: the seam allowance is no length.
    """
    wanted = " ".join(name.replace("-", " ").lower().split())
    known = {p.name: p for p in PREFERENCES}
    if wanted not in known:
        raise NotAPreference(
            f"there is no preference called “{name}”; there are {', '.join(known)}."
            f"{nearest_names(wanted, list(known))}"
        )
    preference = known[wanted]
    text = _value(store, preference, value.strip())
    with store.writing() as books:
        books.set_preference(preference.name, text)
    return preference, text


def _value(store: "Store", preference: Preference, value: str) -> str:
    if preference.name == "seam allowance":
        mm = read_length(value, manner(store).unit)
        return f"{mm:g} mm"  # with its unit: it must not change when the unit does
    words = {"inches": "inch", "in": "inch", "centimetres": "cm"}
    text = words.get(value.lower(), value.lower()) if preference.words else value
    if preference.words and text not in preference.words:
        raise NotAPreference(
            f"{preference.name} may be {' or '.join(preference.words)}, not “{value}”"
        )
    return text
