"""Problems typed as a fitter says them: her words, her client's, places and amounts as spoken.

What a good fitter would do is common practice, no source.
"""

import shlex
from pathlib import Path
from typing import Any

import pytest

#: (what is typed after "note new", what the proposal says of it)
TYPED = (
    # inches with fractions in a store that counts in centimetres
    ('--seam side --sign loose --pinned "3/8in at the waist" --pinned "nothing at underarm"',
     "in 19 mm at the side waist, to nothing at the underarm point: 9.5 mm from the front"),
    ('--seam side --sign loose --pinned "1/8\\" at waist" --pinned "nothing at underarm"',
     "in 6.3 mm at the side waist"),
    ('--seam "centre back" --sign gapes --pinned "1/4 in at neck" --pinned "nothing at 4 3/4in '
     'from centre back neck"', "Centre back seam in 12.7 mm at the centre back neck"),
    # a whole line
    ('--edge waist --sign "too long" --pinned "1cm all round"', "Waist raised 10 mm all round"),
    ('--seam side --sign loose --pinned "3mm all along"',
     "and the same all along: 3 mm from the front"),
    # at a line of the body, above or below it
    ('--piece front --sign tight --tape "-4cm at the bust line" --words "strains over the bust"',
     "40 mm more round the full bust: 20 mm on each half of the front"),
    ('--piece back --sign "folds across" --pinned "5mm at 6cm above the waist line"',
     "Front and back 10 mm shorter at 60 mm above the waist line"),
    ('--seam side --sign loose --pinned "4mm at 3cm above the waist" --pinned "nothing at '
     'underarm"', "in 8 mm at 30 mm from the side waist"),
    # at a dart
    ('--piece back --sign loose --pinned "3mm at the waist dart"',
     "Waist dart of the back 6 mm deeper"),
    # a sign with what was said after it
    ('--seam shoulder --side right --sign "wrinkles from the neck to the armpit" --pinned "5mm at '
     'shoulder point" --pinned "nothing at neck point"',
     "Right shoulder only: 5 mm more sloping at the shoulder point"),
    ('--piece front --sign "pulls across the bust" --tape "-3cm at bust"',
     "30 mm more round the full bust"),
    ('--seam side --sign loose --tape "3/4in at waist" --tape "nothing at underarm"',
     "in 9.5 mm at the side waist"),
)  # fmt: skip

#: (what is typed after "note new", the first cause proposed): words alone, and no sign of the list
SPOKEN = (
    ('--piece front --said "it digs in under my arm" --words "cuts in at the front armhole"',
     "armhole too high"),
    ('--piece front --sign "strains across the bust"', "full bust"),
    ('--seam shoulder --said "too wide for me" --words "falls down the arm"', "shoulder too long"),
    ('--piece back --sign "hikes up" --words "over the blades"', "round back"),
    ('--piece front --edge neckline --sign "gaps"', "front neckline too long"),
    ('--piece front --edge neckline --sign "too high" --words "chokes her"', "neckline too high"),
    ('--piece front --edge neckline --sign "too low"', "neckline too low"),
    ('--piece front --sign "too low" --words "the dart"', "high bust"),
    ('--piece back --sign "wrinkles across" --words "just below the nape"', "flat upper back"),
)  # fmt: skip

#: (what is typed after "note new", what the refusal says)
REFUSED = (
    ('--seam "waist dart" --sign loose --pinned "4mm at waist"',
     "the waist dart is a dart and no seam: note it at its piece, as in --piece"),
    ('--seam side --sign loose --pinned "5/8 at waist"', "usually of an inch"),
    ('--piece back --sign loose --pinned "4mm all round"', "name the edge it is all along"),
)  # fmt: skip


@pytest.mark.parametrize(("typed", "told"), TYPED, ids=[t[:70] for t, _ in TYPED])
def test_what_is_typed_is_understood(typed: str, told: str, tracker: Any, studio: Path) -> None:
    noted = tracker("note", "new", *shlex.split(typed))
    assert noted.status == 0, noted.err
    said = tracker("alter", "propose", "1.1")
    assert said.status == 0, said.err
    assert told in " ".join(said.out.split())


@pytest.mark.parametrize(("typed", "cause"), SPOKEN, ids=[t[:70] for t, _ in SPOKEN])
def test_words_are_answered_with_the_cause_they_tell_of(
    typed: str, cause: str, tracker: Any, studio: Path
) -> None:
    noted = tracker("note", "new", *shlex.split(typed))
    assert noted.status == 0, noted.err
    causes = tracker("alter", "propose", "1.1", "--json").json["notes"][0]["causes"]
    assert causes[0]["name"] == cause, [c["name"] for c in causes]


@pytest.mark.parametrize(("typed", "told"), REFUSED, ids=[t[:70] for t, _ in REFUSED])
def test_what_cannot_be_noted_so_says_how(
    typed: str, told: str, tracker: Any, studio: Path
) -> None:
    said = tracker("note", "new", *shlex.split(typed))
    assert said.status != 0
    assert told.lower() in " ".join(said.err.split()).lower()


def test_a_place_is_kept_by_the_pattern_s_own_name(tracker: Any, studio: Path) -> None:
    tracker("note", "new", "--seam", "side", "--sign", "loose", "--pinned", "4mm at the waist")
    tracker("note", "new", "--piece", "back", "--sign", "folds", "--pinned",
            "5mm at 6cm below the bust")  # fmt: skip
    told = " ".join(tracker("note", "list").out.split())
    assert "below the bust line" in told
    (one, two) = (row["readings"][0] for row in tracker("note", "list", "--json").json)
    assert one == "pinned fold 4 mm (3/16 in) at the side waist"
    assert two == "pinned fold 5 mm (3/16 in) at 60 mm (2 3/8 in) below the bust line"


def test_notes_that_undo_one_another_are_pointed_at(tracker: Any, studio: Path) -> None:
    for sign, how, much in (("loose", "--pinned", "5mm"), ("tight", "--gap", "8mm")):
        tracker("note", "new", "--seam", "side", "--sign", sign, how, f"{much} at side waist",
                how, "nothing at underarm point")  # fmt: skip
    tracker("note", "new", "--seam", "side", "--sign", "tight", "--gap", "4mm at underarm point",
            "--gap", "nothing at side waist")  # fmt: skip
    said = tracker("alter", "propose", "1.1", "1.2")
    assert said.status == 0
    told = " ".join(said.err.split())
    assert "notes 1.1 and 1.2 take the side seam in and let it out at the side waist" in told
    assert "and let it out" not in tracker("alter", "propose", "1.1", "1.3").err


def test_a_bought_garment_is_answered_in_words_and_altered_itself(
    tracker: Any, studio: Path
) -> None:
    for typed in (
        "garment new --client mara --kind bought --cloth wool",
        "fitting new mara",
        'note new --seam side --sign loose --pinned "1/2in at side waist" '
        '--pinned "nothing at underarm point"',
        'note new --edge hem --sign "too long" --pinned "1 1/2in all round"',
        'note new --seam side --sign tight --gap "3cm at side waist"',
        'note new --edge hem --sign "too short" --chalk "-2cm at side hem"',
    ):
        done = tracker(*shlex.split(typed))
        assert done.status == 0, done.err
    said = tracker("alter", "propose", "2.1")
    told = " ".join(said.out.split())
    assert "in 25.4 mm at the side waist, to nothing at the underarm point: 12.7 mm" in told
    assert "mark it on the garment" in told
    assert "garment 2 has no pattern in this store" in told
    assert "Hem raised 38.1 mm all round" in tracker("alter", "propose", "2.2").out
    for note, most in (("2.3", "let out 15.0 mm on a piece"), ("2.4", "let out 20.0 mm")):
        refused = tracker("alter", "propose", note)
        assert refused.status == 1
        assert most in refused.err
        assert "9 mm is the most" in refused.err
    assert tracker("alter", "accept", "2.1").status != 0
    assert tracker("fitting", "done", "2.1").status == 0
