"""Amounts of any alteration said as they were read: “pinned 4mm”, “gap 8mm at side waist”."""

from collections.abc import Callable, Sequence

from tracker.fitting.counting import AMOUNTS, AmountOf, Spot, read_for
from tracker.fitting.reading import ReadingKind
from tracker.tasks.kind_written import length_words
from tracker.tasks.typed_kind import NotSaid, typed_name

#: How a reading is begun when it is typed.
_BEGUN = {
    "pinned": ReadingKind.PINNED_FOLD, "fold": ReadingKind.PINNED_FOLD, "gap": ReadingKind.GAP,
    "chalk": ReadingKind.CHALK_LINE, "tape": ReadingKind.TAPE_DIFFERENCE,
    "paper": ReadingKind.ON_PAPER,
}  # fmt: skip
#: Where it was read, when it was not on both body sides.
_AT_CENTRE = " at the centre"
_SIGNS = ("+", "-")

Pairs = Sequence[tuple[str, str]]


def counted(
    word: str, given: Pairs, length: Callable[[str], float]
) -> tuple[list[tuple[str, str]], list[str]]:
    """Turn amounts read on the body into a kind's own, and say how each was understood.

    Args:
        word: the kind's word.
        given: each parameter's name and what was typed.
        length: how a length is read, in mm.

    Returns:
        The parameters with their amounts counted, and the echoes.

    Raises:
        TrackerError: the reading says nothing for that kind, or goes the other way.
    """
    amount = AMOUNTS.get(word)
    if amount is None:
        return list(given), []
    side = next((text for name, text in given if name == "side"), "both")
    to = next((text for name, text in given if name == "to"), None)
    plain, echoes = list[tuple[str, str]](), list[str]()
    for name, text in given:
        reading = _BEGUN.get(text.partition(" ")[0].lower())
        if reading is None or name != typed_name(amount.parameter):
            plain.append((name, text))
            continue
        value, place, spot = _read(text, side)
        found = read_for(word, reading, length(value), spot)
        mm, way = _signed(word, amount, found.amount_mm)
        if way and to not in (None, way):
            raise NotSaid(
                f"{text} means {way} for “{word}”, and to={to} was said; leave the one or the other"
            )
        if way and to is None:
            plain.append(("to", way))
            to = way
        plain.append((name, f"{length_words(mm)}{place}"))
        echoes.append(found.echo)
    return plain, echoes


def _read(text: str, side: str) -> tuple[str, str, Spot]:
    """Return the length, the place after it, and how often it exists."""
    rest = text.partition(" ")[2].strip()
    spot = Spot.ONE_SIDE if side in ("right", "left") else Spot.PAIR
    if rest.endswith(_AT_CENTRE):
        return rest.removesuffix(_AT_CENTRE), "", Spot.CENTRE_SEAM
    value, at, place = rest.partition(" at ")
    if at and place.startswith("centre"):
        spot = Spot.CENTRE_SEAM
    return value, f" at {place}" if at else "", spot


def _signed(word: str, amount: AmountOf, out_mm: float) -> tuple[float, str]:
    """Return the kind's own amount, and its “to” where it has one."""
    words = {amount.larger, amount.smaller} - {"", *_SIGNS}
    if words:
        return abs(out_mm), amount.smaller if out_mm > 0 else amount.larger
    if (amount.larger, amount.smaller) in (("+", "-"), ("+", "")):
        out_mm = -out_mm
    only = not (amount.larger and amount.smaller) and (amount.larger or amount.smaller)
    if only and out_mm < 0:
        other = "takes it out" if amount.smaller else "lets it in"
        raise NotSaid(f"“{word}” {other}, and this was read the other way")
    return out_mm, ""
