"""Fitting problems in a fitter's words, on all sorts of garments: what is proposed for each.

What a good fitter would do is common practice, no source, except where the table of signs names a
handbook for the row.
"""

from typing import Any

import pytest
from fitted import fitted

from tracker.fitting.observation import Observation, read_sign
from tracker.fitting.propose import Answer, answers, check_readings
from tracker.fitting.reading import Reading, ReadingKind
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import around, girth
from tracker.pattern.walk import side_lengths

R = ReadingKind
PIN, GAP, CHALK, TAPE, FLOOR = (
    R.PINNED_FOLD, R.GAP, R.CHALK_LINE, R.TAPE_DIFFERENCE, R.FROM_FLOOR,
)  # fmt: skip


def at(kind: R, value: float, corner: str, distance: float = 0.0, **more: str) -> Reading:
    return Reading(kind=kind, value_mm=value, corner=corner, distance_mm=distance, **more)


def seen(sign: str, *readings: Reading, **more: Any) -> Observation:
    return Observation(
        observation_id="n1", fitting_id="f1", number=1, sign=read_sign(sign), readings=readings,
        **more,
    )  # fmt: skip


#: (garment, what is noted, the answer if one was given, the kinds, some of the last's parameters)
PROBLEMS: tuple[tuple[str, Observation, Answer | None, str, dict[str, Any]], ...] = (
    ("bodice", seen("stands off", at(PIN, 3, "centre back neck", 40), piece="back",
                    edge="neckline"), None, "add a dart", {"width_mm": 6, "distance_mm": 40}),
    ("bodice", seen("gaping", at(PIN, 3, "centre back neck"), piece="back", edge="neckline"), None,
     "take in a seam", {"seam": "centre back"}),
    ("bodice", seen("tight", at(GAP, 4, "centre front neck"), piece="front", edge="neckline"),
     None, "change the neckline", {"to": "looser", "by_mm": 4}),
    ("bodice", seen("tight", at(TAPE, -12, "neck point", piece="front"), edge="neckline"), None,
     "change the neckline", {"by_mm": 12, "places": []}),
    ("bodice", seen("folds along", at(PIN, 3, "shoulder point", 120, edge="armhole"),
                    piece="back"), None, "change the width across",
     {"line": "across back", "to": "narrower", "by_mm": 12}),
    ("bodice", seen("tight", at(GAP, 8, "shoulder point", 120, edge="armhole"), piece="back"),
     None, "change the width across", {"line": "across back", "to": "wider", "by_mm": 16}),
    ("bodice", seen("cuts in", edge="armhole", fitter_words="cuts in under the arm"),
     Answer("1", 8), "raise or lower the armhole", {"to": "lower", "by_mm": 8}),
    ("bodice", seen("swings", at(CHALK, 12, "side waist", piece="back"),
                    at(CHALK, 0, "underarm point", piece="back"), seam="side"), None,
     "shift a seam", {"towards": "back"}),
    ("bodice", seen("folds across", piece="front", direction="sags below the bust"),
     Answer("1", 8), "take in a seam", {"seam": "shoulder", "share": 1}),
    ("bodice", seen("folds across", at(PIN, 4, "centre front neck", 60),
                    at(PIN, 0, "shoulder point", 80, edge="armhole"), piece="front"), None,
     "fold out", {"by_mm": 8, "centre": "straighten the fold"}),
    ("bodice", seen("off place", piece="front", fitter_words="dart points above the bust"),
     Answer("1", 20), "move a dart", {"toward": "side waist", "by_mm": 20}),
    ("bodice", seen("off place", piece="front", fitter_words="dart pokes past the bust"),
     Answer("1", 12), "change a dart", {"stand_back_mm": 37}),
    ("bodice", seen("loose", at(TAPE, 24, "side waist"), at(TAPE, 0, "underarm point"),
                    seam="side"), None, "take in a seam", {"share": 0.5}),
    ("bodice", seen("too long", at(PIN, 10, "side waist", piece="back"),
                    at(PIN, 10, "side waist", piece="front"), edge="waist"), None,
     "raise or lower an edge", {"edge": "waist", "by_mm": 10}),
    ("bodice", seen("folds across", seam="shoulder", side=BodySide.LEFT,
                    fitter_words="left shoulder is lower"), Answer("1", 6),
     "change the shoulder slope", {"side": "left", "by_mm": 6}),
    ("panelled", seen("drag lines", seam="shoulder", direction="from the neck to the underarm"),
     Answer("1", 6), "change the shoulder slope; move a corner", {"piece": "side back"}),
    ("panelled", seen("gaping", at(PIN, 3, "shoulder point", 110), piece="side front",
                      edge="armhole"), None, "fold out", {"hinge_edge": "front princess"}),
    ("panelled", seen("folds across", piece="centre back", direction="above the waist"),
     Answer("1", 10), "slash across the pieces", {"first_mm": -10, "last_mm": 0}),
    ("panelled", seen("loose", at(TAPE, 30, "back princess waist"),
                      at(TAPE, 0, "back princess armhole"), seam="back princess"), None,
     "take in a seam", {"seam": "back princess"}),
    ("sleeved", seen("tight", at(GAP, 18, "front underarm point", 100, edge="cap"),
                     piece="sleeve", direction="upper arm"), None, "change the upper arm",
     {"to": "fuller", "by_mm": 18}),
    ("sleeved", seen("folds across", at(PIN, 4, "front underarm point", 200, edge="cap"),
                     piece="sleeve", direction="below the shoulder"), None,
     "raise or lower the cap", {"to": "lower", "by_mm": 8}),
    ("sleeved", seen("twisting", piece="sleeve", direction="from the back of the cap"),
     Answer("1", 8), "turn the sleeve", {"to": "forward", "by_mm": 8}),
    ("sleeved", seen("tight", at(GAP, 10, "front wrist"), piece="sleeve", edge="wrist"), None,
     "taper or widen", {"to": "widen", "by_mm": 10, "round": "each sleeve or leg"}),
    ("sleeved", seen("too long", piece="sleeve", side=BodySide.LEFT), Answer("1", 12),
     "raise or lower an edge", {"edge": "wrist", "side": "left"}),
    ("skirt", seen("rides up", at(GAP, 8, "side waist", 200), at(GAP, 8, "side hem"),
                   at(GAP, 0, "side waist"), seam="side"), None, "take in a seam", {}),
    ("skirt", seen("rides up", piece="front", fitter_words="over the tummy"), Answer("1", 15),
     "reshape an edge", {"piece": "front", "edge": "waist"}),
    ("skirt", seen("drag lines", seam="side", side=BodySide.RIGHT,
                   direction="to the right hip, which is higher"), Answer("1", 10),
     "move a corner; move a corner", {"corner": "side waist", "along_mm": 10}),
    ("skirt", seen("loose", at(PIN, 4, "centre back waist", 80), piece="back", edge="waist"), None,
     "change a dart", {"deeper_mm": 8}),
    ("trousers", seen("folds along", piece="back", direction="under the seat"), Answer("1", 12),
     "change the crotch length", {"back_mm": -12, "at": "centre"}),
    ("trousers", seen("drag lines", piece="front", direction="from the crotch up, in front"),
     Answer("crotch too short in front", 8), "change the crotch length",
     {"front_mm": 8, "at": "inside-leg point"}),
    ("trousers", seen("too long", seam="inside leg"), Answer("1", 15), "change the crotch depth",
     {"by_mm": -15}),
    ("trousers", seen("cuts in", at(CHALK, 5, "inside-leg point", 80), piece="back",
                      edge="crotch", fitter_words="at the curve"), None,
     "scoop or fill the crotch", {"piece": "back", "by_mm": 5}),
    ("trousers", seen("tight", seam="inside leg", fitter_words="round the thigh"),
     Answer("thigh too tight", 20), "move the inside-leg point", {"front_mm": 10, "back_mm": 10}),
    ("trousers", seen("twisting", seam="inside leg", fitter_words="knees turn in"),
     Answer("knock knees", 15), "swing the leg", {"to": "outwards", "by_mm": 15}),
    ("torso", seen("standing away", seam="centre back", fitter_words="hollow at the waist"),
     Answer("waist hollow behind", 12), "take in a seam", {"seam": "centre back"}),
    ("paper", seen("rides up", piece="back", direction="blades"), Answer("1", 12),
     "slash and spread", {"by_mm": 12}),
    ("paper", seen("loose", at(PIN, 6, "side waist"), at(PIN, 0, "underarm point"), seam="side",
                   side=BodySide.RIGHT), None, "take in a seam", {"side": "right"}),
)  # fmt: skip


@pytest.mark.parametrize(
    ("garment", "note", "answer", "kinds", "given"),
    PROBLEMS,
    ids=[f"{g}: {n.where} {n.sign} {n.direction or n.fitter_words}" for g, n, *_ in PROBLEMS],
)
def test_what_a_fitter_would_do_is_proposed(
    garment: str, note: Observation, answer: Answer | None, kinds: str, given: dict[str, Any]
) -> None:
    pattern = fitted(garment)
    check_readings(pattern, note)
    told = answers(pattern, note, None, (), answer)
    assert "; ".join(p.kind.word for p in told) == kinds
    found = told[-1].kind.parameters()
    assert {name: found[name] for name in given} == given
    if garment == "paper":
        assert told[-1].effect.leaves[0].startswith("mark it on the paper")
    elif kinds != "change a dart" or "stand_back_mm" not in given:
        assert told[-1].pattern != pattern


def test_a_sloping_shoulder_on_a_panelled_back_leaves_the_side_seam_equal() -> None:
    low = seen("drag lines", seam="shoulder", direction="from the neck to the underarm")
    told = answers(fitted("panelled"), low, None, (), Answer("sloping shoulders", 6))
    one, two = side_lengths(told[-1].pattern, told[-1].pattern.seam("side"))
    assert one == pytest.approx(two, abs=0.1)
    assert not any("side seam" in left for left in told[-1].effect.leaves)


def test_a_whole_waist_without_a_side_seam_is_shared_by_the_panel_seams() -> None:
    from tracker.alterations.engine import apply_step
    from tracker.alterations.kind import kind_named

    joined = kind_named("join the side panels").from_parameters(
        {"opening_in": "centre back", "at": [{"line": "waist line", "dart": 1.0}]}
    )
    seamless = apply_step(joined, fitted("panelled"), "join").pattern
    loose = seen("loose", piece="side panel", fitter_words="at the waist")
    told = answers(seamless, loose, None, (), Answer("waist too loose", 24))
    assert [p.kind.word for p in told] == ["take in a seam"] * 2
    smaller = girth(seamless, "waist line") - girth(told[-1].pattern, "waist line")
    assert smaller == pytest.approx(24, abs=0.8)


def test_an_uneven_pattern_is_altered_on_both_sides_and_on_one() -> None:
    # A low right shoulder first; then a gaping neckline on both halves, or on the left only.
    block = fitted("bodice")
    low = seen("loose", seam="shoulder", side=BodySide.RIGHT)
    uneven = answers(block, low, None, (), Answer("one shoulder lower", 4))[-1].pattern
    for side, times in ((BodySide.BOTH, 2), (BodySide.LEFT, 1)):
        gape = seen("gapes", at(PIN, 4, "neck point", 40), piece="front", edge="neckline",
                    side=side)  # fmt: skip
        (one,) = answers(uneven, gape)
        shorter = around(uneven, "neckline") - around(one.pattern, "neckline")
        assert shorter == pytest.approx(times * 6, abs=times)


def test_a_hollow_back_is_folded_out_of_a_torso_in_one_step_and_its_dart_drawn_again() -> None:
    block = fitted("torso")
    sway = seen("folds across", piece="back", direction="small of the back")
    told = answers(block, sway, None, (), Answer("hollow back", 10))
    assert [p.kind.word for p in told] == ["fold out"]
    old, new = block.piece("back"), told[-1].pattern.piece("back")
    shorter = old.edge("centre back").length - new.edge("centre back").length
    assert shorter == pytest.approx(10, abs=0.15)
    assert new.edge("side").length == pytest.approx(old.edge("side").length, abs=0.05)
    was, now = old.dart("waist dart"), new.dart("waist dart")
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=0.01)
    assert girth(told[-1].pattern, "waist line") == pytest.approx(
        girth(block, "waist line"), abs=1.0
    )
    assert not any(left for p in told for left in p.effect.leaves)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_round_blade_leaves_the_centre_seam_and_grows_the_shoulder_dart(side: BodySide) -> None:
    for garment in ("bodice", "torso"):
        block = fitted(garment)
        rides = seen("riding up", piece="back", side=side, fitter_words="round on one side")
        told = answers(block, rides, None, (), Answer("round back", 12))
        assert [p.kind.word for p in told] == ["slash and spread", "close a gap into a dart"]
        new = told[-1].pattern
        old, back = block.piece("back"), new.piece("back", side)
        assert back.edge("centre back").length == pytest.approx(
            old.edge("centre back").length, abs=0.1
        )
        assert back.edge("armhole").length == pytest.approx(old.edge("armhole").length, abs=1.5)
        wider = back.dart("shoulder dart").intake_mm - old.dart("shoulder dart").intake_mm
        assert wider > 6
        one, two = side_lengths(new, new.seam("centre back"))
        assert one == pytest.approx(two, abs=0.1)


def test_a_hollow_chest_on_one_side_goes_by_where_it_is_seen() -> None:
    block = fitted("bodice")
    for edge, mouth in (("", "neckline"), ("armhole", "armhole")):
        note = seen("folds across", piece="front", edge=edge, side=BodySide.LEFT,
                    direction="above the bust")  # fmt: skip
        (told,) = answers(block, note, None, (), Answer("hollow chest", 8))
        assert told.kind.word == "fold out"
        assert told.kind.parameters()["mouth_edge"] == mouth
        left, right = (told.pattern.piece("front", s) for s in (BodySide.LEFT, BodySide.RIGHT))
        shorter = right.edge(mouth, BodySide.RIGHT).length - left.edge(mouth, BodySide.LEFT).length
        assert shorter == pytest.approx(8, abs=0.4)


@pytest.mark.parametrize("garment", ["bodice", "torso"])
@pytest.mark.parametrize("side", [BodySide.BOTH, BodySide.RIGHT])
@pytest.mark.parametrize(("cause", "by"), [("full bust", 20), ("small bust", -14)])
def test_a_bust_is_given_its_room_on_a_torso_and_on_one_side_with_the_centre_met(
    garment: str, side: BodySide, cause: str, by: float
) -> None:
    block = fitted(garment)
    note = seen("strain" if by > 0 else "folds along", piece="front", side=side)
    told = answers(block, note, None, (), Answer(cause, abs(by)))
    assert [p.kind.word for p in told] == ["more or less bust volume"]
    new = told[-1].pattern
    assert girth(new, "bust line") - girth(block, "bust line") == pytest.approx(by, abs=0.1)
    if side is not BodySide.BOTH:
        # The centre stays as it is and needs no seam.
        assert new.piece("front").side is BodySide.CENTRE
        line = new.piece("front").level("centre front", BodySide.CENTRE).strokes[0]
        centre = block.piece("front").edge("centre front").length
        assert abs(line[-1] - line[0]) == pytest.approx(centre, abs=0.05)
