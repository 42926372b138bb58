import datetime as dt

import pytest
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import kind_named
from tracker.errors import TrackerError
from tracker.fitting.against import against_the_sign, check_outlet, only_for_the_next
from tracker.fitting.garment import Garment, GarmentKind
from tracker.fitting.observation import Cause, Observation, Sign, State, read_word
from tracker.fitting.propose import Answer, answers, check_readings, propose
from tracker.fitting.reading import Reading, ReadingKind, understand
from tracker.fitting.rounds import rounds
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import girth

BLOCK = bodice()
R = ReadingKind


def read(kind: ReadingKind, value: float, corner: str = "side waist", **more: object) -> Reading:
    return Reading(kind=kind, corner=corner, value_mm=value, **more)


@pytest.mark.parametrize(
    ("seam", "side", "reading", "amount", "share"),
    [
        # a pinned fold takes up twice its depth, at this seam on each body side
        ("side", "both", read(R.PINNED_FOLD, 5), 10, 0.5),
        # on the wearer's right only, the same at that one seam
        ("side", "right", read(R.PINNED_FOLD, 5), 10, 0.5),
        # a gap goes in, once
        ("side", "both", read(R.GAP, 12), -12, 0.5),
        # a chalk line on the front is all of it from the front
        ("side", "both", read(R.CHALK_LINE, 6, piece="front"), 6, 1.0),
        ("side", "both", read(R.CHALK_LINE, 6, piece="back"), 6, 0.0),
        # the waist is 30 mm too large: 15 at each side seam
        ("side", "both", read(R.TAPE_DIFFERENCE, 30), 15, 0.5),
        # 30 mm too small
        ("side", "both", read(R.TAPE_DIFFERENCE, -30), -15, 0.5),
        # a centre seam exists once: the whole 30 there
        ("centre back", "centre", read(R.TAPE_DIFFERENCE, 30, "centre back waist"), 30, 0.5),
        ("centre back", "centre", read(R.PINNED_FOLD, 5, "centre back waist"), 10, 0.5),
        ("centre back", "centre", read(R.GAP, 8, "centre back waist"), -8, 0.5),
        # a line 4 mm from the centre back seam is on both backs: 8 out of the garment
        ("centre back", "centre",
         read(R.CHALK_LINE, 4, "centre back waist", piece="back"), 8, 0.5),
        ("centre back", "centre", read(R.ON_PAPER, 4, "centre back waist", piece="back"), 8, 0.5),
    ],
)  # fmt: skip
def test_each_reading_is_counted_right(
    seam: str, side: str, reading: Reading, amount: float, share: float
) -> None:
    got = understand(BLOCK, BLOCK.seam(seam), BodySide(side), [reading])
    assert got.amounts[0][2] == amount
    assert got.share == share


@pytest.mark.parametrize(
    ("seam", "side", "reading", "smaller"),
    [
        ("side", "both", read(R.PINNED_FOLD, 5), 20.0),
        ("side", "right", read(R.PINNED_FOLD, 5), 10.0),
        ("side", "both", read(R.GAP, 10), -20.0),
        ("side", "both", read(R.CHALK_LINE, 6, piece="front"), 12.0),
        ("side", "both", read(R.TAPE_DIFFERENCE, 24), 24.0),
        ("centre back", "centre", read(R.PINNED_FOLD, 5, "centre back waist"), 10.0),
        ("centre back", "centre", read(R.GAP, 8, "centre back waist"), -8.0),
        ("centre back", "centre", read(R.ON_PAPER, 4, "centre back waist", piece="back"), 8.0),
    ],
)
def test_the_waist_changes_by_what_the_reading_means(
    seam: str, side: str, reading: Reading, smaller: float
) -> None:
    note = Observation(
        observation_id="n1", fitting_id="f1", number=1, seam=seam, side=BodySide(side),
        sign=Sign.TOO_LOOSE, readings=(reading,),
    )  # fmt: skip
    nothing = (("underarm point", 0.0),) if seam == "side" else (("centre back neck", 0.0),)
    told = propose(BLOCK, note, to_nothing_at=nothing)
    assert girth(BLOCK, "waist line") - girth(told.pattern, "waist line") == pytest.approx(
        smaller, abs=0.25
    )


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ([], "no reading was given"),
        ([read(R.GAP, 3), read(R.PINNED_FOLD, 3)], "one way"),
        ([read(R.CHALK_LINE, 3, piece="sleeve")], "has no edge in the side seam"),
        ([read(R.CHALK_LINE, 3, piece="front"), read(R.CHALK_LINE, 3, piece="back")], "one piece"),
    ],
)
def test_readings_that_cannot_be_taken_together_are_told_why(
    readings: list[Reading], told: str
) -> None:
    with pytest.raises(TrackerError, match=told):
        understand(BLOCK, BLOCK.seam("side"), BodySide.BOTH, readings)


@pytest.mark.parametrize("kind", [R.CHALK_LINE, R.ON_PAPER])
def test_a_mark_on_one_piece_says_which(kind: ReadingKind) -> None:
    with pytest.raises(TrackerError, match="is on one piece; say which: on front or on back"):
        understand(BLOCK, BLOCK.seam("side"), BodySide.BOTH, [read(kind, 3)])


def test_a_mark_outside_the_seam_lets_out() -> None:
    got = understand(BLOCK, BLOCK.seam("side"), BodySide.BOTH, [read(R.ON_PAPER, -3, piece="back")])
    assert (got.amounts[0][2], got.share) == (-3, 0.0)
    assert got.sentence == "on paper: all of it on the back"


@pytest.mark.parametrize(
    ("sign", "kind", "told"),
    [
        (Sign.TOO_TIGHT, R.PINNED_FOLD, "says too tight, and this takes the side seam in"),
        (Sign.TOO_LOOSE, R.GAP, "says too loose, and this lets the side seam out"),
        (Sign.TOO_LOOSE, R.PINNED_FOLD, None),
        (Sign.STRAIN, R.GAP, None),
    ],
)
def test_an_amount_against_what_was_seen_is_pointed_at(
    sign: Sign, kind: ReadingKind, told: str | None
) -> None:
    seen = note(sign=sign, readings=(read(kind, 4),))
    said = against_the_sign(seen, propose(BLOCK, seen).kind)
    assert (told in said) if told and said else said is told


def test_a_gap_is_never_negative() -> None:
    with pytest.raises(TrackerError, match="never negative"):
        read(R.GAP, -3)


def note(**more: object) -> Observation:
    values: dict[str, object] = {
        "observation_id": "n1", "fitting_id": "f1", "number": 1, "seam": "side",
        "sign": Sign.TOO_LOOSE, "readings": (read(R.PINNED_FOLD, 5),),
    }  # fmt: skip
    return Observation(**(values | more))


def test_a_note_goes_from_open_to_altered_to_settled() -> None:
    done = note().altered_in("mara/bodice@2")
    assert (done.state, done.dealt_with_in) == (State.ALTERED, "mara/bodice@2")
    settled = done.looked_at("f2", settled=True)
    assert (settled.state, settled.settled_at) == (State.SETTLED, "f2")
    with pytest.raises(TrackerError, match="make a new note"):
        settled.altered_in("mara/bodice@3")


def test_a_note_that_came_back_waits_again_and_can_be_altered_again() -> None:
    back = note().altered_in("mara/bodice@2").looked_at("f2", settled=False)
    assert back.waiting
    assert back.altered_in("mara/bodice@3").state is State.ALTERED


def test_only_an_altered_note_can_be_settled() -> None:
    with pytest.raises(TrackerError, match="not altered"):
        note().looked_at("f2", settled=True)


def test_a_note_without_place_is_refused() -> None:
    with pytest.raises(TrackerError, match="tied to a seam or to a piece"):
        note(seam=None)


def test_a_reading_off_the_end_is_refused_before_it_is_written() -> None:
    with pytest.raises(TrackerError, match="off the end of the side seam"):
        check_readings(BLOCK, note(readings=(read(R.PINNED_FOLD, 5, distance_mm=900.0),)))


def test_a_note_without_amounts_asks_for_the_alteration() -> None:
    with pytest.raises(TrackerError, match="name the alteration yourself"):
        propose(BLOCK, note(readings=()))


def test_words_are_read_with_the_nearest_suggested() -> None:
    assert read_word(Cause, "Body", "cause") is Cause.BODY
    with pytest.raises(TrackerError, match="Did you mean gaping"):
        read_word(Sign, "gapping", "sign")


def test_rounds_are_counted() -> None:
    notes = [
        note(),
        note(observation_id="n2", number=2).altered_in("v2").looked_at("f2", settled=True),
        note(observation_id="n3", fitting_id="f2").altered_in("v2").looked_at("f3", settled=False),
    ]
    first, second = rounds(notes)
    assert (first.notes, first.settled, first.waiting) == (2, 1, 1)
    assert (second.notes, second.came_back, second.waiting) == (1, 1, 1)


def garment(kind: GarmentKind, outlet_mm: float = 15.0) -> Garment:
    return Garment(
        garment_id="g1", kind=kind, cut_from="mara/bodice@1", cloth="wool",
        made_on=dt.date(2026, 1, 1), outlet_mm=outlet_mm,
    )  # fmt: skip


def test_what_is_cut_in_cloth_is_let_out_no_further_than_its_allowance_less_six() -> None:
    out = propose(BLOCK, note(readings=(read(R.GAP, 20),))).kind
    with pytest.raises(TrackerError, match=r"10\.0 mm on a piece, and 9 mm is the most"):
        check_outlet(out, garment(GarmentKind.BASTED))
    check_outlet(out, garment(GarmentKind.BASTED, 25.0))
    check_outlet(out, garment(GarmentKind.TEST_GARMENT))
    check_outlet(propose(BLOCK, note()).kind, garment(GarmentKind.BASTED, 0.0))


def test_what_cut_cloth_cannot_have_is_said_to_be_for_the_next_garment() -> None:
    told = answers(BLOCK, note(seam=None, piece="back", readings=()), None, (),
                   Answer("round back", 10))  # fmt: skip
    said = only_for_the_next(told[0].kind, garment(GarmentKind.BASTED))
    assert said is not None
    assert "slash and spread" in said
    assert "by 9 mm on a piece" in said
    assert only_for_the_next(told[0].kind, garment(GarmentKind.TEST_GARMENT)) is None
    closed = answers(BLOCK, note(seam=None, piece="back", readings=()), None, (),
                     Answer("hollow back", 10))  # fmt: skip
    assert only_for_the_next(closed[0].kind, garment(GarmentKind.BASTED)) is None


def test_an_edge_is_drawn_out_no_further_than_the_allowance_either() -> None:
    out = answers(BLOCK, note(seam=None, piece="front", edge="armhole", readings=(
        read(R.CHALK_LINE, -12, "shoulder point", distance_mm=100.0),)))[0].kind  # fmt: skip
    with pytest.raises(TrackerError, match=r"armhole of the front would be let out 12\.0 mm"):
        check_outlet(out, garment(GarmentKind.FINISHED))


@pytest.mark.parametrize(
    ("word", "more", "line", "by"),
    [
        ("change the shoulder slope", {"to": "square", "by_mm": 12.0}, "(armhole|shoulder) of",
         12.0),
        ("change the shoulder length", {"to": "longer", "by_mm": 11.0}, "armhole of the", 11.0),
        ("raise or lower the armhole", {"to": "raise", "by_mm": 13.0}, "armhole of the", 13.0),
        ("move a corner", {"piece": "front", "corner": "shoulder point", "edge": "shoulder",
                           "along_mm": 10.5}, "armhole of the front", 10.5),
    ],
)  # fmt: skip
def test_an_edge_drawn_out_by_a_kind_is_measured_against_the_allowance(
    word: str, more: dict[str, object], line: str, by: float
) -> None:
    block = bodice()
    kind = kind_named(word).from_parameters(more)
    after = apply_step(kind, block, "one").pattern
    with pytest.raises(TrackerError, match=f"the {line}.* would be let out") as told:
        check_outlet(kind, garment(GarmentKind.BASTED), block, after)
    told_mm = float(told.value.sentence.split("let out ")[1].split(" mm")[0])
    assert told_mm == pytest.approx(by, abs=0.6)
    assert "9 mm is the most" in told.value.sentence
    check_outlet(kind, garment(GarmentKind.BASTED, by + 7.0), block, after)
    check_outlet(kind, garment(GarmentKind.TEST_GARMENT), block, after)


def test_what_is_only_taken_in_needs_no_allowance() -> None:
    block = bodice()
    for word, given in (
        ("change the shoulder slope", {"to": "sloping", "by_mm": 9.0, "underarm": False}),
        ("change the neckline", {"to": "looser", "by_mm": 20.0}),
        ("raise or lower the armhole", {"to": "lower", "by_mm": 15.0}),
    ):
        kind = kind_named(word).from_parameters(given)
        after = apply_step(kind, block, "one").pattern
        check_outlet(kind, garment(GarmentKind.FINISHED, 7.0), block, after)
