"""What a change is owed to, and where it goes: to the block, with the garment, on it alone."""

import datetime as dt
from dataclasses import replace

import pytest
from studio import TODAY, everything

from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.errors import TrackerError
from tracker.fitting.garment import Fitting, FittingError, Garment, GarmentKind
from tracker.fitting.observation import Cause, Observation, Sign, State
from tracker.fitting.propose import Answer
from tracker.fitting.reading import Reading, ReadingKind
from tracker.pattern.measure import girth
from tracker.store.engine import Store
from tracker.tasks.advising import advise, waiting_in_order, without_amount
from tracker.tasks.altering import accept_notes, alter, propose_notes
from tracker.tasks.carrying import CannotAll
from tracker.tasks.fitting import add_fitting, add_garment, garments_of
from tracker.tasks.notes import add_note, done_on_garment, look_at_notes
from tracker.tasks.said import as_it_is
from tracker.tasks.to_block import NotForTheBlock, bring_to_block, marked

LATER = TODAY + dt.timedelta(days=30)


def noted(store: Store, name: str, **more: object) -> None:
    fold = Reading(kind=ReadingKind.PINNED_FOLD, corner="side waist", value_mm=5.0)
    nothing = replace(fold, corner="underarm point", value_mm=0.0)
    values: dict[str, object] = {
        "observation_id": name, "fitting_id": "", "number": 0, "sign": Sign.TOO_LOOSE,
        "seam": "side", "readings": (fold, nothing),
    }  # fmt: skip
    add_note(store, "mara", None, Observation(**(values | more)))


def fit(
    store: Store, name: str, pattern: str, kind: GarmentKind = GarmentKind.TEST_GARMENT
) -> None:
    garment = Garment(garment_id=f"garment of {name}", kind=kind, cut_from=None, cloth="calico",
                      made_on=TODAY)  # fmt: skip
    add_garment(store, garment, pattern, None, LATER)
    add_fitting(
        store, "mara", None, Fitting(fitting_id=name, garment_id="", on=TODAY, fitter="Ida"), LATER
    )


@pytest.fixture
def styled(studio: Store) -> Store:
    """A panelled style of mara's block, sewn and tried on."""
    alter(studio, "mara/bodice@1", [as_it_is(PanelFront())], TODAY, into="panelled")
    fit(studio, "fitting-2", "mara/panelled@1")
    return studio


def test_what_came_back_does_not_propose_itself_to_the_block(styled: Store) -> None:
    noted(styled, "body")
    accept_notes(styled, "mara", ["2.1"], TODAY)
    fit(styled, "fitting-3", "mara/panelled@2")
    look_at_notes(styled, "mara", ["2.1"], None, settled=False)
    with pytest.raises(NotForTheBlock, match="waits for the block"):
        bring_to_block(styled, "mara", (), LATER, dry=True)


def test_what_is_the_bodys_proposes_itself_to_the_block_and_the_rest_stays(styled: Store) -> None:
    noted(styled, "body")
    noted(styled, "taste", cause=Cause.TASTE)
    made = accept_notes(styled, "mara", ["2.1", "2.2"], TODAY)
    told = marked(styled, made)
    assert (told.block, told.proposed, told.kept) == ("mara/bodice", ("2.1",), (("2.2", "taste"),))
    before = everything(styled.path)
    tried, names = bring_to_block(styled, "mara", (), TODAY, dry=True)
    assert names == ("2.1",)
    assert (str(tried.parent), tried.version) == ("mara/bodice@1", None)
    assert everything(styled.path) == before
    brought, _ = bring_to_block(styled, "mara", ["2.1"], TODAY)
    assert brought.version is not None
    assert str(brought.version.address) == "mara/bodice@2"
    assert [t.step.because for t in brought.version.taken] == [("body",)]
    with styled.reading() as books:
        block = books.version("mara", "bodice", 1).pattern
    # A fold of 5 mm at each side seam: 20 mm of the waist, on the block as on the style.
    smaller = girth(block, "waist line") - girth(brought.version.pattern, "waist line")
    assert smaller == pytest.approx(20.0, abs=0.3)
    with pytest.raises(NotForTheBlock, match=r"2\.1 is in the block mara/bodice already"):
        bring_to_block(styled, "mara", ["2.1"], TODAY)
    with pytest.raises(NotForTheBlock, match="waits for the block"):
        bring_to_block(styled, "mara", (), TODAY)


def test_what_is_not_the_bodys_may_still_be_brought_when_it_is_named(styled: Store) -> None:
    noted(styled, "style", cause=Cause.STYLE)
    accept_notes(styled, "mara", ["2.1"], TODAY)
    brought, _ = bring_to_block(styled, "mara", ["2.1"], TODAY)
    assert brought.version is not None


def test_a_seam_the_block_has_not_is_told(styled: Store) -> None:
    top = Reading(kind=ReadingKind.PINNED_FOLD, corner="front princess waist", value_mm=2.0)
    noted(styled, "panel", seam="front princess", readings=(top,))
    accept_notes(styled, "mara", ["2.1"], TODAY)
    before = everything(styled.path)
    with pytest.raises(CannotAll, match="front princess"):
        bring_to_block(styled, "mara", ["2.1"], TODAY)
    assert everything(styled.path) == before


def test_an_unaltered_note_and_one_of_the_block_itself_have_nothing_to_bring(
    styled: Store,
) -> None:
    noted(styled, "open")
    with pytest.raises(NotForTheBlock, match="changed no pattern yet"):
        bring_to_block(styled, "mara", ["2.1"], TODAY)
    fit(styled, "fitting-3", "mara/bodice@1")
    noted(styled, "block")
    accept_notes(styled, "mara", ["3.1"], TODAY)
    with pytest.raises(NotForTheBlock, match="in the block itself"):
        bring_to_block(styled, "mara", ["3.1"], TODAY)


def test_a_change_is_marked_as_it_is_accepted_and_may_begin_a_pattern_of_its_own(
    studio: Store,
) -> None:
    noted(studio, "stretch")
    made = accept_notes(studio, "mara", ["1.1"], TODAY, cause=Cause.CLOTH, into="jersey")
    assert made.version is not None
    assert str(made.version.address) == "mara/jersey@1"
    with studio.reading() as books:
        assert books.note("stretch").cause is Cause.CLOTH
        assert books.next_number("mara", "bodice") == 2
    assert marked(studio, made).kept == (("1.1", "cloth"),)


def test_a_change_made_on_the_garment_stays_there_until_it_is_taken_back(studio: Store) -> None:
    noted(studio, "sewn")
    (row,) = done_on_garment(studio, "mara", ["1.1"])
    assert row.state == "done on the garment"
    assert garments_of(studio, "mara")[1][0].changed == ("1.1",)
    with studio.reading() as books:
        assert books.next_number("mara", "bodice") == 2  # the pattern has no new version
    again = Garment(garment_id="g2", kind=GarmentKind.TEST_GARMENT, cut_from=None, cloth="calico",
                    made_on=TODAY)  # fmt: skip
    kept = add_garment(studio, again, "mara/bodice@1", None, TODAY)
    assert any("note 1.1" in w and "not in mara/bodice@1" in w for w in kept.warnings)
    made = accept_notes(studio, "mara", ["1.1"], TODAY)
    assert made.version is not None
    with studio.reading() as books:
        assert books.note("sewn").state is State.ALTERED
    assert garments_of(studio, "mara")[1][0].changed == ()


def test_what_was_settled_on_the_garment_alone_is_taken_back_and_stays_settled(
    studio: Store,
) -> None:
    noted(studio, "sewn")
    done_on_garment(studio, "mara", ["1.1"])
    fitting = Fitting(fitting_id="fitting-2", garment_id="", on=LATER, fitter="Ida")
    kept = add_fitting(studio, "mara", 1, fitting, LATER)
    assert [r.name for r in kept.to_look_at] == ["1.1"]
    look_at_notes(studio, "mara", ["1.1"], 2, settled=True)
    assert garments_of(studio, "mara")[1][0].changed == ("1.1",)
    accept_notes(studio, "mara", ["1.1"], LATER)
    with studio.reading() as books:
        note = books.note("sewn")
    assert (note.state, note.dealt_with_in) == (State.SETTLED, "mara/bodice@2")
    with pytest.raises(FittingError, match="settled already"):
        accept_notes(studio, "mara", ["1.1"], LATER)


def test_on_cut_cloth_no_more_is_let_out_than_its_allowance(studio: Store) -> None:
    fit(studio, "fitting-2", "mara/bodice@1", GarmentKind.BASTED)
    noted(studio, "tight", sign=Sign.TOO_TIGHT, readings=(
        Reading(kind=ReadingKind.GAP, corner="side waist", value_mm=30.0),))  # fmt: skip
    before = everything(studio.path)
    with pytest.raises(TrackerError, match="9 mm is the most"):
        done_on_garment(studio, "mara", ["2.1"])
    assert everything(studio.path) == before


def test_only_what_waits_is_done_on_the_garment(studio: Store) -> None:
    noted(studio, "sewn")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    with pytest.raises(FittingError, match="only one that waits"):
        done_on_garment(studio, "mara", ["1.1"])


def test_a_note_without_an_amount_is_advised_and_then_answered(studio: Store) -> None:
    noted(studio, "stoops", seam=None, piece="back", sign=Sign.RIDING_UP, readings=(),
          direction="over the blades")  # fmt: skip
    assert without_amount(studio, "mara", ["1.1"]) == ("1.1",)
    before = everything(studio.path)
    address, (advice,) = advise(studio, "mara", ["1.1"])
    assert str(address) == "mara/bodice@1"
    first = advice.causes[0]
    assert (first.name, first.usual_mm) == ("round back", (6, 20))
    assert '--as "round back"' in first.propose
    assert first.make[0].startswith('tracker alter make "slash and spread" piece=back')
    assert everything(studio.path) == before
    with pytest.raises(TrackerError, match="round back wants an amount"):
        propose_notes(studio, "mara", ["1.1"], answer=Answer("round back"))
    made = accept_notes(studio, "mara", ["1.1"], TODAY, answer=Answer("1", 12.0))
    assert made.version is not None
    assert made.version.taken[0].step.kind == "slash and spread"


def test_notes_are_taken_in_the_order_of_looking(studio: Store) -> None:
    noted(studio, "waist")
    low = Reading(kind=ReadingKind.PINNED_FOLD, corner="shoulder point", value_mm=3.0)
    noted(studio, "shoulder", seam="shoulder", readings=(low, replace(low, corner="neck point",
          value_mm=0.0)))  # fmt: skip
    _, stages = waiting_in_order(studio, "mara")
    assert [s.stage for s in stages] == ["shoulder and neck", "waist"]
    made = accept_notes(studio, "mara", ["1.1", "1.2"], TODAY)
    assert made.notes == ("1.2", "1.1")
    assert made.version is not None
    assert [t.step.because for t in made.version.taken] == [("shoulder",), ("waist",)]
    with pytest.raises(TrackerError, match="one cause at a time"):
        propose_notes(studio, "mara", ["1.1", "1.2"], answer=Answer("waist too loose"))
