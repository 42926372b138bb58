"""From what is seen to what is done, as it is typed with pins in the mouth."""

from typing import Any

import pytest
from studio import everything

Tracker = Any


def test_a_sign_alone_is_answered_with_likely_causes_and_what_to_type(
    tracker: Tracker, studio: Any
) -> None:
    tracker("note", "new", "mara", "--piece", "front", "--edge", "neckline", "--sign", "gapes")
    before = everything(studio)
    said = tracker("alter", "propose", "1.1")
    assert said.status == 0
    assert "1. Front neckline too long. To tell: the edge gapes" in said.out
    assert '--as "front neckline too long" --by 12mm' in said.out
    assert "In the order of looking: how grain and lines hang" in said.out
    assert max(len(line) for line in said.out.splitlines() if "tracker" not in line) <= 80
    assert everything(studio) == before
    record = tracker("alter", "propose", "1.1", "--json").json
    causes = record["notes"][0]["causes"]
    assert [c["name"] for c in causes][:2] == ["front neckline too long", "hollow chest"]
    assert causes[0]["make"][0].startswith('tracker alter make "close a gap into a dart"')


def test_what_propose_says_to_type_can_be_typed(tracker: Tracker, studio: Any) -> None:
    import shlex

    tracker("note", "new", "mara", "--piece", "back", "--sign", "rides up", "--direction",
            "over the blades")  # fmt: skip
    causes = tracker("alter", "propose", "1.1", "--json").json["notes"][0]["causes"]
    for cause in causes:
        if cause["propose"]:
            assert tracker(*shlex.split(cause["propose"])[1:]).status == 0, cause["name"]
        for line in cause["make"]:
            words = shlex.split(line.replace("\\\n", " "))[1:]
            assert tracker(*words, "--try").status == 0, line


def test_the_cause_decided_on_is_accepted_with_its_amount_and_its_mark(
    tracker: Tracker, studio: Any
) -> None:
    tracker("note", "new", "mara", "--piece", "back", "--sign", "rides up", "--direction",
            "over the blades")  # fmt: skip
    said = tracker("alter", "accept", "1.1", "--as", "round back", "--by", "12mm")
    assert said.status == 0
    assert "Understood as round back." in said.out
    assert "Stored as mara/bodice@2, made from mara/bodice@1. Dealt with in it: note 1.1." in (
        said.out.replace("\n", " ")
    )
    assert "--because" not in said.out


def test_an_amount_read_at_an_edge_is_echoed_and_other_causes_are_named(
    tracker: Tracker, studio: Any
) -> None:
    noted = tracker("note", "new", "mara", "--piece", "front", "--edge", "neckline", "--sign",
                    "gaping", "--pinned", "6mm at 4cm from neck point")  # fmt: skip
    assert noted.status == 0
    said = tracker("alter", "propose", "1.1")
    out = " ".join(said.out.split())
    assert "a fold takes up twice its depth: 12 mm (1/2 in) at the mouth, on each half" in out
    assert "Gap of 12 mm on each half at the neckline of the front, 40 mm from the" in out
    assert "It may also be: hollow chest" in out
    assert tracker("alter", "propose", "1.1", "--json").json["otherwise"][0] == "hollow chest"


def test_a_tape_difference_is_shared_with_the_seams_named(tracker: Tracker, studio: Any) -> None:
    tracker("note", "new", "mara", "--seam", "side", "--sign", "loose", "--tape",
            "24mm at side waist", "--tape", "nothing at underarm point")  # fmt: skip
    said = tracker("alter", "propose", "1.1", "--with", "centre back")
    out = " ".join(said.out.split())
    assert "shared by 6 edges of the side, centre back seams, 4 mm (3/16 in) at each" in out
    made = tracker("alter", "accept", "1.1", "--with", "centre back", "--json").json
    assert [s["parameters"]["seam"] for s in made["steps"]] == ["side", "centre back"]


def test_notes_are_listed_in_the_order_of_looking(tracker: Tracker, studio: Any) -> None:
    assert "no note that waits" in tracker("fitting", "order", "mara").out
    tracker("note", "new", "mara", "--edge", "waist", "--sign", "too long")
    tracker("note", "new", "mara", "--seam", "shoulder", "--sign", "too tight")
    rows = tracker("fitting", "order", "mara").out.splitlines()
    assert rows[2].startswith("shoulder and neck  1.2")
    assert rows[3].startswith("waist")
    stages = tracker("fitting", "order", "mara", "--json").json["stages"]
    assert [s["stage"] for s in stages] == ["shoulder and neck", "waist"]


def test_the_tables_are_shown(tracker: Tracker, studio: Any) -> None:
    said = tracker("fitting", "signs", "armhole", "gapes")
    assert "back armhole" in said.out
    assert max(len(line) for line in said.out.splitlines()) <= 80
    rows = tracker("fitting", "signs", "--json").json
    assert all(r["source"] and r["causes"] for r in rows)
    said = tracker("fitting", "readings", "fold out")
    assert "twice its depth" in " ".join(said.out.split())
    assert tracker("fitting", "readings", "move a notch").status == 1
    assert len(tracker("fitting", "readings", "--json").json) >= 100


def test_what_was_sewn_on_the_garment_is_told_until_it_is_taken_back(
    tracker: Tracker, studio: Any
) -> None:
    tracker("note", "new", "mara", "--seam", "side", "--sign", "loose", "--pinned",
            "4mm at side waist", "--pinned", "nothing at underarm point")  # fmt: skip
    said = tracker("fitting", "done", "1.1")
    assert "Note 1.1 (side seam, too loose): done on the garment." in said.out
    assert "1.1" in tracker("garment", "list", "mara").out
    again = tracker("garment", "new", "mara/bodice@1", "--cloth", "calico")
    assert "note 1.1 asked for was done on the garment" in " ".join(again.err.split())
    assert tracker("alter", "accept", "1.1").status == 0
    assert "altered (mara/bodice@2)" in tracker("note", "list", "mara").out.replace("\n", " ")


def test_what_is_owed_to_taste_in_a_block_is_asked_about(tracker: Tracker, studio: Any) -> None:
    tracker("note", "new", "mara", "--seam", "side", "--sign", "loose", "--pinned",
            "4mm at side waist", "--cause", "taste")  # fmt: skip
    said = tracker("alter", "accept", "1.1")
    assert "note 1.1 is owed to taste, and mara/bodice is a block" in " ".join(said.err.split())


def test_a_style_brings_what_is_the_bodys_back_to_its_block(tracker: Tracker, studio: Any) -> None:
    tracker("note", "new", "mara", "--seam", "side", "--sign", "loose", "--pinned",
            "3mm at side waist", "--pinned", "nothing at underarm point")  # fmt: skip
    made = tracker("alter", "accept", "1.1", "--into", "summer")
    assert "tracker alter to-block 1.1 --client mara --try" in " ".join(made.out.split())
    tried = tracker("alter", "to-block", "--try")
    assert "Only shown, on mara/bodice@1: nothing was stored." in tried.out
    kept = tracker("alter", "to-block", "1.1")
    assert "Stored as mara/bodice@2, made from mara/bodice@1." in kept.out


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (["alter", "propose", "1.1", "--as", "rond back", "--by", "5mm"], "Did you mean"),
        (["alter", "propose", "1.1", "--as", "round back"], "wants an amount"),
        (["alter", "propose", "1.1", "--as", "round back", "--by", "much"], "much"),
        (["alter", "accept", "1.1"], "no amount to work from"),
        (["alter", "to-block"], "waits for the block"),
        (["fitting", "done", "1.9"], "no note 1.9"),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(
    typed: list[str], words: str, tracker: Tracker, studio: Any
) -> None:
    tracker("note", "new", "mara", "--piece", "back", "--sign", "rides up")
    before = everything(studio)
    said = tracker(*typed)
    assert said.status in (1, 2)
    assert words in " ".join(said.err.split())
    assert everything(studio) == before
