"""Missing measurements worked out from the others, only when asked for, and marked so for ever.

Two kinds of rule: straight-line rules with a published spread (``estimate_rules``), and lengths
that follow from others by laying half the body flat (``layout``). What was measured always goes
before what a straight line says, so that the estimates agree with each other and with the tape.
"""

from collections.abc import Callable, Iterable

from tracker.body.body import Body
from tracker.body.estimate_rules import BY_KEY as RULE_OF
from tracker.body.layout import (
    NeckShape,
    front_neck_height,
    neck_shape,
    shoulder_point,
    slope_to_reach,
)
from tracker.body.measurement import BodySide
from tracker.body.vocabulary import BY_KEY, measurement
from tracker.errors import TrackerError

BODICE_NEEDS: tuple[str, ...] = (
    "bust-girth",
    "waist-girth",
    "hip-girth",
    "high-bust-girth",
    "neck-base-girth",
    "bust-arc-front",
    "bust-arc-back",
    "waist-arc-front",
    "waist-arc-back",
    "shoulder-length",
    "shoulder-slope",
    "armhole-depth",
    "across-back",
    "across-front",
    "back-neck-to-waist",
    "neck-point-to-waist-back",
    "neck-point-to-bust-point",
    "bust-point-to-bust-point",
    "neck-point-over-bust-to-waist",
    "centre-front-length",
    "side-length",
)
"""What decides a bodice, each thing once (a slope stands for the shoulder-to-waist lengths)."""

SLEEVE_NEEDS: tuple[str, ...] = (
    "upper-arm-girth",
    "elbow-girth",
    "wrist-girth",
    "arm-length",
    "shoulder-to-elbow",
)
"""What decides a sleeve, with the armhole it is set into."""

LEAST_PROMINENCE_MM = 12.0
"""No estimate puts the full bust less than this over the high bust."""

OVER_BUST_SHARE = 0.5
"""How much longer the way over the bust is than the back's, per mm of bust over high bust.

Common practice, no source: 2 cm on a middling bust, taken up by a side bust dart; a published
proportional block has 1.9 cm at bust 83 cm.
"""


class CannotEstimate(TrackerError):
    """There is too little, or too contradictory a body, to work a measurement out from."""


def estimate(body: Body, wanted: Iterable[str] = BODICE_NEEDS) -> Body:
    """Return the body with the wanted measurements filled in; what it has is left alone.

    Args:
        body: at least a bust girth, or a high bust girth.
        wanted: keys or names; what is needed on the way is not added unless wanted.

    Raises:
        CannotEstimate: neither bust nor high bust is known, or what is known has no shape.
        UnknownMeasurement: no measurement has a wanted name.
    """
    known = _Known(body)
    filled = body
    for name in wanted:
        key = measurement(name).key
        if body.has(key):
            continue
        for side in known.sides_of(key):
            value = known.value(key, side)
            if not value > 0:
                raise CannotEstimate(
                    f"{BY_KEY[key].name} comes to less than nothing by what was measured; see "
                    f"whether something was noted in another unit, and measure it again"
                )
            filled = filled.with_value(key, value, side, estimated=True)
    return filled


def spread(name: str) -> float:
    """Return the standard deviation of real bodies about the estimate, mm (degrees for a slope).

    For a length that follows from others it is what is left when those are known.
    """
    key = measurement(name).key
    if key in _LEFT_OVER:
        return _LEFT_OVER[key]
    return RULE_OF[key].spread if key in RULE_OF else 15.0


def source_of(name: str) -> str:
    """Return where the rule for estimating a measurement comes from."""
    key = measurement(name).key
    if key in RULE_OF:
        return RULE_OF[key].source
    return "worked out from the other lengths by laying half the body flat"


class _Known:
    """A body and what has been worked out from it so far."""

    def __init__(self, body: Body) -> None:
        self.body = body
        self._done: dict[tuple[str, BodySide], float] = {}
        self._doing: set[tuple[str, BodySide]] = set()

    def sides_of(self, key: str) -> tuple[BodySide, ...]:
        """Both sides apart when the shoulders that decide the length are uneven."""
        uneven = key in _FOLLOWS_SHOULDER and any(
            self.body.is_uneven(other) for other in _FOLLOWS_SHOULDER
        )
        return ("right", "left") if uneven else ("both",)

    def measured(self, key: str, side: BodySide = "both") -> float | None:
        return self.body.get(key, side)

    def value(self, key: str, side: BodySide = "both") -> float:
        found = self.body.get(key, side)
        if found is not None:
            return found
        place: tuple[str, BodySide] = (key, side if BY_KEY[key].sided else "both")
        if place not in self._done:
            if place in self._doing:
                raise CannotEstimate(f"{BY_KEY[key].name} cannot be worked out; measure it")
            self._doing.add(place)
            try:
                self._done[place] = self._work_out(key, place[1])
            finally:
                self._doing.discard(place)
        return self._done[place]

    def neck(self) -> NeckShape:
        return neck_shape(self.value("neck-base-girth"))

    def _work_out(self, key: str, side: BodySide) -> float:
        if key in _GEOMETRY:
            found = _GEOMETRY[key](self, side)
            if found is not None:
                return found
        if key not in RULE_OF:
            raise CannotEstimate(
                f"{BY_KEY[key].name} cannot be worked out from what was measured; measure it"
            )
        return self.by_rule(key)

    def by_rule(self, key: str) -> float:
        rule = RULE_OF[key]
        return rule.base + sum(slope * (self.value(k) - at) for k, slope, at in rule.terms)

    def beyond_rule(self, key: str, side: BodySide = "both") -> float:
        """By how much a measured value exceeds what its rule says; 0 when it was not measured."""
        found = self.measured(key, side)
        return 0.0 if found is None else found - self.by_rule(key)


# Each function returns None when its own way does not apply; the straight line is then used.


def _bust(known: _Known, _: BodySide) -> float | None:
    high = known.measured("high-bust-girth")
    if high is None:
        arcs = known.measured("bust-arc-front"), known.measured("bust-arc-back")
        if arcs[0] is not None and arcs[1] is not None:
            return arcs[0] + arcs[1]
        raise CannotEstimate("nothing can be worked out without the bust girth; measure it")
    return max((high - 860) / 0.82 + 900, high + LEAST_PROMINENCE_MM)


def _high_bust(known: _Known, _: BodySide) -> float | None:
    bust = known.value("bust-girth")
    return min(known.by_rule("high-bust-girth"), bust - LEAST_PROMINENCE_MM)


def _height(known: _Known, _: BodySide) -> float | None:
    back = known.measured("back-neck-to-waist")
    return None if back is None else 1635 + 1.2 * (back - 406)


def _back_length(known: _Known, side: BodySide) -> float | None:
    full = known.measured("neck-point-to-waist-back", side)
    return None if full is None else full - known.neck().back_rise_mm


def _full_back(known: _Known, _: BodySide) -> float | None:
    return known.value("back-neck-to-waist") + known.neck().back_rise_mm


def _armhole_depth(known: _Known, _: BodySide) -> float | None:
    side_length = known.measured("side-length")
    if side_length is not None:
        return known.value("back-neck-to-waist") - side_length
    return known.by_rule("armhole-depth") + 0.25 * known.beyond_rule("back-neck-to-waist")


def _side_length(known: _Known, _: BodySide) -> float | None:
    return known.value("back-neck-to-waist") - known.value("armhole-depth")


def _across(key: str) -> Callable[[_Known, BodySide], float | None]:
    def width(known: _Known, _: BodySide) -> float | None:
        # Both arm folds move out with the shoulder points, though not quite as far.
        return known.by_rule(key) + 1.4 * known.beyond_rule("shoulder-length")

    return width


def _arc_front(girth: str, back: str, more: Callable[[_Known], float]) -> Callable[..., float]:
    def arc(known: _Known, _: BodySide) -> float:
        behind = known.measured(back)
        whole = known.value(girth)
        return whole / 2 + more(known) if behind is None else whole - behind

    return arc


def _arc_back(girth: str, front: str) -> Callable[..., float]:
    def arc(known: _Known, _: BodySide) -> float:
        return known.value(girth) - known.value(front)

    return arc


def _prominence(known: _Known) -> float:
    return known.value("bust-girth") - known.value("high-bust-girth")


def _to_bust(known: _Known, side: BodySide) -> float | None:
    over = known.measured("neck-point-over-bust-to-waist", side)
    below = known.measured("bust-point-to-waist", side)
    if over is not None and below is not None:
        return over - below
    # A long trunk and a deep armhole both mean a low bust.
    return (
        known.by_rule("neck-point-to-bust-point")
        + 0.3 * known.beyond_rule("back-neck-to-waist")
        + 0.5 * known.beyond_rule("armhole-depth")
    )


def _over_bust(known: _Known, side: BodySide) -> float | None:
    below = known.measured("bust-point-to-waist", side)
    if below is not None:
        return below + known.value("neck-point-to-bust-point", side)
    centre = known.measured("centre-front-length")
    if centre is not None:
        # The way straight down the middle plus the neck's depth, bent a little over the bust.
        neck = known.neck()
        to_bust = known.value("neck-point-to-bust-point", side)
        straight = centre + neck.front_depth_mm
        flat = front_neck_height(to_bust, to_bust, neck.front_width_mm, _half_apart(known))
        return straight + to_bust - flat if flat is not None else straight
    full_back = known.value("neck-point-to-waist-back", side)
    return full_back + OVER_BUST_SHARE * _prominence(known)


def _below_bust(known: _Known, side: BodySide) -> float | None:
    return known.value("neck-point-over-bust-to-waist", side) - known.value(
        "neck-point-to-bust-point", side
    )


def _half_apart(known: _Known) -> float:
    return known.value("bust-point-to-bust-point") / 2


def _front_neck_point(known: _Known, side: BodySide) -> complex:
    neck = known.neck()
    height = front_neck_height(
        known.value("neck-point-over-bust-to-waist", side),
        known.value("neck-point-to-bust-point", side),
        neck.front_width_mm,
        _half_apart(known),
    )
    if height is None:
        raise CannotEstimate(
            "the bust points lie further apart than neck point to bust point allows; measure "
            "both again"
        )
    return complex(neck.front_width_mm, height)


def _centre_front(known: _Known, _: BodySide) -> float | None:
    return _front_neck_point(known, "both").imag - known.neck().front_depth_mm


def _back_neck_point(known: _Known, side: BodySide) -> complex:
    return complex(known.neck().back_width_mm, known.value("neck-point-to-waist-back", side))


def _slope(known: _Known, side: BodySide) -> float | None:
    length = known.value("shoulder-length", side)
    found = []
    back = known.measured("shoulder-point-to-centre-waist-back", side)
    front = known.measured("shoulder-point-to-centre-waist-front", side)
    if back is not None:
        found.append(slope_to_reach(_back_neck_point(known, side), length, back))
    if front is not None:
        found.append(slope_to_reach(_front_neck_point(known, side), length, front))
    slopes = [slope for slope in found if slope is not None]
    return sum(slopes) / len(slopes) if slopes else None


def _shoulder_end(known: _Known, neck_point: complex, side: BodySide) -> complex:
    return shoulder_point(
        neck_point, known.value("shoulder-length", side), known.value("shoulder-slope", side)
    )


def _to_waist_back(known: _Known, side: BodySide) -> float | None:
    return abs(_shoulder_end(known, _back_neck_point(known, side), side))


def _to_waist_front(known: _Known, side: BodySide) -> float | None:
    return abs(_shoulder_end(known, _front_neck_point(known, side), side))


def _shoulder_width(known: _Known, _: BodySide) -> float | None:
    back_neck = complex(0, known.value("back-neck-to-waist"))
    sides: tuple[BodySide, BodySide] = ("right", "left")
    return sum(
        abs(_shoulder_end(known, _back_neck_point(known, side), side) - back_neck) for side in sides
    )


def _round_neck_to_bust(known: _Known, side: BodySide) -> float | None:
    return known.neck().back_curve_mm + known.value("neck-point-to-bust-point", side)


_GEOMETRY: dict[str, Callable[[_Known, BodySide], float | None]] = {
    "bust-girth": _bust,
    "high-bust-girth": _high_bust,
    "height": _height,
    "back-neck-to-waist": _back_length,
    "neck-point-to-waist-back": _full_back,
    "armhole-depth": _armhole_depth,
    "side-length": _side_length,
    "across-back": _across("across-back"),
    "across-front": _across("across-front"),
    "bust-arc-front": _arc_front(
        "bust-girth", "bust-arc-back", lambda known: 12 + 0.15 * (_prominence(known) - 40)
    ),
    "bust-arc-back": _arc_back("bust-girth", "bust-arc-front"),
    "waist-arc-front": _arc_front("waist-girth", "waist-arc-back", lambda _: 8.0),
    "waist-arc-back": _arc_back("waist-girth", "waist-arc-front"),
    "hip-arc-front": _arc_front("hip-girth", "hip-arc-back", lambda _: -10.0),
    "hip-arc-back": _arc_back("hip-girth", "hip-arc-front"),
    "neck-point-to-bust-point": _to_bust,
    "neck-point-over-bust-to-waist": _over_bust,
    "bust-point-to-waist": _below_bust,
    "centre-front-length": _centre_front,
    "back-neck-to-bust-point": _round_neck_to_bust,
    "shoulder-slope": _slope,
    "shoulder-point-to-centre-waist-back": _to_waist_back,
    "shoulder-point-to-centre-waist-front": _to_waist_front,
    "shoulder-width": _shoulder_width,
}

_FOLLOWS_SHOULDER = frozenset(
    {
        "shoulder-length",
        "shoulder-slope",
        "shoulder-point-to-centre-waist-back",
        "shoulder-point-to-centre-waist-front",
    }
)

_LEFT_OVER: dict[str, float] = {
    "neck-point-to-waist-back": 4.0,
    "side-length": 4.0,
    "bust-arc-front": 8.0,
    "bust-arc-back": 0.0,
    "waist-arc-front": 8.0,
    "waist-arc-back": 0.0,
    "hip-arc-front": 9.0,
    "hip-arc-back": 0.0,
    "neck-point-over-bust-to-waist": 8.0,
    "bust-point-to-waist": 0.0,
    "centre-front-length": 4.0,
    "back-neck-to-bust-point": 5.0,
    "shoulder-point-to-centre-waist-back": 4.0,
    "shoulder-point-to-centre-waist-front": 5.0,
    "shoulder-width": 6.0,
}
