"""What is seen at a fitting, and where: its likely causes, likeliest first. Data only.

Each row names its source; most are common practice, which no book can be quoted for. What each
cause is told by and remedied with is in ``causes``.
"""

from dataclasses import dataclass

from tracker.fitting.observation import Sign
from tracker.fitting.remedy import PRACTICE

USDA = "Fitting Dresses, U.S. Department of Agriculture, 1946"
WSU = "Garment Fitting, E.M. 2246, Washington State University, 1962"
TWO_PARTS = "The Dressmaker, 1910s, part 8"

_GAPE = (Sign.GAPING, Sign.STANDING_AWAY, Sign.TOO_LOOSE)
_ACROSS = (Sign.FOLDS_ACROSS, Sign.TOO_LONG)
_ALONG = (Sign.FOLDS_ALONG, Sign.TOO_LOOSE)
_TIGHT = (Sign.TOO_TIGHT, Sign.STRAIN)
_SHORT = (Sign.RIDING_UP, Sign.TOO_SHORT)


@dataclass(frozen=True)
class Row:
    """What is seen.

    Attributes:
        seen: in a fitter's words.
        signs: the signs it is noted with.
        at: the regions it is noted at.
        causes: names of likely causes, likeliest first.
        source: where that is said.
        words: in the note's direction or words, any of these makes the row likelier.
        of: only for these garments; all when empty.
    """

    seen: str
    signs: tuple[Sign, ...]
    at: tuple[str, ...]
    causes: tuple[str, ...]
    source: str = PRACTICE
    words: tuple[str, ...] = ()
    of: tuple[str, ...] = ()


ROWS = (
    # -- how it hangs ----------------------------------------------------------------------
    Row("the side seam swings forward", (Sign.SWINGING, Sign.TWISTING), ("side", "side seam"),
        ("full bust", "stomach", "side seam swinging forward", "cloth off its grain"),
        f"{USDA}, part 14; {PRACTICE}", ("forward", "front")),
    Row("the side seam swings back", (Sign.SWINGING, Sign.TWISTING), ("side", "side seam"),
        ("full seat", "round back", "side seam swinging back", "cloth off its grain"),
        f"{USDA}, part 14; {PRACTICE}", ("back", "behind")),
    Row("a seam or piece twists", (Sign.TWISTING,), ("front", "back", "centre front",
        "centre back", "inside leg", "front panel seam", "back panel seam"),
        ("cloth off its grain",)),
    Row("the waist line rises in front", (Sign.OFF_LEVEL, Sign.RIDING_UP),
        ("front waist", "front", "centre front"), ("full bust", "long waist"), of=("bodice",)),
    Row("the waist line rises behind", (Sign.OFF_LEVEL, Sign.RIDING_UP),
        ("back waist", "back", "centre back"), ("round back", "long waist"),
        f"{TWO_PARTS}; {PRACTICE}", of=("bodice",)),
    Row("the waist line sinks behind", (Sign.OFF_LEVEL, Sign.TOO_LONG),
        ("back waist", "centre back"), ("hollow back",), PRACTICE,
        ("drops", "sinks", "low", "long"), ("bodice",)),
    Row("a side seam is crooked or puckers", (Sign.TWISTING, Sign.STRAIN, Sign.OTHER),
        ("side", "side seam", "side at the hip"), ("cloth off its grain",), f"{USDA}, part 14",
        ("crooked", "pucker")),
    Row("bust or hip line off level on one side", (Sign.OFF_LEVEL,), ("side", "side seam"),
        ("one shoulder lower", "one hip higher", "cloth off its grain")),
    # -- shoulder and neck -----------------------------------------------------------------
    Row("lines from the neck to the underarm", (Sign.DRAG_LINES, Sign.FOLDS_ACROSS),
        ("shoulder", "front", "back", "front armhole", "back armhole", "armhole"),
        ("sloping shoulders", "one shoulder lower"), WSU,
        ("underarm", "armpit", "neck to", "from the neck", "collar"), ("bodice",)),
    Row("lines from the shoulder point to the centre", (Sign.DRAG_LINES, Sign.FOLDS_ACROSS,
        Sign.STRAIN), ("shoulder", "front", "back", "centre front", "front neckline"),
        ("square shoulders",), WSU,
        ("shoulder point", "to the centre", "from the shoulder", "throat"), ("bodice",)),
    Row("the shoulder is too long", (Sign.TOO_LONG,), ("shoulder",),
        ("shoulder too long", "sloping shoulders"), WSU),
    Row("the shoulder seam stands off near the neck", (Sign.STANDING_AWAY, Sign.GAPING),
        ("shoulder",), ("square shoulders",), WSU, ("near the neck", "at the neck", "neck end"),
        ("bodice",)),
    Row("the shoulder is loose at its end", (*_GAPE, Sign.FOLDS_ACROSS), ("shoulder",),
         ("sloping shoulders", "shoulder too long", "one shoulder lower"), WSU),
    Row("one shoulder is lower", (*_GAPE, Sign.FOLDS_ACROSS, Sign.DRAG_LINES, Sign.OFF_LEVEL,
        Sign.OTHER), ("shoulder",), ("one shoulder lower", "sloping shoulders"), PRACTICE,
        ("lower", "low", "drops", "hangs", "uneven", "one shoulder")),
    Row("the shoulder is tight", (*_TIGHT, *_SHORT), ("shoulder",),
        ("square shoulders", "shoulder too short"), WSU),
    Row("the shoulder seam is off its place", (Sign.OFF_PLACE, Sign.SWINGING, Sign.OFF_LEVEL),
        ("shoulder",), ("forward shoulder", "shoulder seam too far forward",
                        "one shoulder lower")),
    Row("the shoulder falls down the arm", (Sign.TOO_LONG, Sign.OFF_PLACE, Sign.TOO_LOOSE),
        ("armhole", "front armhole", "back armhole", "sleeve cap", "shoulder"),
        ("shoulder too long", "sloping shoulders"), WSU,
        ("falls", "drops", "down the arm", "past", "shoulder")),
    Row("the neckline gapes in front", _GAPE, ("front neckline",),
        ("front neckline too long", "hollow chest", "small bust", "forward shoulder"),
        f"{PRACTICE}; {USDA}, part 5"),
    Row("the neckline gapes behind", _GAPE, ("back neckline",),
        ("round back", "back neck standing away", "neck too wide"), f"{USDA}, part 5"),
    Row("the neckline stands off all round", _GAPE, ("neckline",),
        ("neck too wide", "front neckline too long", "back neck standing away"),
        f"{USDA}, part 5"),
    Row("the neck binds", (*_TIGHT, Sign.FOLDS_ACROSS, Sign.RIDING_UP),
        ("neckline", "front neckline", "back neckline"), ("neck too tight", "square shoulders"),
        f"{USDA}, part 5"),
    Row("the neckline sits too high", (Sign.OFF_PLACE, *_TIGHT), ("front neckline",
        "back neckline", "neckline"), ("neckline too high", "neck too tight"), PRACTICE,
        ("high", "chokes", "throat")),
    Row("the neckline sits too low", (Sign.OFF_PLACE, Sign.TOO_LONG), ("front neckline",
        "back neckline", "neckline"), ("neckline too low", "neck too wide"), PRACTICE, ("low",)),
    Row("a fold across below the nape", _ACROSS, ("back neckline", "back", "centre back"),
        ("flat upper back", "square shoulders"), PRACTICE, ("nape", "neck", "blade", "upper"),
        ("bodice",)),
    # -- bust and back ---------------------------------------------------------------------
    Row("lines point at the bust", (Sign.DRAG_LINES, Sign.STRAIN, Sign.TOO_TIGHT),
        ("front", "side", "front armhole", "front panel seam", "side front"),
        ("full bust", "high bust", "low bust"), PRACTICE, ("bust", "to the bust"), ("bodice",)),
    Row("tight over the bust", _TIGHT, ("front panel seam", "bust dart", "side at the underarm"),
        ("full bust", "broad chest"), of=("bodice",)),
    Row("empty over the bust", (*_ALONG, Sign.STANDING_AWAY, Sign.GAPING),
        ("front", "front panel seam", "bust dart"),
        ("small bust", "dart too short", "low bust"), PRACTICE, ("bust", "empty", "dart"),
        ("bodice",)),
    Row("the dart is off its place", (Sign.OFF_PLACE,), ("front", "bust dart", "side"),
        ("low bust", "high bust", "dart too long", "dart too short"), of=("bodice",)),
    Row("the dart points below the bust", (Sign.OFF_PLACE,), ("front", "bust dart", "side"),
        ("high bust",), PRACTICE, ("low", "below"), ("bodice",)),
    Row("the dart points above the bust", (Sign.OFF_PLACE,), ("front", "bust dart", "side"),
        ("low bust",), PRACTICE, ("high", "above"), ("bodice",)),
    Row("a dart is past, or short of, its place", (Sign.OFF_PLACE, Sign.TOO_LONG, Sign.TOO_SHORT,
        Sign.STANDING_AWAY), ("front", "back", "front waist", "back waist", "bust dart"),
        ("dart too long", "dart too short"), PRACTICE, ("pokes", "past", "short of", "ends")),
    Row("folds across above the bust", _ACROSS, ("front", "centre front", "front armhole"),
        ("hollow chest", "square shoulders", "front too long above the bust"), PRACTICE,
        ("above", "chest", "collar bone"), ("bodice",)),
    Row("the front sags below the bust", _ACROSS, ("front", "front waist"),
        ("front too long above the bust", "short waist"), f"{USDA}, part 9",
        ("below", "under", "sag"), ("bodice",)),
    Row("the back is tight across", _TIGHT, ("back", "back armhole", "back panel seam"),
        ("broad back", "round back"), "Problem areas: the back, Threads; common practice, no "
        "source",
        of=("bodice",)),
    Row("the back stands off or is pulled up", (*_SHORT, Sign.STANDING_AWAY, Sign.DRAG_LINES),
        ("back", "centre back", "back waist"), ("round back", "hollow back"), TWO_PARTS,
        ("blade", "round", "up", "stoop", "side-back", "rising", "rise"), ("bodice",)),
    Row("folds stand upright on the back", _ALONG, ("back", "back armhole", "back panel seam"),
        ("narrow back", "waist too loose"), of=("bodice",)),
    Row("upright folds stand taut from neck to waist", (Sign.FOLDS_ALONG, Sign.STRAIN),
        ("back", "front", "centre back", "centre front"), ("long waist",), PRACTICE,
        ("taut", "tension", "pulled down", "neck to waist"), ("bodice",)),
    Row("the chest is tight across", _TIGHT, ("front", "front armhole"),
        ("broad chest", "full bust"), of=("bodice",)),
    Row("folds stand upright on the chest", _ALONG, ("front", "front armhole"),
        ("narrow chest", "small bust"), of=("bodice",)),
    # -- armhole ---------------------------------------------------------------------------
    Row("the front armhole gapes", (Sign.GAPING, Sign.STANDING_AWAY), ("front armhole",),
        ("full bust", "bust shaping too small", "narrow chest")),
    Row("the back armhole gapes", (Sign.GAPING, Sign.STANDING_AWAY), ("back armhole",),
        ("round back", "back armhole too long", "narrow back")),
    Row("the armhole gapes", (Sign.GAPING, Sign.STANDING_AWAY), ("armhole",),
        ("bust shaping too small", "back armhole too long", "full bust", "round back")),
    Row("the armhole cuts in", (*_TIGHT, Sign.RIDING_UP),
        ("armhole", "front armhole", "back armhole", "side at the underarm"),
        ("armhole too high", "broad back", "broad chest"), f"{USDA}, part 10"),
    Row("the armhole cuts in under the arm", (*_TIGHT, Sign.RIDING_UP),
        ("armhole", "front armhole", "back armhole", "side"), ("armhole too high",),
        f"{USDA}, part 10", ("cuts", "under the arm", "underarm", "binds", "armpit"), ("bodice",)),
    Row("the bodice lifts with the arm", (Sign.RIDING_UP, Sign.TOO_LONG, Sign.TOO_LOOSE),
        ("armhole", "sleeve", "sleeve cap"), ("armhole too low", "broad back"),
        f"{USDA}, part 10", ("lifts", "arm up", "raises", "reach")),
    # -- waist -----------------------------------------------------------------------------
    Row("folds across at the small of the back", (*_ACROSS, Sign.STANDING_AWAY, Sign.GAPING),
        ("back", "centre back", "back waist"),
        ("hollow back", "waist hollow behind", "hips too tight", "short waist"), PRACTICE,
        ("waist", "small", "hollow", "sway", "seat", "above the waist")),
    Row("folds across above the waist all round", _ACROSS, ("side", "waist", "front waist",
        "side at the waist"), ("short waist", "hips too tight"), of=("bodice",)),
    Row("folds across above the waist in front, at the sides too", _ACROSS,
        ("front", "back", "centre front", "centre back"), ("short waist",), PRACTICE,
        ("waist", "above the waist", "sides too", "all round", "right round"), ("bodice",)),
    Row("the waist sits too high", (*_SHORT, Sign.OFF_PLACE), ("waist", "front waist",
        "back waist", "side at the waist", "side"), ("long waist",), of=("bodice",)),
    Row("the waist is tight", _TIGHT, ("waist", "front waist", "back waist", "side",
        "side at the waist", "centre back", "front panel seam", "back panel seam"),
        ("waist too tight", "hips too tight")),
    Row("the waist is loose", (*_ALONG, Sign.STANDING_AWAY, Sign.GAPING), ("waist", "front waist",
        "back waist", "side", "side at the waist", "centre back", "front panel seam",
        "back panel seam"), ("waist too loose", "waist hollow behind", "hollow back")),
    # -- hips ------------------------------------------------------------------------------
    Row("it draws across the hips and rides up", (*_TIGHT, Sign.RIDING_UP, Sign.FOLDS_ACROSS,
        Sign.DRAG_LINES),
        ("side", "side at the hip", "hip", "front", "back"),
        ("hips too tight", "full seat", "stomach"), f"{USDA}, part 14",
        ("hip", "thigh", "across"), ("skirt", "trousers")),
    Row("it is tight below the waist", (*_TIGHT, Sign.RIDING_UP, Sign.FOLDS_ACROSS),
        ("side at the hip", "hip"), ("hips too tight",), f"{USDA}, part 14"),
    Row("the hips are loose", _ALONG, ("side", "side at the hip", "hip", "front", "back"),
        ("hips too loose", "waist too loose", "flat seat"), of=("skirt", "trousers")),
    Row("it is drawn up in front", (Sign.RIDING_UP, Sign.STRAIN, Sign.TOO_SHORT, Sign.DRAG_LINES,
        Sign.OFF_LEVEL), ("front", "front waist", "centre front"), ("stomach", "hips too tight"),
        "The New Dressmaker, 1921, chapter 5", ("stomach", "tummy", "front", "belly"),
        ("skirt", "trousers")),
    Row("the seat hangs in folds", (*_ALONG, Sign.FOLDS_ACROSS, Sign.TOO_LONG, Sign.DRAG_LINES,
        Sign.OFF_LEVEL), ("back", "centre back", "back crotch", "back waist"),
        ("flat seat", "hollow back", "crotch too low"), PRACTICE,
        ("seat", "bags", "baggy", "droops", "under the seat", "bottom"), ("skirt", "trousers")),
    Row("the seat strains", (*_TIGHT, Sign.RIDING_UP, Sign.TOO_SHORT, Sign.DRAG_LINES,
        Sign.OFF_LEVEL), ("back", "centre back", "back crotch", "back waist"),
        ("full seat", "hips too tight"), PRACTICE, ("seat", "pulls down", "sits", "bottom"),
        ("skirt", "trousers")),
    Row("one hip is higher", (Sign.OFF_LEVEL, Sign.RIDING_UP, Sign.DRAG_LINES),
        ("side", "side at the hip", "side at the waist", "front", "hip"), ("one hip higher",),
        PRACTICE, ("one hip", "right hip", "left hip", "higher"), ("skirt", "trousers")),
    Row("lines point at the crotch in front", (Sign.DRAG_LINES,), ("front", "side"),
        ("crotch too short in front", "crotch too high", "thigh too tight"), PRACTICE,
        ("crotch", "fork"), ("trousers",)),
    Row("lines point at the crotch behind", (Sign.DRAG_LINES,), ("back",),
        ("crotch too short behind", "crotch too high", "thigh too tight"), PRACTICE,
        ("crotch", "fork"), ("trousers",)),
    Row("the crotch is too short in front", (Sign.TOO_SHORT,), ("front crotch", "centre front"),
        ("crotch too short in front", "crotch too high"), of=("trousers",)),
    Row("the crotch is too short behind", (Sign.TOO_SHORT,), ("back crotch", "centre back"),
        ("crotch too short behind", "full seat", "crotch too high"), of=("trousers",)),
    Row("the crotch binds", (*_TIGHT, Sign.TOO_SHORT, Sign.RIDING_UP, Sign.DRAG_LINES),
        ("front crotch", "back crotch", "inside leg", "centre front", "centre back"),
        ("crotch too high", "crotch too short behind", "crotch too short in front",
         "thigh too tight"), of=("trousers",)),
    Row("the crotch binds behind", (*_TIGHT, Sign.TOO_SHORT, Sign.RIDING_UP, Sign.DRAG_LINES),
        ("back crotch", "centre back", "back"), ("crotch too short behind", "full seat"),
        PRACTICE, ("sits", "seat", "behind", "pulls down"), ("trousers",)),
    Row("the crotch binds in front", (*_TIGHT, Sign.TOO_SHORT, Sign.DRAG_LINES),
        ("front crotch", "centre front", "front"), ("crotch too short in front", "stomach"),
        PRACTICE, ("smile", "front", "up"), ("trousers",)),
    Row("the crotch is too long in front", _ACROSS, ("front crotch", "centre front"),
        ("crotch too long in front", "crotch too low"), of=("trousers",)),
    Row("the crotch is too long behind", _ACROSS, ("back crotch", "centre back"),
        ("crotch too long behind", "flat seat", "crotch too low"), of=("trousers",)),
    Row("the crotch hangs", (*_ACROSS, Sign.TOO_LOOSE, Sign.FOLDS_ALONG),
        ("front crotch", "back crotch", "inside leg", "centre front", "centre back"),
        ("crotch too low", "crotch too long behind", "crotch too long in front",
         "thigh too loose"), of=("trousers",)),
    Row("the crotch cuts in at its curve", _TIGHT, ("front crotch", "back crotch"),
        ("crotch curve too full",), PRACTICE, ("curve", "cuts in"), ("trousers",)),
    Row("the thigh is tight", _TIGHT, ("inside leg", "side", "front", "back"),
        ("thigh too tight", "crotch too short behind"), PRACTICE, ("thigh", "leg"),
        ("trousers",)),
    Row("the thigh is loose", _ALONG, ("inside leg",), ("thigh too loose",), PRACTICE,
        ("thigh", "leg"), ("trousers",)),
    Row("the legs twist or lean at the knee", (Sign.TWISTING, Sign.SWINGING, Sign.DRAG_LINES),
        ("inside leg", "side", "front", "back"),
        ("knock knees", "bow legs", "cloth off its grain"), PRACTICE, of=("trousers",)),
    Row("the leg is narrow below", _TIGHT, ("inside leg", "side", "front", "back", "hem"),
        ("leg too narrow",), PRACTICE, ("knee", "calf", "hem"), ("trousers",)),
    Row("the leg is wide below", _ALONG, ("inside leg", "side", "front", "back", "hem"),
        ("leg too wide",), PRACTICE, ("knee", "calf", "hem", "leg"), ("trousers",)),
    # -- hem -------------------------------------------------------------------------------
    Row("the hem is narrow to stride in", _TIGHT, ("hem",), ("hem too narrow",)),
    Row("the hem is wide", (Sign.TOO_LOOSE, Sign.FOLDS_ALONG), ("hem",), ("hem too wide",)),
    Row("the hem is off level", (Sign.OFF_LEVEL, Sign.RIDING_UP, Sign.SWINGING), ("hem",),
        ("hem off level", "stomach", "full seat", "one hip higher", "waist too loose"),
        f"{USDA}, part 15"),
    Row("pleats spread at the hem", (Sign.GAPING, Sign.STANDING_AWAY, Sign.TOO_LOOSE, Sign.OTHER),
        ("hem",), ("waist too loose", "hips too tight", "cloth off its grain"),
        f"{USDA}, part 15", ("pleat", "spread"), ("skirt",)),
    Row("it is too long", (Sign.TOO_LONG,), ("hem", "waist"), ("too long all round",)),
    Row("it is too short", (Sign.TOO_SHORT,), ("hem", "waist"), ("too short all round",)),
    # -- sleeve ----------------------------------------------------------------------------
    Row("the sleeve is tight round the upper arm", (*_TIGHT, Sign.FOLDS_ACROSS, Sign.RIDING_UP,
        Sign.DRAG_LINES),
        ("sleeve", "sleeve cap"), ("full upper arm", "cap too high", "armhole too low"),
        "Set-in sleeve solutions, Threads, 2021", ("upper arm", "biceps", "bend")),
    Row("the sleeve twists towards the front", (Sign.TWISTING, Sign.DRAG_LINES, Sign.SWINGING),
        ("sleeve", "sleeve cap"), ("sleeve set for an arm further back",), f"{USDA}, part 10",
        ("back of the cap", "towards the front", "forward", "from the back")),
    Row("the sleeve twists towards the back", (Sign.TWISTING, Sign.DRAG_LINES, Sign.SWINGING),
        ("sleeve", "sleeve cap"), ("sleeve set for an arm further forward",), f"{USDA}, part 10",
        ("front of the cap", "towards the back", "backward", "from the front")),
    Row("the sleeve twists", (Sign.TWISTING, Sign.SWINGING), ("sleeve", "sleeve cap"),
        ("sleeve set for an arm further back", "sleeve set for an arm further forward",
         "cloth off its grain"), f"{USDA}, part 10"),
    Row("lines run down from the top of the cap", (Sign.DRAG_LINES, Sign.STRAIN, Sign.TOO_SHORT),
        ("sleeve cap", "sleeve"), ("cap too low", "full upper arm"),
        f"{USDA}, part 10", ("top", "from the cap", "shoulder point", "underarm", "both sides")),
    Row("a fold across below the shoulder", (*_ACROSS, Sign.STANDING_AWAY),
        ("sleeve cap", "sleeve"), ("cap too high",), f"{USDA}, part 10",
        ("cap", "top", "below the shoulder", "collapses")),
    Row("the sleeve is too long", (Sign.TOO_LONG,), ("sleeve", "wrist"), ("sleeve too long",)),
    Row("the sleeve is too short", (Sign.TOO_SHORT, Sign.RIDING_UP), ("sleeve", "wrist"),
        ("sleeve too short",)),
    Row("the sleeve is tight below", _TIGHT, ("wrist", "sleeve"),
        ("sleeve tight below the elbow", "full upper arm"), PRACTICE,
        ("elbow", "wrist", "fore-arm", "forearm")),
    Row("the sleeve is loose", _ALONG, ("wrist",), ("sleeve loose below the elbow",)),
    Row("the upper arm is loose", _ALONG, ("sleeve", "sleeve cap"),
        ("thin upper arm", "sleeve loose below the elbow"),
        "Set-in sleeve solutions, Threads, 2021"),
)  # fmt: skip


def row_seen(text: str) -> Row | None:
    """Return the row that is said in the table's own words: "one shoulder is lower"."""
    plain = " ".join(text.lower().split()).rstrip(".")
    return next((row for row in ROWS if row.seen == plain), None)
