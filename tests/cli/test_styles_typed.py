"""Styles as they are typed: what is made, and what is said of what cannot be."""

from pathlib import Path
from typing import Any

import pytest


def plain(text: str) -> str:
    return " ".join(text.split())


#: The store with every block in it, drafted by the first test that wants it.
DRAFTED: list[bytes] = []


@pytest.fixture
def blocks(studio: Path, tracker: Any) -> Path:
    if not DRAFTED:
        for kind in ("torso", "skirt"):
            made = tracker("block", "draft", "mara", "--kind", kind, "--estimate")
            assert made.status == 0, made.err
        DRAFTED.append(studio.read_bytes())
    studio.write_bytes(DRAFTED[0])
    return studio


YOKE = (
    "part", "back", "mara/bodice", "--at", "9cm from shoulder point on armhole",
    "--at", "10cm from centre back neck on centre back",
)  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("panels", "mara/bodice", "--beside", "15mm"), "15 mm beside the bust point"),
        (
            ("panels", "mara/torso", "--beside", "20mm", "--leftover", "dart", "--as", "p"),
            "sewn as a dart 20 mm long",
        ),
        (
            ("panels", "mara/bodice", "--no-front", "--back-from", "shoulder"),
            "Back panelled from the shoulder",
        ),
        (
            ("dart", "front", "bust dart", "mara/bodice", "--to", "40% into waist dart",
             "--to", "6cm from neck point on shoulder", "--as", "moved"),
            "shoulder dart",
        ),
        (
            ("dart", "front", "waist dart", "mara/bodice", "--sewn", "gathers", "--as", "g"),
            "left open and gathered",
        ),
        ((*YOKE, "--as", "yoked"), "the upper part is the back yoke"),
        (
            ("across", "waist line", "mara/torso", "--below", "6cm", "--as", "dropped"),
            "60 mm below the waist line",
        ),
        (
            ("across", "waist line", "mara/skirt", "--below", "5cm", "--named", "yoke", "--upper",
             "--leave", "waist dart", "--leave", "side waist dart", "--as", "yoked"),
            "goes on from the front yoke seam as a dart",
        ),
        (("flare", "mara/skirt", "--by", "40cm", "--as", "flared"), "400 mm all round"),
        (("flare", "mara/skirt", "--peg", "6cm", "--as", "pegged"), "pegged by 60 mm"),
        (
            ("neckline", "mara/bodice", "--front", "6cm", "--shape", "pointed", "--as", "vee"),
            "60 mm lower at the centre front",
        ),
        (
            ("lengthen", "mara/torso", "--by", "40cm", "--hem", "130cm", "--as", "dress"),
            "hem of 1300 mm all round",
        ),
        (("skirt", "mara/skirt", "mara/bodice", "--as", "dress"), "joined at the waist"),
    ],
)  # fmt: skip
def test_a_style_is_foretold_and_then_made_as_a_pattern_of_its_own(
    blocks: Path, tracker: Any, typed: tuple[str, ...], told: str
) -> None:
    before = blocks.read_bytes()
    tried = tracker("style", *typed, "--try")
    assert tried.status == 0, tried.err
    assert told in plain(tried.out)
    assert blocks.read_bytes() == before
    made = tracker("style", *typed)
    assert made.status == 0, made.err
    assert "Stored as mara/" in plain(made.out)
    name = plain(made.out).split("Stored as ")[1].split(",")[0]
    again = tracker("version", "again", name)
    assert again.status == 0
    assert "0.000 mm" in again.out


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("panels", "mara/bodice", "--leftover", "pleat"), "say ease or dart"),
        (("panels", "mara/bodice", "--beside", "5cm"), "from 2 to 38 mm would do"),
        (("dart", "front", "bust dart", "mara/bodice"), "where to?"),
        (("dart", "front", "bust dart", "mara/bodice", "--to", "6cm from neck point"),
         "does not say on which edge"),
        (YOKE[:5], "at 2 places, and 1 is named"),
        ((*YOKE, "--shape", "wavy"), "straight or curved"),
        (("across", "wast line", "mara/torso"), "Did you mean waist line"),
        (("flare", "mara/skirt", "--by", "4cm", "--peg", "4cm"), "not both"),
        (("flare", "mara/skirt"), "by how much round the whole hem"),
        (("neckline", "mara/bodice"), "how much lower"),
        (("neckline", "mara/bodice", "--front", "90cm"), "at most"),
        (("lengthen", "mara/torso"), "how far below"),
        (("skirt", "mara/skirt", "mara/torso"), "no edge called 'waist'"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_in_a_sentence_and_nothing_is_stored(
    blocks: Path, tracker: Any, typed: tuple[str, ...], told: str
) -> None:
    before = blocks.read_bytes()
    made = tracker("style", *typed)
    assert made.status != 0
    assert told.lower() in plain(made.err).lower()
    assert blocks.read_bytes() == before


def test_a_dress_that_does_not_go_over_her_hips_is_said_with_the_hem_that_would(
    studio: Path, tracker: Any
) -> None:
    del studio
    typed = ("style", "lengthen", "mara/bodice", "--by", "60cm")
    narrow = tracker(*typed, "--hem", "112cm", "--as", "narrow")
    assert narrow.status == 0, narrow.err
    assert "it does not go over them; a hem of" in plain(narrow.err)
    found = tracker("check", "mara/narrow")
    assert "hip line: finished" in plain(found.out)
    hem = plain(narrow.err).split("(--hem ")[1].split(")")[0]
    wide = tracker(*typed, "--hem", hem, "--as", "wide")
    assert wide.status == 0, wide.err
    assert "hips are" not in plain(wide.err)
    assert "hip line: finished" not in plain(tracker("check", "mara/wide").out)
    plan = ("alter", "make", "plan the ease", "line=hip line", "ease=60mm", "--from", "mara/wide")
    assert tracker(*plan, "--try").status == 0
