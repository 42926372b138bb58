"""Cards and sheets to write on hold what the store knows, and room for what it does not."""

import re
from pathlib import Path

import pytest
from fitted import fitted
from studio import TODAY
from wardrobe import paper

from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.fitting.garment import Fitting, Garment, GarmentKind
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.reading import Reading, ReadingKind
from tracker.history.version import Address, Root, first_version
from tracker.pattern.bodyside import BodySide
from tracker.store.engine import Store
from tracker.tasks.altering import accept_notes, alter
from tracker.tasks.cards import write_fitting_card, write_measuring_sheet
from tracker.tasks.fitting import add_fitting, add_garment
from tracker.tasks.marking_up import NothingToMark, write_marking_up
from tracker.tasks.notes import add_note
from tracker.tasks.said import as_it_is, take_in

AMOUNTS = ((10.0, "side waist", 0.0), (0.0, "underarm point", 0.0))


def _note(store: Store, words: str) -> None:
    note = Observation(
        observation_id=words, fitting_id="", number=0, sign=Sign.TOO_LOOSE, seam="side",
        fitter_words=words,
        readings=(
            Reading(kind=ReadingKind.PINNED_FOLD, corner="side waist", value_mm=4.0),
            Reading(kind=ReadingKind.PINNED_FOLD, corner="underarm point", value_mm=0.0),
        ),
    )  # fmt: skip
    add_note(store, "mara", None, note)


def test_a_fitting_card_asks_what_became_of_every_note_that_is_not_settled(
    studio: Store, tmp_path: Path
) -> None:
    _note(studio, "stands off")
    _note(studio, "still to do")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    code, notes, path = write_fitting_card(studio, None, None, tmp_path / "card.html")
    page = path.read_text()
    assert (code, notes) == ("mara", 2)
    assert "Altered in mara/bodice@2, which this garment is not cut from" in page
    assert "settled / came back" not in page
    assert "Not altered yet" in page
    assert "still shows / gone" in page
    assert "thin bra, no heels" in page
    assert "calico, garment 1" in page
    assert "Mara Lind" not in page


def test_a_garment_is_looked_at_for_what_it_was_cut_to_answer(
    studio: Store, tmp_path: Path
) -> None:
    _note(studio, "stands off")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    skirt = first_version(
        Address("mara", "skirt", 1), Root("drawn for a test", 1, {}), paper(), "a skirt", TODAY
    )
    with studio.writing() as books:
        books.add_version(skirt)
    for cut_from, asked in (("mara/bodice@2", ["1.1"]), ("mara/skirt@1", [])):
        cut = Garment(
            garment_id=cut_from, kind=GarmentKind.TEST_GARMENT, cut_from=cut_from, cloth="calico",
            made_on=TODAY,
        )  # fmt: skip
        number = add_garment(studio, cut, cut_from, None, TODAY).number
        worn = Fitting(fitting_id=f"of {cut_from}", garment_id="", on=TODAY, fitter="Ida")
        kept = add_fitting(studio, "mara", number, worn, TODAY)
        assert [row.name for row in kept.to_look_at] == asked
        card = write_fitting_card(studio, None, number, tmp_path / f"{number}.html")
        assert card[1] == len(asked)
        assert ("settled / came back" in card[2].read_text()) == bool(asked)


def test_a_marking_up_sheet_gives_each_piece_its_own_amount(studio: Store, tmp_path: Path) -> None:
    alter(studio, "mara/bodice", [take_in("side", BodySide.BOTH, AMOUNTS, "front")], TODAY)
    address, marks, path = write_marking_up(studio, "mara/bodice@2", tmp_path / "m.html")
    page = path.read_text()
    assert (address.number, marks) == (2, 2)  # all of it on the front
    assert "10 mm (3/8 in)" in page
    assert ">5 mm" not in page
    assert "the pieces of mara/bodice@1" in page


def test_half_of_an_amount_is_marked_on_each_piece(studio: Store, tmp_path: Path) -> None:
    alter(studio, "mara/bodice", [take_in("side", BodySide.RIGHT, AMOUNTS)], TODAY)
    _, marks, path = write_marking_up(studio, "mara/bodice@2", tmp_path / "m.html")
    assert marks == 4
    page = path.read_text()
    assert page.count("5 mm (3/16 in)</td>") == 2
    assert "right front" in page


def test_any_step_is_at_least_marked_in_its_words(studio: Store, tmp_path: Path) -> None:
    kind = MoveNotch(piece="front", notch="side notch", by_mm=5.0)
    alter(studio, "mara/bodice", [as_it_is(kind)], TODAY)
    _, marks, path = write_marking_up(studio, "mara/bodice@2", tmp_path / "m.html")
    assert marks == 1
    assert "5 mm (3/16 in)" in path.read_text()


def test_a_width_across_is_not_said_to_go_all_round(studio: Store, tmp_path: Path) -> None:
    drafted = first_version(
        Address("mara", "drafted", 1), Root("brought in", 1, {}), fitted("bodice"), "a block", TODAY
    )
    with studio.writing() as books:
        books.add_version(drafted)
    wider = WidthAcross(line="across back", to=Width.WIDER, by_mm=8.0)
    alter(studio, "mara/drafted", [as_it_is(wider)], TODAY)
    page = write_marking_up(studio, "mara/drafted@2", tmp_path / "m.html")[2].read_text()
    [told] = re.findall(r"across back: [^<]*as sewn", page)
    assert "all round" not in told


def test_a_pattern_on_paper_is_marked_too(studio: Store, tmp_path: Path) -> None:
    version = first_version(
        Address("mara", "bought", 1), Root("brought in", 1, {}), paper(), "a paper pattern", TODAY
    )
    with studio.writing() as books:
        books.add_version(version)
    alter(studio, "mara/bought", [take_in("side", BodySide.BOTH, AMOUNTS)], TODAY)
    _, marks, path = write_marking_up(studio, "mara/bought@2", tmp_path / "m.html")
    assert marks == 4
    assert "mark it on the paper" in path.read_text()


def test_a_draft_has_nothing_to_mark(studio: Store, tmp_path: Path) -> None:
    with pytest.raises(NothingToMark, match="tracker print mara/bodice@1"):
        write_marking_up(studio, "mara/bodice@1", tmp_path / "m.html")


@pytest.mark.parametrize(
    ("blank", "with_last", "shown"),
    [
        (False, True, True),
        (False, False, False),  # a tape is read more honestly without
        (True, True, False),  # nobody's sheet has nobody's values
    ],
)
def test_a_measuring_sheet_shows_last_values_only_when_asked(
    blank: bool, with_last: bool, shown: bool, studio: Store, tmp_path: Path
) -> None:
    out = tmp_path / "sheet.html"
    code, path = write_measuring_sheet(studio, None, ("bodice",), blank, with_last, out, TODAY)
    assert code == ("" if blank else "mara")
    assert ("was 64.0 cm" in path.read_text()) is shown
