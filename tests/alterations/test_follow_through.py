"""What each alteration breaks elsewhere is said, and what is offered for it mends it.

A whole garment: bodice with sleeves, stand collar, neck facing, back lining, waistband and cuffs;
and a dress, the bodice with a skirt sewn to its waist.
"""

from functools import cache

import pytest
from offered import at, made, offered

from tracker.alterations import examples
from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.cap_match import cap_off
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.join_a_skirt import JoinSkirt
from tracker.alterations.set_in import armhole_seams
from tracker.pattern.checked import Finding
from tracker.pattern.pattern import Pattern

#: So many repairs, one after the other, have to do.
REPAIRS = 12
CAP = "fit the cap to the armhole"


@cache
def whole(*, collar: bool = True) -> Pattern:
    garment = examples.sleeved()
    stand = (made("cut a stand collar", name="collar"),) if collar else ()
    for step in (
        *stand,
        made("trace a facing", name="neck facing", edges="neckline of front"),
        made("copy a lining", name="back lining", piece="back"),
        made("cut a band", name="waistband", edges="waist of front; waist of back"),
        made("cut a band", name="cuff", edges="wrist of sleeve"),
    ):
        garment = apply_step(step, garment, step.word).pattern
    return garment


@cache
def dress() -> Pattern:
    joined = JoinSkirt.of_pattern(examples.skirt(), "")
    return apply_step(joined, examples.sleeved(), "joined").pattern


def seam(name: str, *amounts: dict[str, object], **more: object) -> Kind:
    return made("take in a seam", seam=name, amounts=list(amounts), **more)


def reshaped(piece: str, edge: str, *amounts: dict[str, object]) -> Kind:
    return made("reshape an edge", piece=piece, edge=edge, amounts=list(amounts))


TOP, WAIST = "underarm point", "side waist"
#: (what is done, on which garment, what it is known to break: places of findings)
ROWS: dict[str, tuple[Kind, bool, set[str]]] = {
    # armhole against cap, and the lining behind
    "side in at the underarm": (seam("side", at(TOP, 0, 10), at(WAIST, 0, 0)), False,
                                {"armhole seam", "the back lining"}),
    # waist against waistband
    "side in at the waist": (seam("side", at(TOP, 0, 0), at(WAIST, 0, 10)), False,
                             {"the waistband", "the back lining"}),
    # bodice waist against the skirt's, both pieces and one
    "side in at a dress's waist": (seam("side", at(TOP, 0, 0), at(WAIST, 0, 10)), True,
                                   {"waist seam"}),
    "skirt taken in": (seam("skirt side", at(WAIST, 0, 10), at(WAIST, 200, 0)), True,
                       {"waist seam"}),
    "deeper back dart of a dress": (made("change a dart", piece="back", dart="waist dart",
                                         deeper_mm=6.0), True, {"waist seam"}),
    "deeper back dart": (made("change a dart", piece="back", dart="waist dart", deeper_mm=6.0),
                         False, {"the waistband", "the back lining"}),
    # shoulder against shoulder
    "shoulder point of the front in": (made("move a corner", piece="front",
                                            corner="shoulder point", edge="shoulder",
                                            along_mm=-6.0), False, {"shoulder seam"}),
    "shoulders forward": (made("shift a seam", seam="shoulder", towards="front",
                               amounts=[at("neck point", 0, 0), at("shoulder point", 0, 10)]),
                          False, {"the neck facing", "the back lining"}),
    "square shoulders": (made("change the shoulder slope", to="square", by_mm=8.0), False,
                         {"the collar", "the neck facing", "the back lining"}),
    "shorter shoulders": (made("change the shoulder length", to="shorter", by_mm=6.0), False,
                          {"armhole seam", "the back lining"}),
    "wider back": (made("change the width across", line="across back", to="wider", by_mm=12.0),
                   False, {"armhole seam", "the back lining"}),
    # side against side
    "underarm of the front down": (made("move a corner", piece="front", corner=TOP, edge="side",
                                        along_mm=-8.0), False, {"side seam", "armhole seam"}),
    # neckline against collar and facing
    "looser neckline": (made("change the neckline", to="looser", by_mm=10.0), False,
                        {"the collar", "the neck facing", "the back lining"}),
    "front neckline lowered": (reshaped("front", "neckline", at("centre front neck", 0, 8),
                                        at("neck point", 0, 0)), False,
                               {"the collar", "the neck facing"}),
    "hollow chest": (made("fold out", piece="front", mouth_edge="neckline",
                          mouth_corner="neck point", mouth_mm=60.0, hinge_edge="armhole",
                          hinge_corner="shoulder point", hinge_mm=90.0, by_mm=8.0), False,
                     {"the collar", "the neck facing"}),
    "gaping neckline": (made("close a gap into a dart", piece="front", edge="neckline",
                             corner="neck point", distance_mm=60.0, by_mm=8.0, dart="bust dart"),
                        False, {"the collar", "the neck facing"}),
    # cap against armhole
    "armhole scooped": (reshaped("front", "armhole", at("shoulder point", 0, 0),
                                 at("shoulder point", 120, 6), at(TOP, 0, 0)), False,
                        {"armhole seam"}),
    "armhole lowered": (made("raise or lower the armhole", to="lower", by_mm=8.0), False,
                        {"armhole seam", "the back lining"}),
    "cap raised": (made("raise or lower the cap", to="raise", by_mm=8.0), False, {"armhole seam"}),
    "fuller upper arm": (made("change the upper arm", to="fuller", by_mm=16.0), False, set()),
    "sleeve taken in": (seam("underarm", at("front underarm point", 0, 10),
                             at("front wrist", 0, 0)), False, {"armhole seam"}),
    "sleeve turned": (made("turn the sleeve", to="forward", by_mm=10.0), False, set()),
    # wrist against cuff
    "wrist taken in": (seam("underarm", at("front underarm point", 0, 0),
                            at("front wrist", 0, 12)), False, {"the cuff"}),
    "round back": (made("slash and spread", piece="back", mouth_edge="centre back",
                        mouth_corner="centre back neck", mouth_mm=110.0, hinge_edge="armhole",
                        hinge_corner="shoulder point", hinge_mm=95.0, by_mm=12.0), False,
                   {"the back lining"}),
    "waist lowered": (made("raise or lower an edge", to="lower", by_mm=10.0, edge="waist"), False,
                      {"the waistband", "the back lining"}),
    "fuller bust": (made("more or less bust volume", by_mm=30.0), False, set()),
    "fuller bust of a dress": (made("more or less bust volume", by_mm=30.0), True, set()),
    "longer": (made("lengthen or shorten", line="waist line", above_mm=60.0, by_mm=12.0), False,
               set()),
    "longer dress": (made("lengthen or shorten", line="waist line", above_mm=60.0, by_mm=12.0),
                     True, set()),
    "shoulder dart eased in": (made("remove a dart", piece="back", dart="shoulder dart"), False,
                               {"the back lining"}),
}  # fmt: skip


def found(pattern: Pattern) -> dict[tuple[str, str], Finding]:
    return {(f.code, f.place): f for f in before_cutting(pattern).findings}


def mended(pattern: Pattern, leaves: tuple[str, ...]) -> Pattern:
    """Do what is offered, and what that offers in turn."""
    waiting = offered(pattern, leaves)
    for number in range(REPAIRS):
        if not waiting:
            break
        first = min(waiting, key=lambda one: one[0])
        waiting.remove(first)
        if first[1].word == CAP and caps_fit(pattern):
            continue  # mended on the way
        applied = apply_step(first[1], pattern, f"repair {number}")
        pattern = applied.pattern
        fresh = offered(pattern, applied.effect.leaves)
        waiting += [one for one in fresh if one not in waiting]
    return pattern


def caps_fit(pattern: Pattern) -> bool:
    return all(cap_off(pattern, s).worst_mm < 0.05 for s in armhole_seams(pattern))


def assert_said_and_mended(step: Kind, garment: Pattern, breaks: set[str]) -> None:
    before = found(garment)
    applied = apply_step(step, garment, "one")
    new = {key: f for key, f in found(applied.pattern).items() if key not in before}
    assert breaks <= {place for _, place in new}, sorted(new)
    # Nothing is broken without a sentence that names it.
    for code, place in new:
        name = place.split(" at ")[0].split(",")[0].removesuffix(" seam").removeprefix("the ")
        assert any(name in told for told in applied.effect.leaves), (code, place)
    pattern = mended(applied.pattern, applied.effect.leaves)
    left = {key: f.sentence for key, f in found(pattern).items() if key not in before}
    assert not left, left


@pytest.mark.parametrize("what", ROWS)
def test_what_it_breaks_is_said_and_what_is_offered_mends_it(what: str) -> None:
    step, skirted, breaks = ROWS[what]
    assert_said_and_mended(step, dress() if skirted else whole(), breaks)


@cache
def trousers() -> Pattern:
    band = made("cut a band", name="waistband", edges="waist of front; waist of back")
    return apply_step(band, examples.trousers(), "band").pattern


OF_THE_LEGS = ("change the crotch depth", "change the crotch length", "scoop or fill the crotch",
               "move the inside-leg point", "shape the leg", "swing the leg")  # fmt: skip


@pytest.mark.parametrize("word", OF_THE_LEGS)
def test_on_trousers_with_a_waistband_too(word: str) -> None:
    assert_said_and_mended(kinds()[word].example().kind, trousers(), set())


#: On a torso and over panels, both sides alike and the right one only.
MORE: dict[str, Kind] = {
    "torso: hollow back": made(
        "fold out", piece="back", mouth_edge="centre back", mouth_corner="centre back neck",
        mouth_mm=370.0, hinge_edge="side", hinge_corner=TOP, hinge_mm=165.0, by_mm=12.0,
    ),
    "torso: side in at the waist": seam("side", at(TOP, 0, 0), at(TOP, 220, 10),
                                        at("side hip", 0, 0)),
    "torso: hip out": seam("side", at(TOP, 220, 0), at("side hip", 0, -12)),
    "torso: fuller bust": made("more or less bust volume", by_mm=20.0, centre="shape a seam"),
    "torso: narrower back": made("change the width across", line="across back", to="narrower",
                                 by_mm=10.0),
    "panels: front princess in at the waist": seam(
        "front princess", at("front princess shoulder", 0, 0), at("front princess waist", 0, 10)
    ),
    "panels: side in at the underarm": seam("side", at(TOP, 0, 8), at(WAIST, 0, 0)),
    "panels: wider back": made("change the width across", line="across back", to="wider",
                               by_mm=12.0),
    "panels: square shoulders": made("change the shoulder slope", to="square", by_mm=8.0),
    "panels: looser neckline": made("change the neckline", to="looser", by_mm=10.0),
}  # fmt: skip


@pytest.mark.parametrize("what", MORE)
@pytest.mark.parametrize("side", ["both", "right"])
def test_on_a_torso_and_over_panels_too(what: str, side: str) -> None:
    step = MORE[what]
    garment = examples.torso() if what.startswith("torso") else examples.panelled()
    assert_said_and_mended(
        type(step).from_parameters(step.parameters() | {"side": side}), garment, set()
    )


#: For one side only these move the middle of an edge that goes on over the centre.
OVER_THE_CENTRE = {"front neckline lowered", "fuller bust", "fuller bust of a dress"}


@pytest.mark.parametrize("what", [what for what in ROWS if what not in OVER_THE_CENTRE])
def test_for_one_side_only_too(what: str) -> None:
    step, skirted, breaks = ROWS[what]
    # A collar cut once on the fold cannot follow a neckline that differs right and left.
    garment = dress() if skirted else whole(collar=False)
    one_side = type(step).from_parameters(step.parameters() | {"side": "right"})
    before = found(garment)
    applied = apply_step(one_side, garment, "one")
    new = {key for key in found(applied.pattern) if key not in before}
    places = {place for _, place in new}
    assert {
        b for b in breaks - {"the collar"} if not any(b.split()[-1] in p for p in places)
    } == set()
    pattern = mended(applied.pattern, applied.effect.leaves)
    left = {key: f.sentence for key, f in found(pattern).items() if key not in before}
    assert not left, left


@pytest.mark.parametrize("word", [w for w, k in kinds().items() if k.family == "alteration"])
def test_of_every_alteration_the_example_is_mended_by_what_it_offers(word: str) -> None:
    example = kinds()[word].example()
    assert_said_and_mended(example.kind, example.pattern, set())


def test_the_garments_are_clean_before_anything_is_done() -> None:
    for garment in (whole(), dress(), trousers()):
        assert not found(garment)
