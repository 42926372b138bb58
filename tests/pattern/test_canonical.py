"""Format 1: written the same way for ever, read back whole, and refused when damaged."""

import copy
import json
import math
import re
from pathlib import Path
from typing import Any

import pytest
import wardrobe
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import (
    canonical,
    digest_of,
    number,
    pattern_digest,
    pattern_from,
    pattern_record,
    piece_digest,
    settled,
)
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

JUNK: tuple[Any, ...] = (
    None, True, -1, 3, 1.5, math.nan, math.inf, "", "x", [], [1.0], {}, {"a": 1},
)  # fmt: skip

RECORDS = Path(__file__).parent / "records"

#: Written once by the first program that had the format; neither file nor digest is edited.
FROZEN = [
    ("bodice.1.json", "5087341698c1f997b103efbf8f96220654c84eb642b2ab1e110ab5063b70f8aa"),
    ("altered_bodice.1.json", "08f6eed4ee560cbb126f7041195f9825d904f68f75a32f5bb7da76800d020715"),
    ("bought_bodice.1.json", "6b409f08ad4fb6bed5b9d982693bba3e9563c04679fcbf91dbf9d81e4232af49"),
]


@pytest.mark.parametrize(("name", "digest"), FROZEN)
def test_a_frozen_record_reads_and_has_the_digest_it_had(name: str, digest: str) -> None:
    text = (RECORDS / name).read_text(encoding="utf-8").rstrip("\n")
    pattern = pattern_from(json.loads(text))
    assert pattern_digest(pattern) == digest
    assert canonical(pattern_record(pattern)) == text


def test_every_frozen_record_is_read_by_a_test() -> None:
    assert {p.name for p in RECORDS.iterdir()} == {name for name, _ in FROZEN}


def test_a_frozen_record_holds_every_kind_of_thing_the_format_has() -> None:
    held = json.loads((RECORDS / "altered_bodice.1.json").read_text(encoding="utf-8"))
    keys: set[str] = set()

    def gather(node: Any) -> None:
        if isinstance(node, dict):
            keys.update(node)
            for value in node.values():
                gather(value)
        elif isinstance(node, list):
            for value in node:
                gather(value)

    gather(held)
    gather(json.loads((RECORDS / "bought_bodice.1.json").read_text(encoding="utf-8")))
    assert keys >= {
        "format", "pieces", "seams", "ease", "edges", "parts", "mouths", "bases", "displacements",
        "step", "profile", "declared", "darts", "legs", "stand_back", "pressed", "mouth",
        "notches", "levels", "strokes", "marks", "grain", "fold", "taken_from", "layer", "copies",
        "cut", "first", "second", "matches", "backward", "start", "end", "amount",
    }  # fmt: skip


@pytest.mark.parametrize("pattern", [wardrobe.bodice(), settled(wardrobe.paper())])
def test_a_pattern_reads_back_as_it_was_written(pattern: Pattern) -> None:
    back = pattern_from(json.loads(canonical(pattern_record(pattern))))
    assert back == pattern
    assert pattern_digest(back) == pattern_digest(pattern)


def test_settling_twice_is_settling_once(bodice: Pattern) -> None:
    assert settled(bodice) == bodice
    unsettled = Pattern((wardrobe.front(), wardrobe.back()))
    assert settled(settled(unsettled)) == settled(unsettled)
    assert pattern_digest(settled(unsettled)) == pattern_digest(unsettled)


@given(
    x=st.floats(-1e4, 1e4), y=st.floats(-1e4, 1e4), u=st.floats(-1e4, 1e4), v=st.floats(-1e4, 1e4)
)
def test_any_coordinates_round_to_the_same_text_for_ever(
    x: float, y: float, u: float, v: float
) -> None:
    edge = Edge("edge", BodySide.BOTH, "one", "two", (Curve.line(complex(x, y), complex(u, v)),))
    once = settled(Pattern((Piece("patch", BodySide.BOTH, (edge,)),)))
    text = canonical(pattern_record(once))
    assert re.search(r"-0\.0(?!\d)", text) is None
    again = pattern_from(json.loads(text))
    assert canonical(pattern_record(again)) == text
    assert again == once
    assert abs(again.pieces[0].edges[0].parts[0].start - complex(x, y)) <= 1e-6


@pytest.mark.parametrize("value", [-0.0, -1e-9, -4e-7])
def test_minus_nothing_is_kept_as_nothing(value: float) -> None:
    assert math.copysign(1.0, number(value)) == 1.0
    edge = Edge("edge", BodySide.BOTH, "one", "two", (Curve.line(complex(value, value), 5 + 5j),))
    record = canonical(pattern_record(Pattern((Piece("patch", BodySide.BOTH, (edge,)),))))
    assert "-0.0" not in record


def test_the_digest_follows_every_figure_and_name(bodice: Pattern) -> None:
    record = pattern_record(bodice)
    whole = pattern_digest(bodice)

    def changed(change: Any) -> str:
        other = copy.deepcopy(record)
        change(other)
        return pattern_digest(pattern_from(other))

    def nudge(r: Any) -> None:
        r["pieces"][0]["edges"][1]["parts"][0]["to"][0][2] += 1e-6

    digests = {
        whole,
        changed(nudge),
        changed(lambda r: r["pieces"][1].update(copies=4)),
        changed(lambda r: r["seams"][1]["ease"][0].update(amount=5.5)),
        changed(lambda r: r["ease"].update({"bust line": 51.0})),
        changed(lambda r: r["pieces"][0]["notches"][0].update(count=2)),
    }
    assert len(digests) == 6
    assert piece_digest(bodice.pieces[0]) == digest_of(record["pieces"][0])


def test_order_of_writing_makes_no_difference_to_the_text() -> None:
    assert canonical({"b": 1, "a": [1.5, "é"]}) == '{"a":[1.5,"é"],"b":1}'
    assert digest_of({"b": 1, "a": 2}) == digest_of({"a": 2, "b": 1})
    # SHA-256 of the two bytes "{}": a figure any other tool gives too.
    assert digest_of({}) == "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"


def test_a_record_of_a_newer_format_is_refused_in_a_sentence(bodice: Pattern) -> None:
    with pytest.raises(PatternError, match="format 2 and this program reads format 1"):
        pattern_from(pattern_record(bodice) | {"format": 2})


@pytest.mark.parametrize("record", [{}, [], None, "pattern", {"pieces": []}])
def test_what_is_no_pattern_is_refused_in_a_sentence(record: Any) -> None:
    with pytest.raises(PatternError, match="no pattern"):
        pattern_from(record)


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (lambda r: r["pieces"][0].pop("name"), "'name' is missing"),
        (lambda r: r["pieces"][0]["edges"][0]["parts"][0]["to"].clear(), "one run at least"),
        (lambda r: r["pieces"][0]["edges"][0]["parts"][0]["to"][0].pop(), "2 or 6 numbers"),
        (lambda r: r["pieces"][0]["edges"][4]["mouths"].clear(), "do not tally"),
        (lambda r: r["pieces"][0].update(side="starboard"), "starboard"),
        (lambda r: r["pieces"][0]["marks"][0].update(at=[1.0, math.nan]), "nan where a number"),
        (lambda r: r["pieces"][0]["darts"][0].update(stand_back="25"), "'25' where a number"),
        (lambda r: r.update(ease=[]), "items"),
        (lambda r: r.update(pieces=7), "not iterable"),
    ],
)
def test_a_damaged_record_is_refused_in_a_sentence_that_says_what_is_wrong(
    bodice: Pattern, spoil: Any, words: str
) -> None:
    record = copy.deepcopy(pattern_record(bodice))
    spoil(record)
    with pytest.raises(PatternError, match=words) as told:
        pattern_from(record)
    assert "backup" in str(told.value)


@settings(max_examples=300)
@given(data=st.data())
def test_whatever_is_damaged_there_is_a_sentence_or_another_digest(data: st.DataObject) -> None:
    text = (RECORDS / "altered_bodice.1.json").read_text(encoding="utf-8")
    record = json.loads(text)
    # Walk down to a spot drawn at random and put something else there.
    parent, key, node = None, None, record
    while isinstance(node, dict | list) and node and (parent is None or data.draw(st.booleans())):
        keys = sorted(node) if isinstance(node, dict) else range(len(node))
        key = data.draw(st.sampled_from(list(keys)))
        parent, node = node, node[key]
    junk = data.draw(st.sampled_from(JUNK))
    assert parent is not None
    if junk == node and type(junk) is type(node):
        return
    parent[key] = junk
    try:
        pattern = pattern_from(record)
    except TrackerError as told:
        sentence = str(told)
    else:
        sentence = ""
    if sentence:
        assert "damaged" in sentence or "format" in sentence
    else:
        kept = canonical(pattern_record(pattern))
        same_when_absent = junk in (None, [], {}, "") or junk is False
        assert kept != text.rstrip("\n") or same_when_absent or junk == node
