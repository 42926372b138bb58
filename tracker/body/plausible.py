"""Values no adult is likely to have are questioned; values that contradict each other named."""

from collections.abc import Iterable

from tracker.body.body import Body, BodyValue
from tracker.body.layout import front_neck_height, neck_shape, shoulder_point, slope_to_reach
from tracker.body.measurement import BodySide
from tracker.body.sums import TRUNK_SUMS, Sum
from tracker.body.sums_limbs import LIMB_SUMS
from tracker.body.vocabulary import BY_KEY, measurement, name_with_side
from tracker.pattern.finding import Finding
from tracker.units import write_angle, write_both

SHOULDER_PLAY_MM = 22.0
"""What blade, bust and tape may put between a shoulder's lengths and its slope laid flat."""

LEAST_SLOPE_DEG, MOST_SLOPE_DEG = 2.0, 44.0
"""Slopes a shoulder's lengths may come to, with the same play."""


def question(value: BodyValue) -> Finding | None:
    """Return a question when a value lies outside what is plausible on an adult, else None."""
    entry = measurement(value.key)
    if entry.low <= value.value <= entry.high:
        return None
    shown = _shown_amount(value.key, value.value)
    low, high = _shown_amount(entry.key, entry.low), _shown_amount(entry.key, entry.high)
    return Finding(
        code="out of range",
        place=value.name,
        sentence=f"{value.name} {shown} is outside what is usual on an adult, {low} to {high}",
        figure=value.value,
        tolerance=entry.low if value.value < entry.low else entry.high,
        unit="°" if entry.unit == "deg" else "mm",
        remedy=f"measure again ({entry.path}), or confirm it",
    )


def questions(body: Body) -> tuple[Finding, ...]:
    """Return a question for every value outside its plausible range, in tape order."""
    return tuple(found for value in body if (found := question(value)) is not None)


def contradictions(body: Body) -> tuple[Finding, ...]:
    """Return what cannot all be true of one body, each naming the measurements in conflict.

    Only what the body has is weighed; estimates agree with what they were made from, so a
    contradiction that rests on one points at a measured value.
    """
    found: list[Finding] = []
    for row in (*TRUNK_SUMS, *LIMB_SUMS):
        if all(body.has(key) for key in row.keys):
            for side in _sides(body, row.keys):
                finding = _weigh(body, row, side)
                if finding is not None:
                    found.append(finding)
    for where in ("back", "front"):
        for side in _sides(body, _SHOULDER_KEYS):
            finding = _shoulder(body, side, where)
            if finding is not None:
                found.append(finding)
    return tuple(found)


def measure_again(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Return the measurements the findings name, those named most often first."""
    counts: dict[str, int] = {}
    for finding in findings:
        for name in finding.place.split("; "):
            counts[name] = counts.get(name, 0) + 1
    return tuple(sorted(counts, key=lambda name: -counts[name]))


_SHOULDER_KEYS = (
    "shoulder-length",
    "shoulder-slope",
    "shoulder-point-to-centre-waist-back",
    "shoulder-point-to-centre-waist-front",
)


def _sides(body: Body, keys: Iterable[str]) -> tuple[BodySide, ...]:
    return ("right", "left") if any(body.is_uneven(key) for key in keys) else ("both",)


def _weigh(body: Body, row: Sum, side: BodySide) -> Finding | None:
    total = sum(factor * body.value(key, side) for key, factor in row.terms)
    if row.low is not None and total < row.low:
        limit = row.low
    elif row.high is not None and total > row.high:
        limit = row.high
    else:
        return None
    named = {key: f"{_name(key, side)} {_shown(body, key, side)}" for key in row.keys}
    return Finding(
        code=row.code,
        place="; ".join(_name(key, side) for key in row.keys),
        sentence=row.says.format_map(named),
        figure=total,
        tolerance=limit,
        unit="mm",
        remedy=f"measure again: {row.again}",
    )


def _shoulder(body: Body, side: BodySide, where: str) -> Finding | None:
    """Weigh shoulder point to centre waist against shoulder length, slope and trunk length."""
    key = f"shoulder-point-to-centre-waist-{where}"
    neck_point = _neck_point(body, side, where)
    reach, length = body.get(key, side), body.get("shoulder-length", side)
    if neck_point is None or reach is None or length is None:
        return None
    trunk = "neck-point-to-waist-back" if where == "back" else "neck-point-over-bust-to-waist"
    if where == "back" and not body.has(trunk):
        trunk = "back-neck-to-waist"
    keys = [key, "shoulder-length", trunk]
    slope = body.get("shoulder-slope", side)
    if slope is not None:
        keys.insert(2, "shoulder-slope")
        expected = abs(shoulder_point(neck_point, length, slope))
        wrong = abs(reach - expected) > SHOULDER_PLAY_MM
    else:
        likely = slope_to_reach(neck_point, length, reach)
        wrong = likely is None or not LEAST_SLOPE_DEG <= likely <= MOST_SLOPE_DEG
        expected = abs(shoulder_point(neck_point, length, 22))
    if not wrong:
        return None
    names = [f"{_name(k, side)} {_shown(body, k, side)}" for k in keys]
    return Finding(
        code=f"shoulder-triangle-{where}",
        place="; ".join(_name(k, side) for k in keys),
        sentence=(
            f"{names[0]} does not go with {', '.join(names[1:-1])} and {names[-1]}, which put it "
            f"near {write_both(expected)}"
        ),
        figure=reach - expected,
        tolerance=SHOULDER_PLAY_MM,
        unit="mm",
        remedy="measure again: the shoulder point by lifting the arm, then all of them",
    )


def _neck_point(body: Body, side: BodySide, where: str) -> complex | None:
    """Lay the neck point flat; the middle of an average neck where its base was not measured."""
    neck = neck_shape(body.get("neck-base-girth") or 371.0)
    if where == "back":
        height = body.get("neck-point-to-waist-back", side)
        if height is None:
            back = body.get("back-neck-to-waist")
            height = None if back is None else back + neck.back_rise_mm
        return None if height is None else complex(neck.back_width_mm, height)
    over, down = body.get("neck-point-over-bust-to-waist", side), None
    to_bust, apart = (
        body.get("neck-point-to-bust-point", side),
        body.get("bust-point-to-bust-point"),
    )
    if over is not None and to_bust is not None and apart is not None:
        down = front_neck_height(over, to_bust, neck.front_width_mm, apart / 2)
    elif over is not None:
        down = over
    return None if down is None else complex(neck.front_width_mm, down)


def _name(key: str, side: BodySide) -> str:
    entry = BY_KEY[key]
    return name_with_side(entry, side if entry.sided else "both")


def _shown(body: Body, key: str, side: BodySide) -> str:
    return _shown_amount(key, body.value(key, side))


def _shown_amount(key: str, value: float) -> str:
    return write_angle(value) if BY_KEY[key].unit == "deg" else write_both(value)
