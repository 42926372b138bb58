"""A note's words and amounts as they were typed, turned into an observation."""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tracker.cli.typed import TypedOtherwise, read_amount, read_side
from tracker.errors import TrackerError
from tracker.fitting.observation import (
    Cause,
    Observation,
    Sign,
    Strength,
    heard_sign,
    read_sign,
    read_word,
)
from tracker.fitting.reading import Reading, ReadingKind
from tracker.fitting.signs import row_seen
from tracker.tasks.named import fresh_id

if TYPE_CHECKING:
    from tracker.tasks.preferences import Manner


#: How a whole line is said.
_WHOLE = ("all round", "all around", "right round", "round", "throughout")
_ABOVE_OR_BELOW = re.compile(
    r"(?P<amount>.+?) at (?P<distance>.+?) (?P<way>above|below) (?:the )?(?P<line>.+)"
)


def note_from(
    typed: Mapping[str, list[str] | None],
    how: "Manner",
    *,
    seam: str | None,
    piece: str | None,
    edge: str | None,
    side: str,
    sign: str,
    strength: str,
    direction: str,
    words: str,
    said: str,
    cause: str,
) -> Observation:
    """Return a note as it was typed; its fitting and number are filled in when it is kept.

    Raises:
        TrackerError: a word or an amount that is none.
    """
    if seam and (piece or edge):
        raise TypedOtherwise("a note is at a seam or at a piece; name the one or the other")
    readings = tuple(
        _reading(ReadingKind(kind), text, how, at_piece=seam is None, piece=piece, edge=edge)
        for kind, texts in typed.items()
        for text in texts or ()
    )
    seen, rest = _seen(sign)
    return Observation(
        observation_id=fresh_id(),
        fitting_id="",
        number=0,
        sign=seen,
        seam=seam,
        piece=piece,
        edge=edge,
        side=read_side(side),
        strength=read_word(Strength, strength, "strength"),
        direction=" ".join(filter(None, (rest, direction))),
        readings=readings,
        fitter_words=words,
        client_words=said,
        cause=read_word(Cause, cause, "cause"),
    )


def _seen(text: str) -> tuple[Sign, str]:
    """Read what is seen, in a sign's words or in those of the table of signs."""
    row = row_seen(text)
    if row:
        return row.signs[0], row.seen
    try:
        return heard_sign(text)
    except TrackerError as fault:
        told = f"{fault.sentence} What “tracker fitting signs” shows as seen is understood too."
        raise TrackerError(told) from fault


def _reading(
    kind: ReadingKind,
    text: str,
    how: "Manner",
    *,
    at_piece: bool,
    piece: str | None,
    edge: str | None,
) -> Reading:
    """Read one amount; at a piece “on …” names an edge of it, all round the piece.

    “All round” is all along the seam or the edge; “above” and “below” are from a line.
    """
    plain = " ".join(text.split())
    whole = next((w for w in _WHOLE if plain.endswith(f" {w}")), None)
    if whole:
        plain = f"{plain.removesuffix(whole)}all along"
    apart = _ABOVE_OR_BELOW.fullmatch(plain)
    if apart:
        plain = f"{apart['amount']} at {apart['distance']} from {apart['line']}"
    spoken = read_amount(plain, how, allow_negative=True)
    if not spoken.corner and kind is not ReadingKind.FROM_FLOOR and piece and not edge:
        raise TypedOtherwise(
            f"“{text}” names no place; write it like “5mm at side waist”, or name the edge it is "
            "all along with --edge"
        )
    names_edge = at_piece and piece is not None
    return Reading(
        kind=kind,
        corner=spoken.corner,
        value_mm=spoken.amount_mm,
        distance_mm=spoken.distance_mm * (-1 if apart and apart["way"] == "below" else 1),
        piece=None if names_edge else spoken.piece,
        edge=spoken.piece if names_edge else None,
    )


def changed(
    sign: str | None,
    strength: str | None,
    direction: str | None,
    words: str | None,
    said: str | None,
    cause: str | None,
) -> Callable[[Observation], Observation]:
    """Return what turns a note into the one that was meant.

    Raises:
        TrackerError: nothing is to be changed, or a word is none.
    """
    new: dict[str, Any] = {
        "sign": read_sign(sign) if sign is not None else None,
        "strength": read_word(Strength, strength, "strength") if strength is not None else None,
        "direction": direction,
        "fitter_words": words,
        "client_words": said,
        "cause": read_word(Cause, cause, "cause") if cause is not None else None,
    }
    given = {name: value for name, value in new.items() if value is not None}
    if not given:
        raise TypedOtherwise("what is to be changed? Say it with --words, --sign, --cause …")
    return lambda note: replace(note, **given)
