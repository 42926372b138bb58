"""The measuring sheet: what to measure, in the order in which the tape goes round.

Plain values; how the sheet looks is settled elsewhere.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.body.body import Body
from tracker.body.card import Card
from tracker.body.measurement import BodySide, Measurement, Purpose
from tracker.body.vocabulary import VOCABULARY, measurement

BEFORE_YOU_START: tuple[str, ...] = (
    "Measure over the underwear and in the shoes that will be worn with the garment; write both "
    "down.",
    "She stands as she always stands, arms hanging, breathing quietly, looking straight ahead.",
    "Tie a narrow tape round the waist and let it settle; lay a fine chain round the neck base.",
    "Mark both shoulder points, both side lines and the underarm level before the first reading.",
    "Lay the tape flat and close; it should neither dent nor droop.",
    "Take bust, waist and hip twice, lifting the tape off in between, and everything else twice "
    "where the block depends on it.",
    "Measure again after half a year, or sooner when her weight has changed.",
)

CAUTIONS: tuple[str, ...] = (
    "Ask before you touch, say what comes next, and stop when she says so; she may bring someone.",
    "Count pins in and out, keep them out of your mouth, and point them away from the body.",
    "Ask about latex (elastic, tape backing), metal and wool before anything touches her skin.",
    "Let her sit down if she is faint, pregnant or unsteady; keep tape and cord off wounds, ports "
    "and braces, and leave medical questions to those licensed to answer them.",
    "Measurements and photos are personal data: write down what she agreed to and when, and follow "
    "the law where you work.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """One line of the sheet.

    Args:
        number: running number on this sheet.
        measurement: the vocabulary's entry: name, path, unit.
        boxes: the sides to fill in: ("both",) or ("right", "left").
        last: what was there last time in each box, mm or degrees; None where nothing was.
    """

    number: int
    measurement: Measurement
    boxes: tuple[BodySide, ...]
    last: tuple[float | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuringSheet:
    """A sheet ready to be laid out.

    Args:
        purposes: the blocks it is for.
        before_you_start: how to prepare.
        cautions: what can hurt; those of the client's card come first.
        posture: what to look for and what was seen last time, in words.
        lines: the measurements in tape order.
    """

    purposes: tuple[Purpose, ...]
    before_you_start: tuple[str, ...]
    cautions: tuple[str, ...]
    posture: tuple[str, ...]
    lines: tuple[SheetLine, ...]


def measuring_sheet(
    purposes: Iterable[Purpose] = ("bodice",),
    *,
    only: Iterable[str] = (),
    last: Body | None = None,
    card: Card | None = None,
) -> MeasuringSheet:
    """Return the sheet for some blocks, in tape order.

    Args:
        purposes: the blocks to be drafted.
        only: keep to these measurements (keys or names), if any are given.
        last: her last body, shown beside each box.
        card: her card, for its cautions and posture.

    Raises:
        UnknownMeasurement: no measurement has a name in ``only``.
    """
    blocks = tuple(purposes)
    kept = {measurement(name).key for name in only}
    wanted = [
        entry
        for entry in VOCABULARY
        if (entry.key in kept if kept else any(block in entry.purposes for block in blocks))
    ]
    lines = []
    for number, entry in enumerate(wanted, start=1):
        boxes: tuple[BodySide, ...] = ("right", "left") if entry.sided else ("both",)
        before = tuple(last.get(entry.key, side) if last else None for side in boxes)
        lines.append(SheetLine(number=number, measurement=entry, boxes=boxes, last=before))
    return MeasuringSheet(
        purposes=blocks,
        before_you_start=BEFORE_YOU_START,
        cautions=(*(card.cautions() if card else ()), *CAUTIONS),
        posture=tuple(one.words for one in card.posture) if card else (),
        lines=tuple(lines),
    )
