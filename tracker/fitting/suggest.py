"""From a sign to its likely causes, and from a cause and an amount to an alteration."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.errors import TrackerError, nearest_names
from tracker.fitting.causes import CAUSES
from tracker.fitting.counting import AMOUNTS, Counted, Spot, read_for
from tracker.fitting.garment import FittingError
from tracker.fitting.looking import Stage, stage_of
from tracker.fitting.observation import Observation, Sign, signs_said
from tracker.fitting.reading import ON_ONE_LAYER, Reading
from tracker.fitting.remedy import Cause, Remedy
from tracker.fitting.scene import Scene, garment_of
from tracker.fitting.signs import ROWS, Row
from tracker.fitting.where import regions
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern

#: Kinds that make an opening in the cloth larger or smaller.
_OPENINGS = ("raise or lower the armhole",)
#: A reading this far from a corner is not read near it.
_NEAR_MM = 60.0


@dataclass(frozen=True)
class Suggestion:
    """A likely cause of what a note says, with what would be done about it here.

    Attributes:
        cause: the cause.
        row: the row of the table it comes from.
        remedy: the first of its remedies that the pattern has a place for; none where none has.
        why_not: why no remedy has a place here.
    """

    cause: Cause
    row: Row
    remedy: Remedy | None
    why_not: str = ""


def likely(pattern: Pattern, note: Observation, *, drawn: bool = False) -> tuple[Suggestion, ...]:
    """Return the likely causes of what is seen, likeliest first.

    With ``drawn`` each remedy is drawn by a usual amount, and one that cannot be says so.

    A row whose words stand in the note comes before one that only fits its sign and place, one
    with more of them before one with fewer. In one row the order is the table's. A note that
    says no sign is answered by its words.
    """
    garment = garment_of(pattern)
    over_the_hips = any(e.name in ("hip", "hem") for p in pattern.pieces for e in p.edges)
    found = _rows(pattern, note, {note.sign}, over_the_hips=over_the_hips)
    unsaid = note.sign is Sign.OTHER or (
        note.sign is Sign.OFF_PLACE and not any(rank == 0 for rank, *_ in found)
    )
    if unsaid:
        told = f"{note.direction} {note.fitter_words} {note.client_words}"
        signs = {note.sign, *signs_said(told)}
        found = _rows(pattern, note, signs, over_the_hips=over_the_hips)
    if any(rank == 0 for rank, *_ in found):
        found = [f for f in found if f[0] < 2]  # rows of other words were not meant
    seen: dict[str, Suggestion] = {}
    for *_, row in sorted(found, key=lambda f: f[:3]):
        for name in row.causes:
            cause = CAUSES[name]
            meant = {garment, "skirt"} if over_the_hips else {garment}
            if name in seen or (cause.of and not meant & set(cause.of)):
                continue
            remedy, why_not = placed(pattern, note, cause, drawn=drawn)
            refused = drawn and placed(pattern, note, cause)[0] is not None
            if remedy is not None or cause.by_hand or refused:
                seen[name] = Suggestion(cause, row, remedy, why_not)
    return tuple(seen.values())


def _rows(
    pattern: Pattern, note: Observation, signs: set[Sign], *, over_the_hips: bool
) -> list[tuple[int, int, int, Row]]:
    """The rows of the table that fit a note's place and signs, with how well they do."""
    place, garment = regions(pattern, note), garment_of(pattern)
    found: list[tuple[int, int, int, Row]] = []
    for number, row in enumerate(ROWS):
        said = said_so(row, note)
        # What reaches over the hips is a skirt there too, when the words say so.
        of = {garment, "skirt"} if said and over_the_hips else {garment}
        if not place & set(row.at) or (row.of and not of & set(row.of)):
            continue
        if not signs & set(row.signs) and not (signs == {Sign.OTHER} and said):
            continue
        rank = 0 if said else 1 if not row.words else 2
        found.append((rank, -said, number, row))
    return found


def said_so(row: Row, note: Observation) -> int:
    """Return how many of a row's words stand in a note, or in the corners it was read near."""
    told = f"{note.direction} {note.fitter_words} {note.client_words}".lower()
    if row.seen in told:
        return len(row.words) + 1
    near = [r for r in note.readings if r.value_mm and abs(r.distance_mm) < _NEAR_MM]
    told += "".join(f" {r.corner}" for r in near)
    return sum(bool(re.search(rf"\b{re.escape(word)}", told)) for word in row.words)


def placed(
    pattern: Pattern, note: Observation, cause: Cause, *, drawn: bool = False
) -> tuple[Remedy | None, str]:
    """Return the first remedy that a pattern has a place for, or why none has."""
    why_not = ""
    for remedy in cause.remedies:
        try:
            new = pattern
            for step in remedy.steps:
                kind = step.made(Scene(new, note, pattern), cause.trial_mm)
                if kind is not None:
                    kind.sentence(new)
                    new = apply_step(kind, new, "try").pattern if drawn else new
        except TrackerError as fault:
            why_not = why_not or fault.sentence
            continue
        return remedy, ""
    return None, why_not


def cause_named(said: str, among: Iterable[Suggestion] = ()) -> Cause:
    """Return a cause by its name, or by its number in a list of suggestions.

    Raises:
        FittingError: there is none; the nearest are named.
    """
    listed = tuple(among)
    plain = " ".join(said.lower().split())
    if plain.isdigit() and 1 <= int(plain) <= len(listed):
        return listed[int(plain) - 1].cause
    if plain in CAUSES:
        return CAUSES[plain]
    known = [s.cause.name for s in listed] or list(CAUSES)
    raise FittingError(
        f"“{said}” is no cause this program knows; "
        + (f"likely here: {', '.join(known)}." if listed else "see tracker fitting signs.")
        + nearest_names(plain, list(CAUSES))
    )


@dataclass(frozen=True)
class Chosen:
    """A remedy with its amount.

    Attributes:
        kinds: the alterations, in order; each is made for the pattern the one before leaves.
        echo: how the amount was understood.
        cause: the cause it answers.
    """

    kinds: tuple[Kind, ...]
    echo: str
    cause: Cause


def chosen(
    pattern: Pattern, note: Observation, cause: Cause, amount_mm: float | None = None
) -> Chosen:
    """Return a cause's remedy for a note, with its amount as given or as read.

    Args:
        pattern: the pattern.
        note: the note.
        cause: what was decided to be its cause.
        amount_mm: the amount that is asked for; without it the note's largest reading is counted.

    Raises:
        FittingError: no remedy has a place here, or there is no amount.
        TrackerError: it cannot be done.
    """
    remedy, why_not = placed(pattern, note, cause)
    if remedy is None:
        raise FittingError(
            f"{cause.name}: {why_not or cause.by_hand or 'nothing is altered for it'}"
        )
    echo = ""
    if amount_mm is None:
        counted = counted_for(pattern, note, remedy)
        if counted is None:
            usual = _usual(cause)
            raise FittingError(
                f"{cause.name} wants an amount: {remedy.asks}{usual}; give it with --by"
            )
        amount_mm, echo = abs(counted.amount_mm), counted.echo
        larger = counted.amount_mm < 0
        if remedy.kind in _OPENINGS and all(r.kind in ON_ONE_LAYER for r in note.readings):
            larger = not larger  # a line inside the cloth makes what is open there larger
        if remedy.larger is not None and larger != remedy.larger:
            raise FittingError(
                f"the reading {'takes cloth out' if remedy.larger else 'lets cloth in'}, and "
                f"{cause.name} asks for the opposite ({remedy.words}); give the amount with --by "
                "if it is meant so"
            )
    if amount_mm <= 0:
        raise FittingError(f"by how much? More than nothing: {remedy.asks}")
    made: list[Kind] = []
    drawn = pattern
    for step in remedy.steps:
        kind = step.made(Scene(drawn, note, pattern), amount_mm)
        if kind is None:
            continue
        made.append(kind)
        if step is not remedy.steps[-1]:
            drawn = apply_step(kind, drawn, "try").pattern
    return Chosen(tuple(made), echo, cause)


def _usual(cause: Cause) -> str:
    if cause.usual_mm is None:
        return ""
    low, high = cause.usual_mm
    return f" ({low:.0f} to {high:.0f} mm is usual, {cause.usual_from})"


def counted_for(pattern: Pattern, note: Observation, remedy: Remedy) -> Counted | None:
    """Count a note's largest reading for a remedy; nothing where there is none."""
    readings = [r for r in note.readings if r.value_mm]
    if not readings or remedy.kind not in AMOUNTS:
        return None
    largest = max(readings, key=lambda r: abs(r.value_mm))
    spot = spot_of(pattern, note, largest)
    return read_for(remedy.kind, largest.kind, largest.value_mm, spot, remedy.sort)


def spot_of(pattern: Pattern, note: Observation, reading: Reading) -> Spot:
    """Return how often the place of a reading exists in the garment."""
    if note.side in (BodySide.RIGHT, BodySide.LEFT):
        return Spot.ONE_SIDE
    if note.seam is not None:
        seam = pattern.seam(note.seam, note.side)
        return Spot.CENTRE_SEAM if seam.side is BodySide.CENTRE else Spot.PAIR
    edge = reading.edge or note.edge or ""
    if edge.startswith("centre") or (not edge and reading.corner.startswith("centre")):
        if note.edge == edge and note.edge:
            piece = next((p for p in pattern.pieces if p.name == note.piece), None)
            folded = piece is not None and piece.fold == edge
            return Spot.FOLD if folded else Spot.CENTRE_SEAM
        return Spot.ACROSS
    if reading.corner.startswith("centre") and not reading.distance_mm:
        return Spot.CENTRE_SEAM  # pinned once, at the centre of the garment
    return Spot.PAIR


def in_order(pattern: Pattern, notes: Iterable[Observation]) -> tuple[Observation, ...]:
    """Return notes in the order of looking."""
    from tracker.fitting.looking import looked_at

    return tuple(sorted(notes, key=lambda n: looked_at(n, pattern)))


def grouped(
    notes: Iterable[Observation], patterns: Mapping[str, Pattern] | None = None
) -> tuple[tuple[Stage, tuple[Observation, ...]], ...]:
    """Return notes by stage, in the order of looking."""
    from tracker.fitting.looking import looked_at

    known = patterns or {}
    by_stage: dict[Stage, list[Observation]] = {}
    for note in notes:
        by_stage.setdefault(stage_of(note, known.get(note.observation_id)), []).append(note)
    return tuple(
        (stage, tuple(sorted(some, key=lambda n: looked_at(n, known.get(n.observation_id)))))
        for stage, some in sorted(by_stage.items())
    )
