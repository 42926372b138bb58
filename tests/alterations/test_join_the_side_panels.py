"""Joining the side panels as a step: recorded, replayed, on one body side, girths met."""

import datetime as dt

import pytest
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.drafting.style_join_choice import AtLine
from tracker.errors import TrackerError
from tracker.history.replay import check_again
from tracker.history.version import Address, Root, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


PANELLED = done(bodice(), PanelFront(), PanelBack())
#: Sides that flare to the waist, so that the panels overlap there.
FLARED = done(
    PANELLED,
    TakeIn(
        seam="side",
        amounts=(
            AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
            AmountAt(corner="side waist", distance_mm=0.0, amount_mm=-40.0),
        ),
    ),
)


def waist(dart: float, seams: float) -> AtLine:
    return AtLine(line="waist line", dart=dart, seams=seams)


def test_it_is_found_in_the_folder_of_kinds_as_a_style_step() -> None:
    assert kinds()["join the side panels"] is JoinSidePanels
    assert JoinSidePanels.family == "style"


#: Where the waist's gap goes, with what of it is left as width at bust and waist.
DISPOSALS = [
    (JoinSidePanels(), 1.0, 0.0),
    (JoinSidePanels(at=(waist(0.0, 0.0),)), 1.0, 1.0),
    (JoinSidePanels(at=(waist(0.0, 1.0),)), 1.0, 0.0),
    (JoinSidePanels(at=(waist(0.4, 0.3),)), 1.0, 0.3),
    (JoinSidePanels(at=(waist(0.5, 0.5), AtLine(line="bust line", seams=1.0))), 0.0, 0.0),
]


@pytest.mark.parametrize(("step", "bust_left", "waist_left"), DISPOSALS)
def test_each_girth_grows_by_what_was_left_as_width_and_the_checks_are_clean(
    step: JoinSidePanels, bust_left: float, waist_left: float
) -> None:
    # The gaps left as they are, measured once: the sum before plus the gap (a geometry statement).
    open_ = done(PANELLED, JoinSidePanels(at=(waist(0.0, 0.0),)))
    new = done(PANELLED, step)
    for line, left in (("bust line", bust_left), ("waist line", waist_left)):
        gap = girth(open_, line) - girth(PANELLED, line)
        assert girth(new, line) - girth(PANELLED, line) == pytest.approx(left * gap, abs=0.05)
    assert check(new).clean
    for seam in ("front princess", "back princess"):
        first, second = side_lengths(new, new.seam(seam))
        assert first == pytest.approx(second, abs=0.05)


def test_an_overlap_is_given_back_at_the_panel_seams_or_refused() -> None:
    applied = apply_step(JoinSidePanels(), FLARED, "one")
    assert girth(applied.pattern, "waist line") == pytest.approx(
        girth(FLARED, "waist line"), abs=0.05
    )
    assert check(applied.pattern).clean
    assert any("given back at the two panel seams" in note for note in applied.effect.notes)
    with pytest.raises(TrackerError, match=r"overlap by \d+\.\d mm; left so"):
        apply_step(JoinSidePanels(at=(waist(0.0, 0.0),)), FLARED, "one")


@pytest.mark.parametrize("step", [JoinSidePanels(), JoinSidePanels(at=(waist(0.2, 0.5),))])
def test_the_trace_accounts_for_every_millimetre(step: JoinSidePanels) -> None:
    applied = apply_step(step, PANELLED, "one")
    for piece in PANELLED.pieces:
        for edge in piece.edges:
            fates = applied.trace.of(piece.name, edge.name, edge.side)
            if fates:
                assert sum(f.old.length_mm for f in fates if f.old) == pytest.approx(
                    edge.length, abs=1e-3
                ), (piece.name, edge.name)
    for piece in applied.pattern.pieces:
        for edge in piece.edges:
            made_of = applied.trace.into(piece.name, edge.name, edge.side)
            if made_of:
                assert sum(f.new.length_mm for f in made_of if f.new) == pytest.approx(
                    edge.length, abs=1e-3
                ), (piece.name, edge.name)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only_leaves_the_other_as_it_was(side: BodySide) -> None:
    new = done(PANELLED, JoinSidePanels(side=side, at=(waist(0.4, 0.3),)))
    whole = done(PANELLED, JoinSidePanels(at=(waist(0.4, 0.3),)))
    other = side.opposite
    assert check(new).clean
    for line in lines_of(PANELLED):
        assert girth(new, line, side) == pytest.approx(girth(whole, line, side), abs=0.02)
        assert girth(new, line, other) == pytest.approx(girth(PANELLED, line, other), abs=1e-4)
    assert {(p.name, p.side) for p in new.pieces if "side" in p.name} == {
        ("side panel", side), ("side front", other), ("side back", other)
    }  # fmt: skip
    assert [s.side for s in new.seams if s.name == "side"] == [other]


def test_it_says_once_that_no_side_seam_is_left_and_asks_which_carries_the_opening() -> None:
    asked = apply_step(JoinSidePanels(), PANELLED, "one").effect
    assert [x for x in asked.leaves if "no side seam left" in x] == [
        "there is no side seam left for an outlet or an opening: say which seam carries them, "
        "centre back, front princess or back princess"
    ]
    told = apply_step(JoinSidePanels(opening_in="back princess"), PANELLED, "one").effect
    assert told.leaves == ()
    assert "the back princess seam carries the opening" in told.notes[-1]
    with pytest.raises(TrackerError, match="Did you mean back princess"):
        apply_step(JoinSidePanels(opening_in="back princes"), PANELLED, "one")


def test_the_sentence_says_where_the_gap_goes() -> None:
    assert JoinSidePanels(at=(waist(0.4, 0.3),)).sentence(PANELLED) == (
        "Side front and side back joined into one side panel without a side seam, at the underarm "
        "and with their grain lines parallel; at the waist line 40% into a plumb dart and 30% "
        "taken or given at the two panel seams and 30% left as width"
    )


def test_a_joined_version_is_replayed_from_its_steps_to_the_same_lines() -> None:
    address = Address("c1", "bodice", 1)
    root = first_version(
        address, Root("drawn by hand", 1, {}), bodice(), "block", dt.date(2024, 3, 1)
    )
    join = JoinSidePanels(at=(waist(0.5, 0.5),), opening_in="centre back")
    assert JoinSidePanels.from_parameters(join.parameters()) == join
    steps: tuple[tuple[Kind, tuple[str, ...]], ...] = (
        (PanelFront(), ()), (PanelBack(), ()), (join, ())
    )  # fmt: skip
    version = next_version(root, Address("c1", "bodice", 2), steps, "joined", dt.date(2024, 3, 2))
    again = check_again(version, root)
    assert again.damage == ()
    # The displacements carry their step's own id, so it is the lines that are the same.
    for one, other in zip(version.pattern.pieces, done(PANELLED, join).pieces, strict=True):
        assert [e.parts for e in one.edges] == [e.parts for e in other.edges]
