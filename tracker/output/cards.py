"""Sheets to write on: fitting card, marking-up sheet, measuring sheet."""

from dataclasses import dataclass

from tracker.body.sheet import MeasuringSheet
from tracker.fitting.reading import READING_HELP
from tracker.output.report import page
from tracker.units import Unit, write_angle, write_both, write_length

#: The order of looking at a fitting: what hangs wrong above makes folds below.
ORDER_OF_LOOKING = (
    ("Grain and lines", "which way the grain and the bust, waist and hip lines hang"),
    ("Shoulder and neck", "seam on the shoulder, neckline lying close"),
    ("Bust and back", "dart points, width across, length over the bust and down the back"),
    ("Armhole", "depth, gaping, strain when she reaches"),
    ("Waist", "line level, ease, seams plumb"),
    ("Hips", "ease standing and sitting"),
    ("Hem", "from the floor at front, sides and back"),
    ("Sleeve", "once its armhole is settled: pitch, cap, width, length"),
)


@dataclass(frozen=True, slots=True)
class OpenNote:
    """A note of an earlier fitting that is to be looked at again.

    Attributes:
        place: where.
        words: what was seen, and what was done about it.
        answer: what to ring.
    """

    place: str
    words: str
    answer: str = "settled / came back"


@dataclass(frozen=True, slots=True)
class FittingCard:
    """A card for one fitting, to be written on with a pencil.

    Attributes:
        client_code: the code that stands for the client.
        garment: what is fitted.
        address: the version it was cut from.
        facts: what is known beforehand: a heading and its words; empty words leave a blank.
        cautions: allergies and other cautions.
        again: notes to look at again.
        lines: blank lines under each thing to look at.
        unit: the maker's unit.
        lang: the language of its words.
    """

    client_code: str
    garment: str
    address: str
    facts: tuple[tuple[str, str], ...] = (
        ("Date", ""),
        ("Fitted by", ""),
        ("Worn beneath", ""),
        ("Heels", ""),
        ("Worn", "right side out / inside out"),
    )
    cautions: tuple[str, ...] = ()
    again: tuple[OpenNote, ...] = ()
    lines: int = 2
    unit: Unit = Unit.CM
    lang: str = "en"


@dataclass(frozen=True, slots=True)
class MarkUp:
    """One thing to mark on a paper pattern or a garment.

    Attributes:
        number: from 1.
        piece: the piece.
        where: the edge and how far along it, in words.
        what: what to do there.
        amount_mm: by how much on this piece; none where it is no length.
        reason: the note that asked for it.
    """

    number: int
    piece: str
    where: str
    what: str
    amount_mm: float | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True)
class MarkingUpSheet:
    """What to mark where, for a pattern whose outlines were never drawn.

    Attributes:
        client_code: the code that stands for the client.
        address: the version.
        day: its date in words.
        standing: its standing in words.
        marks: what to mark, in order.
        after: what must be true when all is marked: seams and girths, one sentence each.
        cautions: cautions that apply.
        onto: the version whose pieces are marked.
        unit: the maker's unit.
        lang: the language of its words.
    """

    client_code: str
    address: str
    day: str
    standing: str
    marks: tuple[MarkUp, ...]
    after: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    onto: str = ""
    unit: Unit = Unit.CM
    lang: str = "en"


def fitting_card_html(card: FittingCard) -> str:
    """Return the card as a page to print."""
    return page(
        "fitting-card.html",
        about=card,
        looking=ORDER_OF_LOOKING,
        readings=[(str(kind), words) for kind, words in READING_HELP.items()],
        letter=card.unit is Unit.INCH,
    )


def marking_up_html(sheet: MarkingUpSheet) -> str:
    """Return the sheet as a page to print."""
    marks = [(m, "" if m.amount_mm is None else write_both(abs(m.amount_mm))) for m in sheet.marks]
    return page("marking-up.html", about=sheet, marks=marks, letter=sheet.unit is Unit.INCH)


def measuring_sheet_html(
    sheet: MeasuringSheet,
    client_code: str,
    unit: Unit = Unit.CM,
    *,
    with_last: bool = False,
    lang: str = "en",
) -> str:
    """Return the measuring sheet as a page to print, in tape order.

    Args:
        sheet: what to measure.
        client_code: the code that stands for the client; may be left blank.
        unit: the maker's unit.
        with_last: show what was there last time; a tape is read more honestly without.
        lang: the language of its words.
    """

    def last(value: float | None, degrees: bool) -> str:
        if value is None or not with_last:
            return ""
        return write_angle(value) if degrees else write_length(value, unit)

    lines = [
        {
            "number": line.number,
            "name": line.measurement.name,
            "path": line.measurement.path,
            "unit": "°" if line.measurement.unit == "deg" else ("cm" if unit is Unit.CM else "in"),
            "boxes": [
                ("" if side == "both" else side, last(value, line.measurement.unit == "deg"))
                for side, value in zip(line.boxes, line.last, strict=True)
            ],
        }
        for line in sheet.lines
    ]
    return page(
        "measuring-sheet.html",
        sheet=sheet,
        client_code=client_code,
        lines=lines,
        lang=lang,
        letter=unit is Unit.INCH,
    )
