"""From a note to the next version, whole or not at all."""

import datetime as dt
from dataclasses import replace

import pytest
from studio import TODAY, everything

from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.cli.typed import hearing
from tracker.errors import TrackerError
from tracker.fitting.garment import Fitting, FittingError, Garment, GarmentKind
from tracker.fitting.observation import Observation, Sign, State
from tracker.fitting.reading import Reading, ReadingKind
from tracker.history.version import Standing
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.store.books import Books
from tracker.store.engine import Store
from tracker.tasks.altering import accept_notes, alter, propose_notes
from tracker.tasks.fitting import add_fitting, add_garment
from tracker.tasks.notes import add_note, change_note, look_at_notes, notes_of
from tracker.tasks.preferences import Manner
from tracker.tasks.reasons import Line, why_there
from tracker.tasks.said import take_in
from tracker.tasks.typed_kind import NotSaid, read_kind
from tracker.tasks.versions import versions_of

LATER = TODAY + dt.timedelta(days=30)


def _note(store: Store, name: str, fold_mm: float = 5.0, corner: str = "side waist") -> None:
    readings = (
        Reading(kind=ReadingKind.PINNED_FOLD, corner=corner, value_mm=fold_mm),
        Reading(kind=ReadingKind.PINNED_FOLD, corner="underarm point", value_mm=0.0),
    )
    note = Observation(
        observation_id=name, fitting_id="", number=0, sign=Sign.TOO_LOOSE, seam="side",
        readings=readings if fold_mm else (), fitter_words=f"words of {name}",
    )  # fmt: skip
    add_note(store, "mara", None, note)


def _fitting(store: Store, name: str, on: dt.date) -> None:
    fitting = Fitting(fitting_id=name, garment_id="", on=on, fitter="Ida")
    add_fitting(store, "mara", None, fitting, LATER)


def test_a_proposal_stores_nothing(studio: Store) -> None:
    _note(studio, "note-1")
    before = everything(studio.path)
    proposed = propose_notes(studio, "mara", ["1.1"])
    assert proposed.version is None
    assert proposed.proposals[0].echo.startswith("pinned fold")
    assert everything(studio.path) == before


def test_an_accepted_note_says_in_which_version_it_was_dealt_with(studio: Store) -> None:
    _note(studio, "note-1")
    made = accept_notes(studio, "mara", ["1.1"], TODAY)
    assert made.version is not None
    with studio.reading() as books:
        version = books.version("mara", "bodice", 2)
        note = books.note("note-1")
    assert version == made.version
    assert note.state is State.ALTERED
    assert note.dealt_with_in == "mara/bodice@2"
    # A pinned fold of 5 mm at each side seam: 10 mm out of each, 20 mm of the waist; square to
    # the seam, so a little more along the waist line.
    before = girth(propose_start(studio), "waist line")
    assert before - girth(version.pattern, "waist line") == pytest.approx(20.0, abs=0.3)


def propose_start(store: Store) -> Pattern:
    """The pattern of the first version."""
    with store.reading() as books:
        return books.version("mara", "bodice", 1).pattern


def test_several_notes_make_one_version_with_a_step_for_each(studio: Store) -> None:
    _note(studio, "note-1")
    _note(studio, "note-2", 2.0)
    made = accept_notes(studio, "mara", ["1.1", "1.2", "1.1"], TODAY, sentence="closer")
    assert made.version is not None
    assert [t.step.because for t in made.version.taken] == [("note-1",), ("note-2",)]
    assert made.version.sentence == "closer"


@pytest.mark.parametrize("second", ["1.9", "1.3", "1.4"])
def test_one_note_that_cannot_be_done_keeps_all_of_them_back(second: str, studio: Store) -> None:
    _note(studio, "note-1")
    _note(studio, "note-2", 0.0)
    _note(studio, "note-3", 0.0)  # 1.3 has no amount
    _note(studio, "note-4", 4000.0)  # 1.4 cannot be drawn
    before = everything(studio.path)
    with pytest.raises(TrackerError):
        accept_notes(studio, "mara", ["1.1", second], TODAY)
    assert everything(studio.path) == before


def test_a_fault_after_the_version_is_stored_takes_it_back(
    studio: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    _note(studio, "note-1")
    before = everything(studio.path)

    def broken(*_: object) -> None:
        raise TrackerError("the pencil broke")

    monkeypatch.setattr(Books, "change_note", broken)
    with pytest.raises(TrackerError, match="pencil"):
        accept_notes(studio, "mara", ["1.1"], TODAY)
    assert everything(studio.path) == before


def test_a_note_of_an_older_garment_warns_before_it_is_made_twice(studio: Store) -> None:
    _note(studio, "note-1")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    _note(studio, "note-2")
    proposed = propose_notes(studio, "mara", ["1.2"])
    assert str(proposed.parent) == "mara/bodice@2"
    assert any("cut from mara/bodice@1" in w for w in proposed.warnings)
    assert propose_notes(studio, "mara", ["1.2"], start="mara/bodice@1").warnings == ()


def test_a_note_is_not_made_twice_in_one_line_of_versions(studio: Store) -> None:
    _note(studio, "note-1")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    before = everything(studio.path)
    with pytest.raises(TrackerError, match=r"1\.1 was dealt with in mara/bodice@2: it would be"):
        accept_notes(studio, "mara", ["1.1"], TODAY)
    assert everything(studio.path) == before
    shown = propose_notes(studio, "mara", ["1.1"])
    assert any("made twice" in w for w in shown.warnings)
    # Another way from the version before it is made, and so is one that came back.
    assert accept_notes(studio, "mara", ["1.1"], TODAY, start="mara/bodice@1").version is not None


def test_starting_from_an_older_version_says_what_is_left_out(studio: Store) -> None:
    maker = take_in("side", BodySide.BOTH, ((4.0, "side waist", 0.0),))
    alter(studio, "mara/bodice", [maker], TODAY)
    again = alter(studio, "mara/bodice@1", [maker], TODAY)
    assert again.version is not None
    assert again.version.parent == "mara/bodice@1"
    assert str(again.version.address) == "mara/bodice@3"
    assert any("mara/bodice@2 is newer" in w for w in again.warnings)


def test_only_one_piece_gives_all_of_it(studio: Store) -> None:
    pattern = propose_start(studio)
    for piece, share in (("front", 1.0), ("back", 0.0), (None, 0.5)):
        kind = take_in("side", BodySide.BOTH, ((4.0, "", 0.0),), piece)(pattern)
        assert isinstance(kind, TakeIn)
        assert kind.share == share
        assert kind.amounts[0].corner in ("underarm point", "side waist")


def test_a_kind_is_read_from_typed_words() -> None:
    given = {"piece": "front", "notch": "side notch", "by": "5mm", "partner": "no"}
    kind = read_kind("move a notch", given.items(), hearing(Manner()))
    assert kind.parameters() == {
        "piece": "front", "notch": "side notch", "by_mm": 5.0, "side": "both", "partner": False
    }  # fmt: skip


def test_amounts_at_places_are_read_for_any_kind_that_has_them() -> None:
    given = {"seam": "side", "amounts": "4mm at side waist; nothing at underarm point"}
    kind = read_kind("take in a seam", given.items(), hearing(Manner()))
    assert isinstance(kind, TakeIn)
    assert [(a.corner, a.amount_mm) for a in kind.amounts] == [
        ("side waist", 4.0), ("underarm point", 0.0)
    ]  # fmt: skip


#: kind, what was typed, what was read
TYPED = (
    ("take in a seam", [("seam", "side"), ("amounts", "4mm at side waist"),
                        ("amounts", "nothing at 2cm from underarm point")],
     {"amounts": [{"corner": "side waist", "distance_mm": 0.0, "amount_mm": 4.0},
                  {"corner": "underarm point", "distance_mm": 20.0, "amount_mm": 0.0}]}),
    ("level an edge", [("wanted", "60cm"), ("readings", "61cm at side waist on front")],
     {"wanted_mm": 600.0, "readings": [{"piece": "front", "corner": "side waist",
                                        "distance_mm": 0.0, "height_mm": 610.0}]}),
    ("change the neckline", [("to", "Looser"), ("by", "1cm"),
                             ("places", "50% at neck point on front")],
     {"to": "looser", "places": [{"piece": "front", "corner": "neck point", "distance_mm": 0.0,
                                  "share": 0.5}]}),
    ("slash across the pieces", [("pieces", "front, back"), ("line", "waist line"),
                                 ("above", "5cm"), ("first", "1cm"), ("last", "0")],
     {"pieces": ["front", "back"], "above_mm": 50.0}),
    ("taper or widen", [("to", "widen"), ("by", "4cm"), ("seams", "10cm from side waist on side")],
     {"seams": [{"seam": "side", "corner": "side waist", "distance_mm": 100.0}]}),
    ("fold out", [("piece", "back"), ("mouth edge", "centre back"), ("mouth-corner", "neck"),
                  ("mouth_mm", "6cm"), ("hinge-edge", "side"), ("hinge-corner", "underarm"),
                  ("hinge", "6cm"), ("by", "8mm")],
     {"mouth_edge": "centre back", "mouth_mm": 60.0}),
    ("turn a dart", [("piece", "front"), ("dart", "bust dart"), ("edge", "side"),
                     ("corner", "side waist"), ("share", "40%")], {"share": 0.4}),
    ("join the side panels", [("at", "waist line: dart 60%, seams 40%"), ("at", "hip line")],
     {"at": [{"line": "waist line", "dart": 0.6, "seams": 0.4},
             {"line": "hip line", "dart": 0.0, "seams": 0.0}]}),
)  # fmt: skip


@pytest.mark.parametrize(("word", "given", "expected"), TYPED, ids=[row[0] for row in TYPED])
def test_every_sort_of_parameter_is_read_as_it_is_typed(
    word: str, given: list[tuple[str, str]], expected: dict[str, object]
) -> None:
    read = read_kind(word, given, hearing(Manner())).parameters()
    assert {name: read[name] for name in expected} == expected


#: kind, what was typed, a part of what is answered
NOT_TYPED = (
    ("move a notch", [("notch", "side notch")], "move a notch also needs piece, by"),
    ("move a notch", [("by", "5mm"), ("by", "6mm")], "by is said more than once: 5mm, 6mm"),
    ("move a notch", [("notches", "x")], "it has piece, notch, by, side, partner"),
    ("move a notch", [("partner", "perhaps")], "partner cannot be “perhaps”; say yes or no"),
    ("change the neckline", [("to", "wider")], "to cannot be “wider”; say tighter or looser"),
    ("level an edge", [("readings", "61cm at side waist")], "names no piece; write it like “5mm"),
    ("take in a seam", [("amounts", "5mm")], "names no place; write it like “5mm at 4cm from"),
    ("turn a dart", [("share", "half")], "share: “half” is not a number"),
    ("join the side panels", [("at", "waist line: all")], "say one of dart, seams"),
)  # fmt: skip


@pytest.mark.parametrize(("word", "given", "told"), NOT_TYPED)
def test_what_cannot_be_read_is_said_in_one_sentence(
    word: str, given: list[tuple[str, str]], told: str
) -> None:
    with pytest.raises(NotSaid) as refused:
        read_kind(word, given, hearing(Manner()))
    assert told in str(refused.value)


def test_a_note_is_settled_or_comes_back_at_a_later_fitting_only(studio: Store) -> None:
    _note(studio, "note-1")
    with pytest.raises(FittingError, match="a later one"):
        look_at_notes(studio, "mara", ["1.1"], None, settled=True)
    _fitting(studio, "fitting-2", LATER)
    with pytest.raises(FittingError, match="not altered"):
        look_at_notes(studio, "mara", ["1.1"], None, settled=True)
    accept_notes(studio, "mara", ["1.1"], TODAY)
    (row,) = look_at_notes(studio, "mara", ["1.1"], None, settled=False)
    assert row.state == "came back"
    _, waiting = notes_of(studio, "mara", waiting=True)
    assert [r.name for r in waiting] == ["1.1"]
    # It came back, so it may be altered again and settled at the fitting after.
    accept_notes(studio, "mara", ["1.1"], LATER)
    (row,) = look_at_notes(studio, "mara", ["1.1"], 2, settled=True)
    assert (row.state, row.dealt_with_in) == ("settled", "mara/bodice@3")
    with studio.reading() as books:
        assert sum("note" in str(e.subject) for e in books.journal("mara")) >= 4


def test_one_note_that_cannot_be_settled_leaves_the_others(studio: Store) -> None:
    _note(studio, "note-1")
    _note(studio, "note-2")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    _fitting(studio, "fitting-2", LATER)
    before = everything(studio.path)
    with pytest.raises(FittingError):
        look_at_notes(studio, "mara", ["1.1", "1.2"], None, settled=True)
    assert everything(studio.path) == before


def test_a_changed_note_leaves_its_old_words_in_the_journal(studio: Store) -> None:
    _note(studio, "note-1")
    change_note(studio, "mara", "1.1", lambda n: replace(n, fitter_words="only when she sits"))
    with studio.reading() as books:
        assert any("words of note-1" in str(e.before) for e in books.journal("mara"))


def test_a_garment_and_a_fitting_raise_a_versions_standing_and_never_lower_it(
    studio: Store,
) -> None:
    (row,) = versions_of(studio, "mara/bodice")
    assert row.standing == Standing.FITTED
    garment = Garment(
        garment_id="garment-2", kind=GarmentKind.TEST_GARMENT, cut_from=None, cloth="calico",
        made_on=TODAY,
    )  # fmt: skip
    add_garment(studio, garment, "mara/bodice", None, TODAY)
    (row,) = versions_of(studio, "mara/bodice")
    assert row.standing == Standing.FITTED


def test_a_bought_garment_needs_no_pattern_and_its_notes_no_outline(studio: Store) -> None:
    garment = Garment(
        garment_id="coat", kind=GarmentKind.BOUGHT, cut_from=None, cloth="wool", made_on=TODAY
    )
    kept = add_garment(studio, garment, None, "mara", TODAY)
    assert kept.garment.cut_from is None
    _fitting(studio, "fitting-2", LATER)
    _note(studio, "note-1", corner="wherever the coat has one")
    told = propose_notes(studio, "mara", ["2.1"])
    assert (told.parent.pattern, told.parent.number) == ("garment 2", 0)
    assert "in 10 mm at the wherever the coat has one" in told.proposals[0].sentence
    assert told.proposals[0].effect.leaves[0].startswith("mark it on the garment: Right and left")
    with pytest.raises(TrackerError, match="no version can be made: alter the garment itself"):
        accept_notes(studio, "mara", ["2.1"], TODAY)


def test_why_a_seam_is_there_names_the_note_that_asked(studio: Store) -> None:
    _note(studio, "note-1")
    accept_notes(studio, "mara", ["1.1"], TODAY)
    address, what, told = why_there(studio, "mara", Line(seam="side"))
    assert (str(address), what) == ("mara/bodice@2", "side seam")
    assert [b.reason.version for b in told] == ["mara/bodice@2", "mara/bodice@1"]
    assert told[0].notes[0].fitter_words == "words of note-1"
