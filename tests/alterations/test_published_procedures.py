"""Published alteration procedures, each done on a block drawn by hand and on irregular ones.

The table with its sources is ``published.procedures``; what more is published of some of them
names its source here.
"""

import itertools
import math

import pytest
from altering import done
from published.procedures import BODIES, SLEEVE_ROWS, SORTS, at, drawn, own_share

from tracker.alterations.kind import Applied
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths
from tracker.units import write_tenths

CASES = [
    (sort, number, name, mm)
    for sort, rows in SORTS.items()
    for number in (*((-1,) if sort == "bodice" else ()), *BODIES)
    for name, row in rows.items()
    for mm in row.amounts
]


@pytest.mark.parametrize(("sort", "number", "name", "mm"), CASES)
def test_a_published_procedure_changes_what_it_says_and_nothing_else(
    sort: str, number: int, name: str, mm: float
) -> None:
    row, before = SORTS[sort][name], drawn(sort, number)
    applied = done(row.step(before, mm), before)
    after = applied.pattern
    told = f"{name} by {mm:g} mm ({row.source})"
    for piece, edge in row.keeps:
        was, now = (p.piece(piece).edge(edge).length for p in (before, after))
        assert now == pytest.approx(was, abs=0.05), (told, piece, edge)
    for (piece, edge), each in row.grows.items():
        was, now = (p.piece(piece).edge(edge).length for p in (before, after))
        near = max(0.05, row.about * abs(mm))
        assert now - was == pytest.approx(each * mm, abs=near), (told, piece, edge)
    for line, each in row.girths.items():
        grown = girth(after, line) - girth(before, line)
        assert grown == pytest.approx(each * mm, abs=max(0.05, row.about * abs(mm))), (told, line)
    for piece in row.untouched:
        assert after.piece(piece).edges == before.piece(piece).edges, (told, piece)
        assert after.piece(piece).darts == before.piece(piece).darts, (told, piece)
    # What it leaves to be done elsewhere it says, so that no check finds what was not told.
    known = {(f.code, f.place) for f in check(before).findings}
    for finding in check(after).findings:
        if (finding.code, finding.place) not in known:
            name_of = finding.place.partition(" seam")[0]
            assert any(name_of in left for left in applied.effect.leaves), (told, finding.sentence)


# -- more that is published of some of them ---------------------------------------------------

BODICES = pytest.mark.parametrize("number", [-1, *BODIES])


def step_of(name: str, number: int, mm: float, sort: str = "bodice") -> tuple[Pattern, Applied]:
    before = drawn(sort, number)
    return before, done(SORTS[sort][name].step(before, mm), before)


@BODICES
@pytest.mark.parametrize(("name", "turns"), [("a round back", "upper"), ("a sway back", "lower")])
def test_the_part_beyond_a_hinge_turns_by_the_angle_of_the_opening(
    name: str, turns: str, number: int
) -> None:
    # Plain trigonometry: an opening s at a distance L from its hinge is 2 asin(s / 2L).
    before, applied = step_of(name, number, 12.7)
    kind = SORTS["bodice"][name].step(before, 12.7)
    old, new = before.piece("back"), applied.pattern.piece("back")
    ends = []
    for edge, corner, mm in (
        (kind.mouth_edge, kind.mouth_corner, kind.mouth_mm),
        (kind.hinge_edge, kind.hinge_corner, kind.hinge_mm),
    ):
        line = old.edge(edge)
        ends.append(line.point_at(mm if line.start == corner else line.length - mm))
    wedge = 2 * math.asin(12.7 / 2 / abs(ends[0] - ends[1]))
    corners = ("neck point", "shoulder point") if turns == "upper" else (
        "centre back waist", "side waist")  # fmt: skip
    was, now = (p.corner(corners[1]) - p.corner(corners[0]) for p in (old, new))
    assert abs(now) == pytest.approx(abs(was), abs=0.05)
    assert abs(math.atan2((now / was).imag, (now / was).real)) == pytest.approx(wedge, abs=4e-4)


@BODICES
@pytest.mark.parametrize(("name", "mm"), [("a full bust", 50.8), ("a small bust", -16.0)])
def test_bust_volume_hinges_at_the_armhole_and_half_of_it_is_on_each_front(
    name: str, mm: float, number: int
) -> None:
    # The Dressmaker (1910s), part 7: armhole and notch keep their place. From memory: half of the
    # whole on each front; both darts grow; closed, the side seam equals that of the back.
    before, applied = step_of(name, number, mm)
    old, new = before.piece("front"), applied.pattern.piece("front")
    notch = "front armhole notch"
    assert new.notch(notch).distance_mm == pytest.approx(old.notch(notch).distance_mm, abs=0.05)
    for dart in ("bust dart", "waist dart"):
        a, b = new.dart(dart).leg_lengths
        assert a == pytest.approx(b, abs=0.01)
        assert (new.dart(dart).angle_rad > old.dart(dart).angle_rad) == (mm > 0)
    halves = [sum(abs(b - a) for a, b in _steps(p.level("bust line"))) for p in (old, new)]
    assert halves[1] - halves[0] == pytest.approx(mm / 2, abs=0.05)
    was, now = (side_lengths(p, p.seam("side")) for p in (before, applied.pattern))
    assert now[1] - now[0] == pytest.approx(was[1] - was[0], abs=0.05)


def _steps(level: object) -> list[tuple[complex, complex]]:
    return [pair for stroke in level.strokes for pair in itertools.pairwise(stroke)]


@BODICES
@pytest.mark.parametrize("mm", [12.7, 20.0])
def test_a_dart_moved_to_a_low_bust_is_the_same_dart(mm: float, number: int) -> None:
    # Common practice, no source: width and angle stay when the whole dart is moved parallel.
    before, applied = step_of("a low bust", number, mm)
    old, new = before.piece("front"), applied.pattern.piece("front")
    was, now = old.dart("bust dart"), new.dart("bust dart")
    assert now.angle_rad == pytest.approx(was.angle_rad, abs=1e-6)
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=1e-4)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=0.01)
    assert abs(now.pivot - was.pivot) == pytest.approx(mm, abs=0.2)
    assert new.mark("bust point").point == now.pivot
    assert new.edge("side").length == pytest.approx(old.edge("side").length, abs=0.25)


@BODICES
@pytest.mark.parametrize("mm", [6.35, 12.7, 19.05])
def test_a_forward_shoulder_keeps_armhole_neck_and_both_shoulders_alike(
    mm: float, number: int
) -> None:
    # From memory: nothing at the neck, the armhole in all as long as it was, both shoulders too.
    # They grow alike, as a hypotenuse does: mm² / 2L where shoulder and armhole meet square.
    before, applied = step_of("a forward shoulder", number, mm)
    assert around(applied.pattern, "armhole") == pytest.approx(around(before, "armhole"), abs=0.05)
    grown = []
    for name in ("front", "back"):
        old, new = before.piece(name), applied.pattern.piece(name)
        assert new.corner("neck point") == old.corner("neck point")
        grown.append(new.edge("shoulder").length - old.edge("shoulder").length)
    assert grown[0] == pytest.approx(grown[1], abs=0.03 * mm)
    assert max(map(abs, grown)) < mm / 6


@pytest.mark.parametrize("number", BODIES)
@pytest.mark.parametrize("mm", SLEEVE_ROWS["a large upper arm"].amounts)
def test_a_larger_upper_arm_still_fits_its_armhole(mm: float, number: int) -> None:
    # “Set-in sleeve solutions”, Threads 2021: width at the upper arm is cap length too, so the
    # cap's height gives way, and cap less armhole stays in the band it was in.
    before, applied = step_of("a large upper arm", number, mm, "sleeved bodice")
    was, now = (side_lengths(p, p.seam("armhole")) for p in (before, applied.pattern))
    assert now[1] - now[0] == pytest.approx(was[1] - was[0], abs=0.05)
    one, other = side_lengths(applied.pattern, applied.pattern.seam("underarm"))
    assert one == pytest.approx(other, abs=0.2)


@pytest.mark.parametrize("number", BODIES)
@pytest.mark.parametrize("mm", [12.7, 25.4])
def test_after_a_prominent_abdomen_the_sides_give_the_waist_back(mm: float, number: int) -> None:
    # The New Dressmaker, 1921, chapter 5: raised at the top, to nothing at the hip; then the side
    # edges are let out until the waist measures what it did, to nothing at the hip line.
    before, applied = step_of("a prominent abdomen", number, mm, "skirt")
    raised = applied.pattern
    lost = girth(before, "waist line") - girth(raised, "waist line")
    (told,) = [c for c in applied.effect.girths if c.what == "waist line"]
    assert told.by == pytest.approx(-lost, abs=1e-5)
    (offered,) = [t for t in applied.effect.leaves if t.startswith("waist line")]
    size = write_tenths(round(lost / 2, 1))
    assert f"let out the side seam {size} at the side waist, all of it on the front" in offered
    assert offered.endswith("to nothing at the hip line")
    front = raised.piece("front")
    hip = max((p for s in front.level("hip line").strokes for p in s), key=lambda p: abs(p.real))
    side = front.edge("side")
    down = side.nearest(hip)[0]
    let_out = TakeIn(
        seam="side", share=own_share(raised, "side", "front"),
        amounts=(at("side waist", -lost / 2),
                 at("side waist", 0.0, down if side.start == "side waist" else side.length - down)),
    )  # fmt: skip
    after = done(let_out, raised).pattern
    assert girth(after, "waist line") == pytest.approx(girth(before, "waist line"), abs=0.3)
    assert girth(after, "hip line") == pytest.approx(girth(before, "hip line"), abs=0.05)


@pytest.mark.parametrize("number", BODIES)
def test_a_fold_over_the_hips_leaves_the_darts_their_length(number: int) -> None:
    # The Dressmaker (1910s), part 14: the darts keep their original length.
    before, applied = step_of("prominent hips", number, 12.7, "skirt")
    old, new = before.piece("back"), applied.pattern.piece("back")
    for dart in old.darts:
        assert new.dart(dart.name).leg_lengths == pytest.approx(dart.leg_lengths, abs=0.05)
        assert new.dart(dart.name).intake_mm == pytest.approx(dart.intake_mm, abs=0.05)


@pytest.mark.parametrize("number", BODIES)
def test_a_hem_let_down_below_the_hip_goes_down_parallel(number: int) -> None:
    # The New Dressmaker, 1921, p. 22: slashed about 6 in below the hip line, right across.
    before, applied = step_of("a skirt lengthened below the hip", number, 25.4, "skirt")
    for name in ("front", "back"):
        old, new = (p.piece(name).edge("hem") for p in (before, applied.pattern))
        for share in (0.0, 0.3, 0.7, 1.0):
            moved = new.point_at(share * new.length) - old.point_at(share * old.length)
            assert moved == pytest.approx(-25.4j, abs=1e-4)
