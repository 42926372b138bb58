"""What each of the five readings comes to for each kind of alteration, counted right.

The amount of a kind is one of a few sorts: out of the garment at a seam, the mouth of a cut, a
width round both body sides, a length, or how far one line moves. For each sort and reading this
says the factor and the words that echo it; ``AMOUNTS`` says which sort each kind's amount is.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from tracker.errors import nearest_names
from tracker.fitting.garment import FittingError
from tracker.fitting.reading import ReadingKind
from tracker.units import write_both


class Sort(StrEnum):
    """What a kind's amount is an amount of."""

    SEAM = "out of the garment at the seam, on each body side it exists on"
    MOUTH = "at the mouth, on each half"
    WHOLE = "of the whole width, both body sides together"
    ROUND = "round each sleeve or leg"
    LENGTH = "of length, the same right across"
    EACH = "off each of the two pieces that meet there"
    LINE = "the line moves by"


class Spot(StrEnum):
    """How often the place exists in the garment."""

    PAIR = "on both body sides"
    ONE_SIDE = "on one body side"
    CENTRE_SEAM = "at a centre seam"
    FOLD = "at a centre on the fold"
    ACROSS = "running across the centre, so that it is a length and alike on both halves"


@dataclass(frozen=True, slots=True)
class AmountOf:
    """A kind's amount.

    Attributes:
        sort: what it is an amount of.
        parameter: the parameter it is given in.
        larger: its value of "to" (or the sign) that makes the garment larger; "" where the
            amount only ever does one thing.
        smaller: the value that makes it smaller.
    """

    sort: Sort
    parameter: str = "by_mm"
    larger: str = ""
    smaller: str = ""


#: Which sort each kind's amount is. A kind not listed takes no reading: it moves names, notches
#: or marks, or is given a measurement and not an alteration.
AMOUNTS: Mapping[str, AmountOf] = {
    "take in a seam": AmountOf(Sort.SEAM, "amounts", "-", "+"),
    "shift a seam": AmountOf(Sort.LINE, "amounts"),
    "reshape an edge": AmountOf(Sort.LINE, "amounts", "-", "+"),
    "slash and spread": AmountOf(Sort.MOUTH, larger="+"),
    "fold out": AmountOf(Sort.MOUTH, smaller="+"),
    "slash across the pieces": AmountOf(Sort.MOUTH, "first_mm", "+", "-"),
    "close a gap into a dart": AmountOf(Sort.MOUTH, smaller="+"),
    "add a dart": AmountOf(Sort.MOUTH, "width_mm", smaller="+"),
    "change a dart": AmountOf(Sort.MOUTH, "deeper_mm", "-", "+"),
    "move a dart": AmountOf(Sort.LINE),
    "lengthen or shorten": AmountOf(Sort.LENGTH, larger="+", smaller="-"),
    "raise or lower an edge": AmountOf(Sort.LINE, larger="lower", smaller="raise"),
    "move a corner": AmountOf(Sort.LINE, "along_mm", "+", "-"),
    "change the shoulder slope": AmountOf(Sort.EACH, larger="square", smaller="sloping"),
    "change the shoulder length": AmountOf(Sort.LINE, larger="longer", smaller="shorter"),
    "change the width across": AmountOf(Sort.WHOLE, larger="wider", smaller="narrower"),
    "change the neckline": AmountOf(Sort.WHOLE, larger="looser", smaller="tighter"),
    "more or less bust volume": AmountOf(Sort.WHOLE, larger="+", smaller="-"),
    "taper or widen": AmountOf(Sort.WHOLE, larger="widen", smaller="taper"),
    "change the upper arm": AmountOf(Sort.ROUND, larger="fuller", smaller="narrower"),
    "raise or lower the cap": AmountOf(Sort.LENGTH, larger="raise", smaller="lower"),
    "raise or lower the armhole": AmountOf(Sort.LINE, larger="lower", smaller="raise"),
    "swing the leg": AmountOf(Sort.LINE),
    "shape the leg": AmountOf(Sort.ROUND, "hem_mm", "+", "-"),
    "turn the sleeve": AmountOf(Sort.LINE),
    "change the crotch depth": AmountOf(Sort.LENGTH, larger="+", smaller="-"),
    "change the crotch length": AmountOf(Sort.LENGTH, "back_mm", "+", "-"),
    "scoop or fill the crotch": AmountOf(Sort.LINE, larger="scoop", smaller="fill"),
    "move the inside-leg point": AmountOf(Sort.LINE, "back_mm", "+", "-"),
    "plan the ease": AmountOf(Sort.WHOLE, "ease_mm", "+", "-"),
}


@dataclass(frozen=True, slots=True)
class Counted:
    """A reading counted for a kind.

    Attributes:
        amount_mm: the kind's amount; positive makes the garment smaller (shorter, lower), as a
            pinned fold does, negative larger.
        echo: how it was understood, in words.
    """

    amount_mm: float
    echo: str


#: (factor on one spot, words), by sort and reading; the sign is + where cloth comes out.
_FACTORS: Mapping[Sort, Mapping[ReadingKind, tuple[float, str]]] = {
    Sort.SEAM: {
        ReadingKind.PINNED_FOLD: (2.0, "a fold takes up twice its depth"),
        ReadingKind.GAP: (-1.0, "the gap goes in, counted once"),
        ReadingKind.CHALK_LINE: (1.0, "on one layer, so all of it from that piece"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "of the whole line"),
        ReadingKind.ON_PAPER: (1.0, "that edge moves by it"),
    },
    Sort.MOUTH: {
        ReadingKind.PINNED_FOLD: (2.0, "a fold takes up twice its depth"),
        ReadingKind.GAP: (-1.0, "the gap goes in, counted once"),
        ReadingKind.CHALK_LINE: (2.0, "a line beside each edge of the fold, so twice that"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "of the whole line"),
        ReadingKind.ON_PAPER: (1.0, "the paper is opened or closed by it"),
    },
    Sort.WHOLE: {
        ReadingKind.PINNED_FOLD: (2.0, "a fold takes up twice its depth"),
        ReadingKind.GAP: (-1.0, "the gap goes in, counted once"),
        ReadingKind.CHALK_LINE: (1.0, "that edge moves by it"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "of the whole line, taken as it is"),
        ReadingKind.ON_PAPER: (1.0, "that edge moves by it"),
    },
    Sort.ROUND: {
        ReadingKind.PINNED_FOLD: (2.0, "a fold takes up twice its depth"),
        ReadingKind.GAP: (-1.0, "the gap goes in, counted once"),
        ReadingKind.CHALK_LINE: (1.0, "on one layer, so that edge moves by it"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "of the whole round, taken as it is"),
        ReadingKind.ON_PAPER: (1.0, "that edge moves by it"),
    },
    Sort.LENGTH: {
        ReadingKind.PINNED_FOLD: (2.0, "a fold right across takes up twice its depth"),
        ReadingKind.GAP: (-1.0, "the gap of the slash goes in, counted once"),
        ReadingKind.CHALK_LINE: (1.0, "a line that far from the edge or from another line"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "of the whole length"),
        ReadingKind.ON_PAPER: (1.0, "every piece is that much longer or shorter"),
    },
    Sort.EACH: {
        ReadingKind.PINNED_FOLD: (1.0, "a fold takes its depth off each of the two pieces"),
        ReadingKind.GAP: (-0.5, "the gap goes in, half on each of the two pieces"),
        ReadingKind.CHALK_LINE: (1.0, "the line is on one layer; both pieces are altered alike"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "the shoulder point is that much too high, or low"),
        ReadingKind.ON_PAPER: (1.0, "both pieces are altered alike"),
    },
    Sort.LINE: {
        ReadingKind.PINNED_FOLD: (2.0, "a tuck takes up twice its depth"),
        ReadingKind.CHALK_LINE: (1.0, "the line moves to the chalk"),
        ReadingKind.TAPE_DIFFERENCE: (1.0, "of that length"),
        ReadingKind.ON_PAPER: (1.0, "the line moves by it"),
    },
}


def read_for(
    kind: str, reading: ReadingKind, value_mm: float, spot: Spot, sort: Sort | None = None
) -> Counted:
    """Count one reading for a kind of alteration.

    Args:
        kind: its word.
        reading: how it was read.
        value_mm: as read.
        spot: how often the place exists in the garment.
        sort: what the amount is of, where it is not the kind's usual one.

    Raises:
        FittingError: the reading makes no sense for that kind; the sentence says which do.
    """
    if kind not in AMOUNTS:
        raise FittingError(
            f"“{kind}” is not altered by an amount read on the body."
            f"{nearest_names(kind, list(AMOUNTS))}"
        )
    sort = sort or AMOUNTS[kind].sort
    ways = _FACTORS[sort]
    if reading not in ways:
        raise FittingError(
            f"a {reading} says nothing for “{kind}”; read it as {', '.join(map(str, ways))}"
        )
    factor, words = ways[reading]
    times, how = _times(sort, reading, spot)
    amount = value_mm * factor * times + 0.0
    echo = f"{reading} {write_both(abs(value_mm))}: {words}{how}"
    return Counted(amount, f"{echo}: {write_both(abs(amount))} {sort}")


def _times(sort: Sort, reading: ReadingKind, spot: Spot) -> tuple[float, str]:
    """How often one reading counts, for what is read of it and how often the place exists."""
    one_line = reading in (ReadingKind.CHALK_LINE, ReadingKind.ON_PAPER)
    if spot is Spot.ACROSS or sort in (Sort.LENGTH, Sort.EACH, Sort.LINE, Sort.ROUND):
        return 1.0, ""
    if reading is ReadingKind.TAPE_DIFFERENCE:
        once = spot is Spot.ONE_SIDE or (sort is Sort.SEAM and spot is Spot.CENTRE_SEAM)
        if sort is Sort.WHOLE or once:
            return 1.0, ""
        return (0.5, ", half of it on each body side") if spot is Spot.PAIR else _HALVED
    if sort is Sort.SEAM:
        if spot in (Spot.CENTRE_SEAM, Spot.FOLD) and one_line:
            return 2.0, ", and it is on both halves, so twice that"
        return 1.0, ""
    if sort is Sort.MOUTH:
        if spot in (Spot.CENTRE_SEAM, Spot.FOLD) and not one_line:
            return _HALVED
        return 1.0, ""
    if spot is Spot.PAIR:
        return 2.0, ", on each body side"
    if spot in (Spot.CENTRE_SEAM, Spot.FOLD) and one_line:
        return 2.0, ", and it is on both halves, so twice that"
    return 1.0, ""


_HALVED = (0.5, ", which exists once: half of it on each half")
