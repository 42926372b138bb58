"""Straight-line rules for estimating one measurement from others, each with its spread.

A rule reads: value = base + Σ slope × (other − at). The spread is the standard deviation of
real bodies about the estimate; where a source gives only the spread of the whole population the
figure here is that, less what the rule explains, by our own judgement. Lengths in mm, slopes of
the shoulder in degrees.

Sources, cited by title: ANSUR II, US Army 2012, women, n = 1,986; ASTM D5585-11e1 (abstract);
the long-used US home-pattern body chart; bdims (Heinz, Peterson, Johnson and Kerk, 2003), 260
women. "Textbook, from memory" is a widely printed metric chart for size 12 and was not checked
in print.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Rule:
    """One straight-line rule.

    Args:
        key: what it estimates.
        base: the estimate when every other measurement is at its ``at``.
        terms: (key of another measurement, slope, at).
        spread: standard deviation of bodies about the estimate.
        source: where base, slopes and spread come from.
    """

    key: str
    base: float
    terms: tuple[tuple[str, float, float], ...]
    spread: float
    source: str


ANSUR = "ANSUR II women"
D5585 = "ASTM D5585-11e1"
CHART = "US home-pattern body chart"
BDIMS = "bdims, 260 women"
TEXTBOOK = "textbook size 12, from memory"
PRACTICE = "common practice, no source"

_B, _H, _HIP, _HB = "bust-girth", "height", "hip-girth", "high-bust-girth"

RULES: tuple[Rule, ...] = (
    # A table of data; slopes per mm of the other measurement.
    Rule(_H, 1635, (), 64, f"{ANSUR}: 1628 ± 64"),
    Rule("back-neck-to-waist", 406, ((_H, 0.2, 1635), (_B, 0.1, 900)), 16,
         f"{CHART}: 413 at bust 864; {TEXTBOOK}: 410; spread {ANSUR}: 26 before height"),
    Rule("waist-girth", 705, ((_B, 1.0, 900),), 45,
         f"{CHART}: bust less 7 1/2 to 8 in; spread {ANSUR}: 54"),
    Rule(_HIP, 955, ((_B, 1.0, 900),), 45,
         f"{CHART}: bust + 2 in; {ANSUR}: chest + 74 ± 57"),
    Rule(_HB, 860, ((_B, 0.82, 900),), 12,
         f"{D5585}: bust less upper chest grows 0.18 per mm of bust; {PRACTICE}: 4 to 5 cm "
         f"for a middling cup"),
    Rule("underbust-girth", 770, ((_B, 0.92, 921),), 20,
         f"{D5585}: 762 at bust 921, slope 0.92"),
    Rule("neck-base-girth", 384, ((_B, 0.214, 984),), 13,
         f"{D5585}: 384 at bust 984, slope 0.214; spread {ANSUR}: 20 before bust"),
    Rule("neck-girth", 330, (("neck-base-girth", 0.8, 371),), 11, f"{ANSUR}: 330 at base 371"),
    Rule("head-girth", 559, (), 15, f"{D5585}: 22 in in the middle sizes"),
    Rule("shoulder-girth", 1067, ((_B, 0.65, 984),), 28, f"{D5585}: 1067 at bust 984"),
    Rule("shoulder-length", 128, ((_B, 0.045, 900), (_H, 0.03, 1635)), 8,
         f"{ANSUR}: 135 ± 10; {TEXTBOOK}: 122"),
    Rule("shoulder-slope", 22, (), 3,
         "two studies of Japanese students, 1970 and 1979: 22 to 25 degrees, 14 to 35"),
    Rule("armhole-depth", 182, ((_B, 0.08, 900), (_H, 0.05, 1635)), 9,
         f"{ANSUR}: back neck bone 157 ± 14 above the front armpit, plumb; {TEXTBOOK}: 210 "
         f"with its ease"),
    Rule("across-back", 340, ((_HB, 0.25, 860),), 11, f"{TEXTBOOK}: 344, 1 in 4 of bust"),
    Rule("across-front", 322, ((_HB, 0.28, 860),), 11, f"{TEXTBOOK}: 324, 1.2 in 4 of bust"),
    Rule("neck-point-to-bust-point", 262, ((_B, 0.14, 900), (_H, 0.06, 1635)), 10,
         f"{ANSUR}: 66 + 158 plumb from back neck bone to bust level; spread 22"),
    Rule("bust-point-to-bust-point", 184, ((_B, 0.15, 900),), 9, f"{PRACTICE}: 18 cm"),
    Rule("hip-depth", 205, ((_H, 0.08, 1635),), 12, f"{TEXTBOOK}: 206"),
    Rule("standard-waist-girth", 742, (("waist-girth", 0.85, 705), (_HIP, 0.15, 955)), 20,
         PRACTICE),
    Rule("armhole-girth", 392, ((_B, 0.32, 900),), 15, PRACTICE),
    Rule("upper-arm-girth", 287, ((_B, 0.29, 900),), 16,
         f"{ANSUR}: 306 flexed at bust 947; {TEXTBOOK}: 284"),
    Rule("elbow-girth", 259, (("upper-arm-girth", 0.4, 285),), 10, PRACTICE),
    Rule("forearm-girth", 238, (("upper-arm-girth", 0.55, 281),), 8, BDIMS),
    Rule("wrist-girth", 153, ((_B, 0.03, 900),), 7, f"{ANSUR}: 155 ± 8; {BDIMS}: 151"),
    Rule("hand-girth", 215, (("wrist-girth", 0.8, 153),), 10, PRACTICE),
    Rule("arm-length", 561, ((_H, 0.343, 1635),), 18,
         f"{ANSUR}: 544 at height 1628; {TEXTBOOK}: 585"),
    Rule("shoulder-to-elbow", 326, (("arm-length", 0.58, 561),), 9, PRACTICE),
    Rule("underarm-length", 436, (("arm-length", 1.0, 561),), 14, PRACTICE),
    Rule("back-neck-to-wrist", 809, ((_H, 0.495, 1635),), 18, f"{ANSUR}: 807 at height 1628"),
    Rule("high-hip-girth", 880, (("waist-girth", 0.3, 705), (_HIP, 0.7, 955)), 20, PRACTICE),
    Rule("thigh-girth", 573, ((_HIP, 0.6, 955),), 22, f"{ANSUR}: 0.603 of hip; {BDIMS}: 0.598"),
    Rule("mid-thigh-girth", 505, (("thigh-girth", 0.88, 573),), 15, PRACTICE),
    Rule("knee-girth", 353, ((_HIP, 0.26, 957),), 14, f"{BDIMS}: 353 at hip 957"),
    Rule("calf-girth", 350, ((_HIP, 0.26, 957),), 15, f"{BDIMS}: 350; {ANSUR}: 373 at hip 1021"),
    Rule("ankle-girth", 212, ((_HIP, 0.08, 957),), 10, f"{BDIMS}: 212; {ANSUR}: 216"),
    Rule("foot-girth", 315, ((_H, 0.1, 1635),), 15, PRACTICE),
    Rule("waist-to-knee", 581, ((_H, 0.357, 1635),), 18, f"{TEXTBOOK}: 585"),
    Rule("outside-leg", 1033, ((_H, 0.632, 1635),), 20, f"{TEXTBOOK}: 1040"),
    Rule("waist-to-floor-front", 1028, (("outside-leg", 1.0, 1033),), 10, PRACTICE),
    Rule("waist-to-floor-back", 1031, (("outside-leg", 1.0, 1033),), 10, PRACTICE),
    Rule("inside-leg", 785, ((_H, 0.6, 1635),), 22, f"{ANSUR}: 782 ± 45 at height 1628"),
    Rule("knee-height", 445, ((_H, 0.272, 1635),), 12, PRACTICE),
    Rule("crotch-depth", 281, ((_HIP, 0.1, 955), (_H, 0.06, 1635)), 12, f"{TEXTBOOK}: 280"),
    Rule("crotch-length", 700, ((_HIP, 0.35, 955),), 25,
         f"{ANSUR}: 621 ± 42 from navel to navel, and the natural waist lies higher"),
    Rule("crotch-length-front", 315, (("crotch-length", 0.45, 700),), 14,
         f"{ANSUR}: 45 in 100 in front"),
    Rule("crotch-length-back", 385, (("crotch-length", 0.55, 700),), 14,
         f"{ANSUR}: 55 in 100 behind"),
)  # fmt: skip

BY_KEY: dict[str, Rule] = {rule.key: rule for rule in RULES}
