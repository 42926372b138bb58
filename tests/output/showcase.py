"""Values for pages, as the tasks would hand them over. All people and notes are invented."""

from dataclasses import replace
from datetime import date

from wardrobe import bodice

from tracker.geometry.profile import Profile
from tracker.output.chart import Reading, Series
from tracker.output.client import (
    ClientHistory,
    FittingRow,
    GarmentRow,
    NoteRow,
    SessionRow,
    VersionRow,
)  # fmt: skip
from tracker.output.comparison import (
    Change,
    CheckRow,
    Comparison,
    Furthest,
    GirthRow,
    PatternView,
    SeamRow,
    SeamSides,
    Spot,
    WhyReason,
    WhyRow,
)  # fmt: skip
from tracker.pattern.edge import Displacement
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.redraw import redraw
from tracker.pattern.walk import side_lengths
from tracker.units import Unit


def moved(pattern: Pattern, piece: str, edge: str, *knots: tuple[float, float]) -> Pattern:
    """Move an edge; knots are (share of its length, amount inward)."""
    whole = pattern.piece(piece)
    line = whole.edge(edge)
    profile = Profile(tuple((share * line.base_length, mm) for share, mm in knots))
    fresh = replace(line, displacements=(*line.displacements, Displacement("step", profile)))
    return pattern.with_pieces(redraw(whole.with_edge(fresh), {fresh.key}))


def a_comparison(unit: Unit = Unit.CM) -> Comparison:
    """Two versions of the hand-drawn bodice, four changes."""
    old = bodice()
    new = moved(old, "front", "side", (0, 0.0), (1, 5.0))
    new = moved(new, "back", "side", (0, 5.0), (1, 0.0))
    new = moved(new, "back", "centre back", (0, 0.0), (0.5, 0.0), (1, 6.0))
    new = moved(new, "front", "neckline", (0, 3.0), (1, 0.0))
    front, back = new.piece("front"), new.piece("back")

    def seam(pattern: Pattern, name: str) -> SeamSides:
        first, second = side_lengths(pattern, pattern.seam(name))
        return SeamSides("front", first, "back", second, pattern.seam(name).planned_ease_mm)

    return Comparison(
        title="Taken in at the waist, neckline lowered",
        client_code="A-017",
        old=PatternView("bodice@2", old, "3 March 2026", "fitted"),
        new=PatternView("bodice@3", new, "10 March 2026", "for a test garment", "Second round."),
        changes=(
            Change(
                1, "front", front.edge("side").point_at(170),
                "Right and left side seams in 10 mm (3/8 in) at the waist, to nothing at the "
                "underarm: 5 mm from the front and 5 mm from the back.",
                "Fitting of 3 March: “loose all round the waist”, a fold of 5 mm pinned.",
                ("waist 20 mm (13/16 in) smaller", "armhole unchanged"),
                also=(Spot("back", back.edge("side").point_at(35)),),
            ),
            Change(
                2, "back", back.edge("centre back").point_at(380),
                "Centre back seam in 12 mm (1/2 in) at the waist, to nothing at the blade line: "
                "6 mm off each back.",
                "Fitting of 3 March: folds across above the waist.", ("waist 12 mm smaller",),
            ),
            Change(
                3, "front", front.edge("neckline").point_at(5),
                "Neckline 3 mm (1/8 in) lower at the centre front, to nothing at the neck point.",
                "“It touches my throat when I sit.”", ("neckline 4 mm longer",),
            ),
            Change(
                4, "front", front.edge("armhole").point_at(95),
                "Armhole notch 5 mm (3/16 in) up, and its partner with it.",
            ),
        ),
        girths=tuple(
            GirthRow(line, girth(old, line), girth(new, line), girth(old, line) - 45.0, 50.0)
            for line in ("bust line", "waist line")
        ),
        seams=tuple(SeamRow(n, seam(old, n), seam(new, n)) for n in ("side", "shoulder")),
        checks=(
            CheckRow("seam sides: side seam", "0.2 mm", "0.2 mm", True, True),
            CheckRow(
                "joins: side seam at the side waist", "0.3°", "3.1°", True, False,
                "true the crossing edge with the seam pinned",
            ),
            CheckRow("dart legs: bust dart of the front", "0.00 mm", "0.00 mm", True, True),
        ),
        furthest=(Furthest("front", 5.0, "at the side waist"), Furthest("back", 6.0)),
        laid_on="laid on the centre front and the shoulder",
        not_checked=("ease against the body: no body measurements were given",),
        why=(
            WhyRow("side seam", (
                WhyReason("bodice@3", "10 March 2026", "Side seams in 10 mm at the waist",
                          ("side of the front 5 mm in at the side waist",),
                          ("note 2.1, side seam, too loose: altered",)),
                WhyReason("bodice@1", "1 February 2026", "Her block, drafted"),
            )),
            WhyRow("shoulder seam", (WhyReason("bodice@1", "1 February 2026", "Her block"),)),
        ),
        day="11 March 2026",
        unit=unit,
    )  # fmt: skip


def a_history(unit: Unit = Unit.CM) -> ClientHistory:
    """Two years of an invented client: five sessions, three rounds."""
    days = [date(2024, 11, 5), date(2025, 5, 12), date(2025, 9, 30), date(2026, 2, 3),
            date(2026, 11, 20)]  # fmt: skip

    def series(name: str, least: float | None, *values: float, degrees: bool = False) -> Series:
        return Series(
            name,
            tuple(Reading(d, v, passing=d.month == 9) for d, v in zip(days, values, strict=False)),
            least, degrees,
        )  # fmt: skip

    return ClientHistory(
        client_code="A-017",
        card=(
            ("Posture", "round back, slight; right shoulder low, marked"),
            ("Likes", "close waists, nothing at the throat"),
            ("Consent", "measurements and photos, given 5 November 2024"),
        ),
        cautions=("Allergy: latex. No elastic against the skin.",),
        sessions=tuple(
            SessionRow(
                d, "M. Example", "light bra", "30 mm",
                "passing: pregnancy" if d.month == 9 else "usual", 24,
            )
            for d in days
        ),
        series=(
            series("bust girth", 12.0, 942, 948, 990, 945, 962),
            series("waist girth", 14.0, 742, 751, 905, 760, 758),
            series("shoulder length, right", 6.0, 122, 121, 122, 122),
            series("shoulder slope, right", 2.5, 22, 23, 22.5, 23.5, 23, degrees=True),
            Series("back neck to waist", (Reading(days[0], 410.0, estimated=True),
                                          Reading(days[1], 412.0)), 7.0),
            Series("armhole depth", (Reading(days[4], 205.0),), 6.0),
        ),
        said=("Bust girth is 20 mm larger than in November 2024: a real change.",),
        garments=(
            GarmentRow(
                "First test garment", "Calico, cut from bodice@2 on 12 November 2024.",
                (
                    FittingRow(
                        "19 November 2024", "Fitted by M. Example over a light bra, 30 mm heels.",
                        (
                            NoteRow(
                                "side seam at the waist, both sides", "loose, clear",
                                "pinned fold 5 mm", "hangs away all round", "",
                                "altered in bodice@3, settled on 3 December 2024", True, "body",
                            ),
                            NoteRow(
                                "neckline at the centre front", "tight, slight", "", "",
                                "It touches my throat when I sit", "open", False, "taste",
                            ),
                        ),
                        "Other shoes than when she was measured: 30 mm against 10 mm.",
                    ),
                ),
            ),
            GarmentRow("Second test garment", "Calico, cut from bodice@3."),
        ),
        versions=(
            VersionRow("bodice@1", None, "5 November 2024", "drawn", "Drafted from her body"),
            VersionRow("bodice@2", "bodice@1", "12 November 2024", "fitted", "Back dart added"),
            VersionRow("bodice@3", "bodice@2", "26 November 2024", "for a test garment",
                       "Taken in at the waist", now=True),
            VersionRow("bodice@4", "bodice@2", "2 December 2024", "drawn", "Tried without darts"),
        ),
        day="25 November 2026",
        unit=unit,
    )  # fmt: skip
