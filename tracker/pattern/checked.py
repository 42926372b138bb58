"""What a check looked at: findings, figures that passed, and what was left out."""

from dataclasses import dataclass

from tracker.pattern.finding import Finding


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check looked at, what it found and what it could not look at.

    Attributes:
        findings: what is wrong.
        figures: what is right, each with its figure: there is no tick without one.
        not_checked: what was left out, and why.
    """

    findings: tuple[Finding, ...]
    figures: tuple[tuple[str, str], ...]
    not_checked: tuple[str, ...]

    @property
    def clean(self) -> bool:
        """Tell whether nothing was found."""
        return not self.findings

    def beside(self, other: "Checked") -> "Checked":
        """Return this and another check's as one."""
        return Checked(
            self.findings + other.findings,
            self.figures + other.figures,
            self.not_checked + other.not_checked,
        )


class Book:
    """Where checks write what they see."""

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.figures: list[tuple[str, str]] = []
        self.not_checked: list[str] = []

    @property
    def closed(self) -> Checked:
        """What was written."""
        return Checked(tuple(self.findings), tuple(self.figures), tuple(self.not_checked))

    def tell(
        self, code: str, place: str, figure: float, tolerance: float, unit: str,
        sentence: str, remedy: str,
    ) -> None:  # fmt: skip
        """Write a figure down as right or as a finding."""
        digits = 0.01 if code == "dart legs" else 0.1
        shown = f"{round(figure / digits) * digits + 0.0:.{2 if digits == 0.01 else 1}f} {unit}"
        if abs(figure) > tolerance:
            self.findings.append(Finding(code, place, sentence, figure, tolerance, unit, remedy))
        else:
            self.figures.append((f"{code}: {place}", shown))
