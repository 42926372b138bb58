"""The vocabulary: height, neck, and the girths of the trunk down to the waist.

Plausible ranges are wide enough for any adult likely to be measured; they are common
practice, no source. Paths are in our own words. ISO names are of ISO 8559-1:2017; those
marked as from memory were not checked against it.
"""

from tracker.body.measurement import OBSERVER, PRACTICE, Measurement, Purpose

BODICE: tuple[Purpose, ...] = ("bodice",)
ALL_BLOCKS: tuple[Purpose, ...] = ("bodice", "sleeve", "skirt", "trousers")

GIRTHS = (
    Measurement(
        key="height",
        name="height",
        path="from the floor up to the crown, standing straight against a wall without shoes",
        low=1350,
        high=2050,
        allowed=6,
        allowed_source=OBSERVER,
        purposes=ALL_BLOCKS,
        iso_name="stature",
        words=("stature",),
    ),
    Measurement(
        key="head-girth",
        name="head girth",
        path="round the head over the brow and the widest part behind, over the hair",
        low=500,
        high=660,
        allowed=5,
        allowed_source=PRACTICE,
        purposes=BODICE,
        iso_name="head girth",
        iso_from_memory=True,
    ),
    Measurement(
        key="neck-girth",
        name="neck girth",
        path="round the middle of the neck, level with the back neck point, tape resting lightly",
        low=270,
        high=520,
        allowed=6,
        allowed_source=OBSERVER,
        purposes=BODICE,
        iso_name="neck girth",
        words=("collar size",),
    ),
    Measurement(
        key="neck-base-girth",
        name="neck base girth",
        path=(
            "round the root of the neck: back neck point, both neck points at the front edge of "
            "the shoulder muscle, front neck point between the collar bones, along a fine chain"
        ),
        low=310,
        high=560,
        allowed=8,
        allowed_source=OBSERVER,
        purposes=BODICE,
        iso_name="neck base girth",
        iso_from_memory=True,
        words=("neck base",),
    ),
    Measurement(
        key="shoulder-girth",
        name="shoulder girth",
        path="level round both upper arms and the body, over the fullest part of the shoulders",
        low=800,
        high=1600,
        allowed=14,
        allowed_source=PRACTICE,
        purposes=BODICE,
    ),
    Measurement(
        key="high-bust-girth",
        name="high bust girth",
        path=(
            "from the middle of the chest above the bust, close under both arms and straight "
            "across the shoulder blades"
        ),
        low=650,
        high=1500,
        allowed=14,
        allowed_source=OBSERVER + " (chest)",
        purposes=BODICE,
        iso_name="upper chest girth",
        iso_from_memory=True,
        words=("upper chest", "above bust", "upper bust"),
    ),
    Measurement(
        key="bust-girth",
        name="bust girth",
        path="level round the body over both bust points, under the arms, breathing quietly",
        low=680,
        high=1700,
        allowed=14,
        allowed_source=OBSERVER + " (chest)",
        purposes=BODICE,
        iso_name="bust girth",
        words=("full bust", "chest girth"),
    ),
    Measurement(
        key="underbust-girth",
        name="underbust girth",
        path="level round the ribs, close under the breasts, breathing quietly",
        low=580,
        high=1500,
        allowed=14,
        allowed_source=OBSERVER + " (chest)",
        purposes=BODICE,
        iso_name="under-bust girth",
        words=("rib girth",),
    ),
    Measurement(
        key="waist-girth",
        name="waist girth",
        path="round the body where a tape tied round it settles by itself, level or not",
        low=500,
        high=1700,
        allowed=12,
        allowed_source=OBSERVER + " (waist at the navel)",
        purposes=("bodice", "skirt", "trousers"),
        words=("natural waist",),
    ),
    Measurement(
        key="standard-waist-girth",
        name="waist girth, midway",
        path="level round the body half-way between the lowest rib and the top of the hip bone",
        low=500,
        high=1700,
        allowed=12,
        allowed_source=OBSERVER + " (waist at the navel)",
        purposes=("skirt", "trousers"),
        iso_name="waist girth",
        words=("iso waist", "standard waist", "midway waist"),
    ),
    Measurement(
        key="bust-arc-front",
        name="bust arc, front",
        path=(
            "at the bust line from the side line under one arm, over both bust points, to the "
            "side line under the other arm"
        ),
        low=330,
        high=1000,
        allowed=10,
        allowed_source=PRACTICE,
        purposes=BODICE,
        words=("front bust", "front bust arc"),
    ),
    Measurement(
        key="bust-arc-back",
        name="bust arc, back",
        path="at the bust line from side line to side line across the back",
        low=300,
        high=800,
        allowed=10,
        allowed_source=PRACTICE,
        purposes=BODICE,
        words=("back bust", "back bust arc"),
    ),
    Measurement(
        key="waist-arc-front",
        name="waist arc, front",
        path="along the waist tape from side line to side line across the front",
        low=240,
        high=950,
        allowed=10,
        allowed_source=PRACTICE,
        purposes=("bodice", "skirt", "trousers"),
        words=("front waist", "front waist arc"),
    ),
    Measurement(
        key="waist-arc-back",
        name="waist arc, back",
        path="along the waist tape from side line to side line across the back",
        low=220,
        high=850,
        allowed=10,
        allowed_source=PRACTICE,
        purposes=("bodice", "skirt", "trousers"),
        words=("back waist", "back waist arc"),
    ),
)
