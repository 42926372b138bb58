"""A drafted size 12 against published drafts: free quantities fall where handbooks put them.

Two published drafts are used for the bodice, both from memory: a close-fitting textbook block
in British size 12, and the proportional block of a Japanese college (its eighth form) worked out
for bust 88 and waist 68. Their figures differ from each other; what is asked is that ours lies
between them, or as near as the width of the stated play.
"""

import math

import pytest
from published.bodies import chart_bodies

from tracker.body.body import Body
from tracker.body.estimate import estimate
from tracker.drafting.bodice import Draft, draft_bodice
from tracker.pattern.measure import around, level_length

TEXTBOOK = next(one for one in chart_bodies() if one.name == "textbook size 12")


@pytest.fixture(scope="module")
def draft() -> Draft:
    return draft_bodice(TEXTBOOK.body)


@pytest.mark.parametrize(
    ("piece", "published", "play"),
    [
        ("back", (72.0, 72.67), 4.0),  # neck/5 - 0.2 = 7.2; B/24 + 3.4 + 0.2 = 7.267
        ("front", (67.0, 70.67), 4.0),  # neck/5 - 0.7 = 6.7; B/24 + 3.4 = 7.067
    ],
)
def test_neck_widths(draft: Draft, piece: str, published: tuple[float, float], play: float) -> None:
    width = abs(draft.pattern.piece(piece).corner("neck point").real)
    assert published[0] - play <= width <= published[1] + play


def test_front_neck_depth(draft: Draft) -> None:
    front = draft.pattern.piece("front")
    depth = front.corner("neck point").imag - front.corner("centre front neck").imag
    # neck/5 - 0.2 = 7.2; front neck width + 0.5 = 7.567
    assert 72.0 - 4.0 <= depth <= 75.67 + 4.0


def test_back_neck_rise(draft: Draft) -> None:
    back = draft.pattern.piece("back")
    rise = back.corner("neck point").imag - back.corner("centre back neck").imag
    # 1.5 on the textbook block; a third of the back neck width, 2.422, on the other
    assert 15.0 <= rise <= 24.22 + 1.0


def test_the_front_shoulder_is_steeper_than_the_back(draft: Draft) -> None:
    rows = {row.name: row.got for row in draft.chosen}
    # 22 and 18 degrees on the proportional block; trade figures front 19-22, back 17-19
    assert rows["front shoulder slope less back"] == pytest.approx(4.0, abs=2.0)


def test_back_shoulder_dart(draft: Draft) -> None:
    # Common practice: 1/2 to 3/4 in. The two blocks: 10 mm and B/32 - 0.8 = 19.5 mm.
    assert 12.0 <= draft.pattern.piece("back").dart("shoulder dart").intake_mm <= 19.5


def test_bust_dart_angle(draft: Draft) -> None:
    angle = math.degrees(draft.pattern.piece("front").dart("bust dart").angle_rad)
    # 2 cm on a 13 cm side dart is 8.8 degrees; 7 cm on 24 cm is 16.8; B/4 - 2.5 is 19.5.
    assert 8.82 <= angle <= 19.5


def test_front_waist_dart_by_the_girth_rule(draft: Draft) -> None:
    front = draft.pattern.piece("front")
    dart = front.dart("waist dart")
    # Common practice: (bust - waist) x dart length / (4 x waist to bust point), body figures.
    drop = dart.leg_lengths[0]
    by_rule = (880 - 680) * (drop - dart.stand_back_mm) / (4 * drop)
    assert dart.intake_mm == pytest.approx(by_rule, rel=0.25)


def test_the_waist_intake_is_shared_like_the_proportional_block(draft: Draft) -> None:
    front, back = draft.pattern.piece("front"), draft.pattern.piece("back")
    taken = (930.0 - 705.0) / 2
    # Front 14 + 15 %, back 7 + 18 %, side and side back 11 + 35 % of the whole.
    assert 0.24 <= front.dart("waist dart").intake_mm / taken <= 0.40
    assert 0.20 <= back.dart("waist dart").intake_mm / taken <= 0.35
    darts = front.dart("waist dart").intake_mm + back.dart("waist dart").intake_mm
    assert 0.25 <= 1 - darts / taken <= 0.50


def test_armhole_width_beyond_the_across_lines(draft: Draft) -> None:
    front, back = draft.pattern.piece("front"), draft.pattern.piece("back")
    room = sum(
        abs(piece.corner("underarm point").real) - abs(piece.level(line).strokes[0][-1].real)
        for piece, line in ((front, "across front"), (back, "across back"))
    )
    # Textbook block: 11.6 cm; its widths across are 35 mm (half the dart) wider in front.
    assert 100.0 <= room <= 116.0 + 35.0


def test_armhole_length_is_about_half_the_bust(draft: Draft) -> None:
    # Common practice, no source: armhole of a close block near half the bust girth.
    assert around(draft.pattern, "armhole") / 2 == pytest.approx(440.0, abs=20.0)


#: The college block's figures, worked out for two bodies: bust, waist, then back and front neck
#: widths, back neck rise, front neck depth, half back and front widths, back shoulder dart, bust
#: dart angle; all but the sample body (bust 83, waist 64, back length 38) from memory.
PROPORTIONAL = (
    (830.0, 640.0, 70.58, 68.58, 23.53, 73.58, 177.8, 165.8, 17.94, 18.25),
    (880.0, 680.0, 72.67, 70.67, 24.22, 75.67, 184.0, 172.0, 19.50, 19.50),
)


@pytest.mark.parametrize("row", PROPORTIONAL, ids=["bust 83", "bust 88"])
def test_a_body_known_by_bust_waist_and_back_length_comes_near_the_proportional_block(
    row: tuple[float, ...],
) -> None:
    bust, waist, back_width, front_width, rise, depth, back, front, shoulder_dart, angle = row
    body = Body.of({"bust-girth": bust, "waist-girth": waist, "back-neck-to-waist": 380.0})
    block = draft_bodice(estimate(body)).pattern
    ahead, behind = block.piece("front"), block.piece("back")
    nape = behind.corner("centre back neck")
    assert behind.corner("neck point").real == pytest.approx(back_width, abs=4.0)
    assert behind.corner("neck point").imag - nape.imag == pytest.approx(rise, abs=3.0)
    assert abs(ahead.corner("neck point").real) == pytest.approx(front_width, abs=5.0)
    fall = ahead.corner("neck point").imag - ahead.corner("centre front neck").imag
    assert fall == pytest.approx(depth, abs=7.0)
    # That block has 12 cm of ease at the bust, ours 5 cm: a share of the rest is across the body.
    for piece, line, width in ((behind, "across back", back), (ahead, "across front", front)):
        got = level_length(piece, piece.level(line)) + (
            piece.dart("shoulder dart").intake_mm / 2 if piece is behind else 0.0
        )
        assert width - 14.0 <= got <= width, line
    assert behind.dart("shoulder dart").intake_mm == pytest.approx(shoulder_dart, abs=6.0)
    # A study of 2021 calls its bust darts too large; the smallest published is 8.8 degrees.
    assert 8.82 <= math.degrees(ahead.dart("bust dart").angle_rad) <= angle


def test_shoulder_drop(draft: Draft) -> None:
    # Worked out: over a shoulder of 12.25 cm 3.79 cm at 18 degrees, 4.59 at 22, 5.02 at 24.2; trade
    # figures have the back at 17 to 19, the front at 19 to 22; the survey of 1979 has 24.2.
    for piece in draft.pattern.pieces:
        drop = piece.corner("neck point").imag - piece.corner("shoulder point").imag
        assert 37.9 <= drop <= 50.2 + 2.0, piece.name


def test_armhole_depth_and_length_between_the_two_blocks(draft: Draft) -> None:
    back = draft.pattern.piece("back")
    depth = (back.corner("centre back neck") - back.corner("underarm point")).imag
    # Textbook: 21 + 0.5 cm below a line 1.5 cm above the nape, 20.0 below the nape; the other
    # block: B/12 + 13.7 = 21.03; an older one B/6 + 7 = 21.67. All with their ease.
    assert 200.0 <= depth <= 221.0


def test_larger_busts_get_larger_bust_darts_than_smaller_ones() -> None:
    # Textbook increment: 0.6 cm more dart for 4 cm of bust.
    sizes = [one for one in chart_bodies() if one.name.startswith("home chart size")]
    angles = [
        draft_bodice(s.body).pattern.piece("front").dart("bust dart").angle_rad for s in sizes
    ]
    assert angles == sorted(angles)
