"""--picture on what alters: drawn without being stored, refused before anything is done."""

from pathlib import Path
from typing import Any

import pytest
from studio import everything

SIDES = ("--seam", "side", "10mm at side waist", "nothing at underarm point")
TRIED = (
    ("alter", "take-in", *SIDES),
    ("alter", "let-out", *SIDES),
    ("alter", "move-notch", "--piece", "front", "--notch", "side notch", "--by", "5mm"),
    ("alter", "make", "move a dart", "piece=front", "dart=bust dart", "by=15mm",
     "toward=side waist"),
    ("alter", "add-dart", "--piece", "back", "--edge", "neckline", "--at", "3cm from neck point",
     "--width", "1cm", "--length", "8cm"),
    ("style", "panels", "mara/bodice@1"),
)  # fmt: skip


@pytest.mark.parametrize("words", TRIED, ids=lambda w: " ".join(w[:3]))
def test_a_trial_is_drawn_and_nothing_is_stored(
    words: tuple[str, ...], tracker: Any, studio: Path
) -> None:
    before = everything(studio)
    said = tracker(*words, "--try", "--picture", "seen.svg")
    assert said.status == 0, said.err
    assert "seen.svg: before dashed, after solid." in said.out
    assert Path("seen.svg").read_text().startswith("<svg")
    assert everything(studio) == before
    assert "picture" not in tracker(*words, "--try", "--json").json
    told = tracker(*words, "--try", "--json", "--picture", "seen.svg").json
    assert told["picture"] == "seen.svg"


def test_what_notes_come_to_is_drawn(tracker: Any, studio: Path) -> None:
    tracker("note", "new", "--seam", "side", "--sign", "too loose", "--pinned", "4mm at side waist")
    before = everything(studio)
    assert tracker("alter", "propose", "1.1", "--picture", "seen.html").status == 0
    assert "8 mm (5/16 in)" in Path("seen.html").read_text()
    assert everything(studio) == before


@pytest.mark.parametrize("file", ["causes.svg", "causes.html"])
def test_a_note_without_an_amount_has_each_likely_cause_drawn(
    file: str, tracker: Any, studio: Path
) -> None:
    tracker("note", "new", "--piece", "front", "--edge", "neckline", "--sign", "gaping")
    before = everything(studio)
    said = tracker("alter", "propose", "1.1", "--picture", file)
    assert said.status == 0, said.err
    assert f"{file}: each cause by the amount above" in said.out
    drawn = Path(file).read_text()
    assert "Note 1.1, 1. Front neckline too long, by 12 mm" in drawn
    assert "Note 1.1, 2. Hollow chest, by" in drawn
    assert drawn.count('class="old"') > 1  # every cause has a drawing of its own
    assert everything(studio) == before
    told = tracker("alter", "propose", "1.1", "--picture", file, "--json").json
    assert told["picture"] == file


def test_a_bad_place_is_refused_before_anything_is_altered(tracker: Any, studio: Path) -> None:
    before = everything(studio)
    Path("mine.svg").write_text("my own words")
    for file, told in (("mine.svg", "something else"), ("x.png", ".svg or .html")):
        said = tracker("alter", "take-in", *SIDES, "--picture", file)
        assert said.status != 0
        assert told in said.err
    assert everything(studio) == before
    assert Path("mine.svg").read_text() == "my own words"


def test_the_next_command_draws_nothing(tracker: Any, studio: Path) -> None:
    tracker("alter", "take-in", *SIDES, "--try", "--picture", "one.svg")
    Path("one.svg").unlink()
    tracker("alter", "take-in", *SIDES, "--try")
    assert not Path("one.svg").exists()


def test_withdrawing_and_bringing_across_are_drawn_too(tracker: Any, studio: Path) -> None:
    tracker("alter", "take-in", *SIDES)
    before = everything(studio)
    said = tracker("carry", "withdraw", "2.1", "--try", "--picture", "without.svg")
    assert said.status == 0, said.err
    text = Path("without.svg").read_text()
    assert "dashed: mara/bodice@2" in text
    assert 'class="outline"' in text.partition('class="moved"')[2]
    said = tracker("carry", "across", "mara/bodice@2", "mara/bodice@1", "--try", "--picture",
                   "across.html", "--json")  # fmt: skip
    assert said.json["picture"] == "across.html"
    assert "(applies" in Path("across.html").read_text()
    assert everything(studio) == before
