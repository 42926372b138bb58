"""Readings at a free edge of a piece and across its inside: what they come to, and how refused."""

import pytest
from fitted import fitted

from tracker.errors import TrackerError
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.propose import Proposal, answers, check_readings
from tracker.fitting.reading import Reading, ReadingKind
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern

R = ReadingKind


def at(kind: R, value: float, corner: str, distance: float = 0.0, **more: str) -> Reading:
    return Reading(kind=kind, value_mm=value, corner=corner, distance_mm=distance, **more)


def pinned(value: float, corner: str, distance: float = 0.0, **more: str) -> Reading:
    return at(R.PINNED_FOLD, value, corner, distance, **more)


def note(sign: Sign, *readings: Reading, **more: object) -> Observation:
    values: dict[str, object] = {
        "observation_id": "n1", "fitting_id": "f1", "number": 1, "sign": sign,
        "readings": readings,
    }  # fmt: skip
    return Observation(**(values | more))


def told(pattern: Pattern, one: Observation, *nothing: tuple[str, float]) -> tuple[Proposal, ...]:
    check_readings(pattern, one)
    return answers(pattern, one, None, nothing)


def length(pattern: Pattern, piece: str, edge: str) -> float:
    return pattern.piece(piece, None).edge(edge).length


def test_a_gaping_neckline_becomes_a_gap_closed_into_the_dart_where_it_was_pinned() -> None:
    # 6 mm deep, 40 mm from the neck point: 12 mm on each half, given to the bust dart.
    block = fitted("bodice")
    gape = note(Sign.GAPING, pinned(6, "neck point", 40), piece="front", edge="neckline")
    (one,) = told(block, gape)
    given = one.kind.parameters()
    assert one.kind.word == "close a gap into a dart"
    assert (given["by_mm"], given["corner"], given["distance_mm"]) == (12, "neck point", 40)
    dart = block.piece("front").dart("bust dart")
    now = one.pattern.piece("front").dart("bust dart")
    assert now.angle_rad > dart.angle_rad
    assert length(one.pattern, "front", "shoulder") == pytest.approx(
        length(block, "front", "shoulder"), abs=1e-5
    )


def test_a_panelled_neckline_without_a_dart_is_folded_out() -> None:
    block = fitted("panelled")
    gape = note(Sign.GAPING, pinned(4, "neck point", 40), piece="centre front", edge="neckline")
    (one,) = told(block, gape)
    assert one.kind.word == "fold out"
    assert one.kind.parameters()["by_mm"] == 8
    assert around(one.pattern, "neckline") < around(block, "neckline") - 10


def test_a_fold_pinned_once_at_the_centre_front_is_shared_by_the_halves() -> None:
    # Pinned once, 5 mm deep at the centre: 10 mm in all, 5 mm on each half. The centre front is
    # on the fold and stays straight.
    block = fitted("bodice")
    fold = note(
        Sign.GAPING, pinned(5, "centre front neck"), pinned(0, "centre front neck", 80),
        piece="front", edge="centre front",
    )  # fmt: skip
    (one,) = told(block, fold)
    assert one.kind.word == "close a gap into a dart"
    assert one.kind.parameters()["by_mm"] == 5
    assert one.kind.parameters()["edge"] == "neckline"
    assert "stays straight" in one.echo
    centre = one.pattern.piece("front").edge("centre front")
    assert all(abs(centre.point_at(s).real) < 1e-9 for s in (0.0, centre.length))


def test_a_mark_on_the_fold_is_refused_with_what_it_means_and_what_would_do() -> None:
    mark = note(Sign.TOO_LOOSE, at(R.ON_PAPER, 4, "centre front waist"), piece="front",
                edge="centre front")  # fmt: skip
    with pytest.raises(TrackerError, match="twice as much; take it out at the neckline"):
        told(fitted("bodice"), mark)


def test_a_fold_across_the_back_is_folded_out_to_nothing_at_the_side() -> None:
    # A fold 5 mm deep across the centre takes 10 mm of length from each half at the centre back.
    block = fitted("bodice")
    sway = note(
        Sign.FOLDS_ACROSS, pinned(5, "centre back waist", 40), pinned(0, "side waist", 40),
        piece="back",
    )  # fmt: skip
    (one,) = told(block, sway)
    assert one.kind.word == "fold out"
    given = one.kind.parameters()
    assert (given["mouth_edge"], given["hinge_edge"]) == ("centre back", "side")
    shorter = length(block, "back", "centre back") - length(one.pattern, "back", "centre back")
    assert shorter == pytest.approx(10.0, abs=0.15)
    assert length(one.pattern, "back", "side") == pytest.approx(
        length(block, "back", "side"), abs=0.05
    )


def test_where_a_fold_runs_out_can_be_said_when_it_is_proposed() -> None:
    sway = note(Sign.FOLDS_ACROSS, pinned(5, "centre back waist", 40), piece="back")
    (one,) = told(fitted("bodice"), sway, ("side waist", 40.0))
    assert one.kind.word == "fold out"
    with pytest.raises(TrackerError, match=r"where does it run out\?.*nothing at 4cm from"):
        told(fitted("bodice"), sway)


def test_a_slash_over_a_round_back_is_spread_by_its_gap_once() -> None:
    # The Dressmaker (1910s), part 8: the opening is what the back wants; it hinges at the
    # armhole, which keeps its length.
    block = fitted("bodice")
    stoop = note(
        Sign.RIDING_UP, at(R.GAP, 12, "centre back neck", 110),
        at(R.GAP, 0, "shoulder point", 90, edge="armhole"), piece="back",
    )  # fmt: skip
    (one,) = told(block, stoop)
    assert one.kind.word == "slash and spread"
    longer = length(one.pattern, "back", "centre back") - length(block, "back", "centre back")
    assert longer == pytest.approx(12.0, abs=0.3)
    assert length(one.pattern, "back", "armhole") == pytest.approx(
        length(block, "back", "armhole"), abs=0.05
    )


def test_a_fold_of_the_same_depth_to_the_side_seam_goes_right_round() -> None:
    # 5 mm deep at both ends: every piece 10 mm shorter (a fold takes up twice its depth, Central
    # Washington University costume text, chapter 17).
    block = fitted("bodice")
    low = note(
        Sign.FOLDS_ACROSS, pinned(5, "centre back waist", 65), pinned(5, "side waist", 65),
        piece="back",
    )  # fmt: skip
    (one,) = told(block, low)
    assert one.kind.word == "lengthen or shorten"
    for piece, edge in (("back", "centre back"), ("front", "centre front"), ("back", "side")):
        shorter = length(block, piece, edge) - length(one.pattern, piece, edge)
        assert shorter == pytest.approx(10.0, abs=0.1)


def test_a_fold_deeper_at_the_centre_is_a_length_and_a_wedge() -> None:
    block = fitted("bodice")
    both = note(
        Sign.FOLDS_ACROSS, pinned(8, "centre back waist", 65), pinned(3, "side waist", 65),
        piece="back",
    )  # fmt: skip
    steps = told(block, both)
    assert [p.kind.word for p in steps] == ["lengthen or shorten", "fold out"]
    new = steps[-1].pattern
    assert length(block, "back", "side") - length(new, "back", "side") == pytest.approx(6, abs=0.2)
    centre = length(block, "back", "centre back") - length(new, "back", "centre back")
    assert centre == pytest.approx(16.0, abs=0.3)


def test_chalk_at_an_armhole_without_a_sleeve_moves_that_piece_only() -> None:
    block = fitted("bodice")
    chalk = note(
        Sign.TOO_TIGHT, at(R.CHALK_LINE, 0, "shoulder point"),
        at(R.CHALK_LINE, 6, "shoulder point", 100), at(R.CHALK_LINE, 0, "underarm point"),
        piece="front", edge="armhole",
    )  # fmt: skip
    (one,) = told(block, chalk)
    assert one.kind.word == "reshape an edge"
    assert one.pattern.piece("back") == block.piece("back")
    edge, old = one.pattern.piece("front").edge("armhole"), block.piece("front").edge("armhole")
    assert old.nearest(edge.point_at(100))[1] == pytest.approx(6.0, abs=0.3)


@pytest.mark.parametrize(("part", "into"), [("front", "bust dart"), ("back", "shoulder dart")])
def test_a_gaping_armhole_closes_into_the_dart_of_its_piece(part: str, into: str) -> None:
    gape = note(Sign.GAPING, pinned(4, "shoulder point", 110), piece=part, edge="armhole")
    (one,) = told(fitted("bodice"), gape)
    assert one.kind.word == "close a gap into a dart"
    given = one.kind.parameters()
    assert (given["dart"], given["by_mm"], given["distance_mm"]) == (into, 8, 110)


def test_a_hem_is_levelled_from_the_floor_by_the_difference_at_each_place() -> None:
    # 600 mm wanted; 612 read at the side: raised... a hem that hangs 12 mm too high is lowered.
    skirt = fitted("skirt")
    hem = note(
        Sign.OFF_LEVEL, at(R.FROM_FLOOR, 600, ""),
        at(R.FROM_FLOOR, 600, "centre front hem", piece="front"),
        at(R.FROM_FLOOR, 612, "side hem", piece="front"),
        at(R.FROM_FLOOR, 600, "centre back hem", piece="back"), edge="hem",
    )  # fmt: skip
    (one,) = told(skirt, hem)
    assert one.kind.word == "level an edge"
    for piece, centre in (("front", "centre front"), ("back", "centre back")):
        now = length(one.pattern, piece, "side") - length(skirt, piece, "side")
        assert now == pytest.approx(12.0, abs=0.2)
        assert length(one.pattern, piece, centre) == pytest.approx(
            length(skirt, piece, centre), abs=0.05
        )


def test_a_hem_read_from_the_floor_says_the_height_it_is_wanted_at() -> None:
    hem = note(Sign.OFF_LEVEL, at(R.FROM_FLOOR, 610, "side hem", piece="front"), edge="hem")
    with pytest.raises(TrackerError, match="how high above the floor is it to hang"):
        told(fitted("skirt"), hem)


def test_a_hem_pinned_up_moves_by_what_is_turned_up_counted_once() -> None:
    skirt = fitted("skirt")
    up = note(
        Sign.TOO_LONG, pinned(20, "side hem", piece="front"), pinned(20, "side hem", piece="back"),
        edge="hem",
    )  # fmt: skip
    (one,) = told(skirt, up)
    assert one.kind.word == "raise or lower an edge"
    assert "counted once" in one.echo
    shorter = length(skirt, "front", "side") - length(one.pattern, "front", "side")
    assert shorter == pytest.approx(20, abs=0.1)


def test_a_hem_pinned_up_differently_is_drawn_on_each_piece_and_leaves_nothing_to_do() -> None:
    skirt = fitted("skirt")
    up = note(
        Sign.OFF_LEVEL, pinned(20, "side hem", piece="front"), pinned(20, "side hem", piece="back"),
        pinned(12, "centre front hem", piece="front"), pinned(24, "centre back hem", piece="back"),
        edge="hem",
    )  # fmt: skip
    steps = told(skirt, up)
    assert [p.kind.word for p in steps] == ["reshape an edge", "reshape an edge"]
    new = steps[-1].pattern
    for piece in ("front", "back"):
        shorter = length(skirt, piece, "side") - length(new, piece, "side")
        assert shorter == pytest.approx(20, abs=0.2)
    assert not any("side seam" in left for p in steps for left in p.effect.leaves)


def test_a_seam_chalked_where_it_should_run_is_shifted_there() -> None:
    block = fitted("bodice")
    forward = note(
        Sign.OFF_PLACE, at(R.CHALK_LINE, 9, "shoulder point", piece="front"),
        at(R.CHALK_LINE, 0, "neck point", piece="front"), seam="shoulder",
    )  # fmt: skip
    (one,) = told(block, forward)
    assert one.kind.word == "shift a seam"
    assert "9 mm towards the front at the shoulder point" in one.sentence
    assert around(one.pattern, "armhole") == pytest.approx(around(block, "armhole"), abs=0.2)


def test_a_fold_pinned_in_a_waist_is_taken_by_the_dart_there() -> None:
    block = fitted("bodice")
    fold = note(Sign.TOO_LOOSE, pinned(3, "centre back waist", 70), piece="back", edge="waist")
    (one,) = told(block, fold)
    assert one.kind.word == "change a dart"
    assert one.kind.parameters()["deeper_mm"] == 6
    assert girth(block, "waist line") - girth(one.pattern, "waist line") == pytest.approx(12, abs=1)


def test_readings_at_an_edge_that_is_sewn_are_read_at_its_seam() -> None:
    block = fitted("bodice")
    for kind, share in ((R.PINNED_FOLD, 0.5), (R.CHALK_LINE, 0.0)):
        loose = note(Sign.TOO_LOOSE, at(kind, 4, "side waist"), at(kind, 0, "underarm point"),
                     piece="back", edge="side")  # fmt: skip
        (one,) = told(block, loose)
        assert one.kind.word == "take in a seam"
        assert one.kind.parameters()["share"] == share


def test_one_body_side_is_altered_alone() -> None:
    block = fitted("bodice")
    gape = note(
        Sign.GAPING, pinned(5, "neck point", 40), piece="front", edge="neckline",
        side=BodySide.LEFT,
    )  # fmt: skip
    (one,) = told(block, gape)
    assert one.kind.parameters()["side"] == "left"
    assert one.kind.parameters()["by_mm"] == 10


@pytest.mark.parametrize(
    ("one", "words"),
    [
        (note(Sign.GAPING, pinned(5, "neck point", 40), piece="front", edge="neckline"),
         "Gap of 10 mm on each half at the neckline of the front"),
        (note(Sign.FOLDS_ACROSS, pinned(5, "centre back waist", 40), pinned(0, "side waist", 40),
              piece="back"), "Back folded out from the centre back 40 mm from the centre back w"),
        (note(Sign.TOO_LONG, at(R.CHALK_LINE, 10, "side waist"), piece="front", edge="waist"),
         "Waist of the front in 10 mm at the side waist"),
    ],
)  # fmt: skip
def test_a_paper_pattern_is_marked_in_words(one: Observation, words: str) -> None:
    (proposed,) = told(fitted("paper"), one)
    assert any(words in left for left in proposed.effect.leaves)


@pytest.mark.parametrize(
    ("one", "words"),
    [
        (note(Sign.GAPING, pinned(5, "neck pint", 40), piece="front", edge="neckline"),
         "no corner called “neck pint”.*Did you mean neck point"),
        (note(Sign.GAPING, pinned(5, "neck point", 400), piece="front", edge="neckline"),
         "off the end of the neckline"),
        (note(Sign.OTHER, pinned(5, "neck point", 10), piece="front"),
         "end of the neckline and of the shoulder; say which"),
        (note(Sign.GAPING, pinned(5, "neck point", 40), at(R.GAP, 2, "neck point", 60),
              piece="front", edge="neckline"), "one way"),
        (note(Sign.OTHER, pinned(5, "neck point", 40), piece="front", edge="neckline"),
         "does not say what is to be altered, seen as “other”"),
        (note(Sign.GAPING, pinned(5, "neck point", 20, edge="shoulder"),
              pinned(4, "centre back waist", 30, edge="waist"), piece="back"),
         "takes the piece in from edge to edge"),
        (note(Sign.OFF_LEVEL, pinned(5, "side hem"), edge="hem"), "no piece .* called 'hem'"),
        (note(Sign.TOO_LONG, edge="wast"), "Did you mean waist"),
        (note(Sign.OFF_LEVEL, at(R.FROM_FLOOR, 600, "side waist"), seam="side"),
         "name the edge with --edge, not a seam"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_told_in_a_sentence(one: Observation, words: str) -> None:
    with pytest.raises(TrackerError, match=words):
        told(fitted("bodice"), one)
