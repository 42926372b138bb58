"""Charts of measurements over time, each reading with what measuring alone may explain."""

import datetime as dt
import html
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tracker.units import MM_PER_CM, MM_PER_INCH, Unit, write_angle, write_length

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: A chart's width and height on paper, inches.
_SIZE = (3.3, 1.75)


@dataclass(frozen=True, slots=True)
class Reading:
    """One measurement on one day.

    Attributes:
        on: the day.
        value: millimetres, or degrees.
        passing: measured in a passing state (pregnancy, a brace); not joined to the others.
        estimated: worked out from other measurements, not taken.
    """

    on: dt.date
    value: float
    passing: bool = False
    estimated: bool = False


@dataclass(frozen=True, slots=True)
class Series:
    """One measurement over time.

    Attributes:
        name: its trade name, with the body side.
        readings: in the order of their days.
        least_real: the least difference of two readings that is a real change, in the same
            unit; none where that is not known.
        degrees: it is an angle.
    """

    name: str
    readings: tuple[Reading, ...]
    least_real: float | None = None
    degrees: bool = False


def series_chart(series: Series, unit: Unit) -> str:
    """Return a chart as an SVG element to put into a page.

    Filled dots are usual readings, joined; rings are passing ones; crosses are estimated. The
    grey bar round each is half the least real change to either side: where two bars do not
    overlap, the body has changed by more than measuring explains.
    """
    import io

    import matplotlib as mpl
    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure

    look: dict[Any, Any] = {
        "svg.fonttype": "none", "svg.hashsalt": series.name, "font.size": 8,
        "font.family": ["DejaVu Sans"], "axes.spines.top": False, "axes.spines.right": False,
        "axes.linewidth": 0.6, "xtick.major.width": 0.6, "ytick.major.width": 0.6,
    }  # fmt: skip
    with mpl.rc_context(look):
        figure = Figure(figsize=_SIZE)
        FigureCanvasSVG(figure)
        # Fixed margins: letting the library find them takes as long as the rest.
        _plot(figure.add_axes((0.13, 0.15, 0.85, 0.81)), series, unit)
        out = io.StringIO()
        figure.savefig(out, format="svg", transparent=True, metadata={"Date": None})
    return _embedded(out.getvalue(), series, unit)


def _plot(axes: "Axes", series: Series, unit: Unit) -> None:
    from matplotlib.ticker import MaxNLocator

    per = 1.0 if series.degrees else (MM_PER_CM if unit is Unit.CM else MM_PER_INCH)
    days = [float(r.on.toordinal()) for r in series.readings]
    values = [r.value / per for r in series.readings]
    if series.least_real:
        half = series.least_real / per / 2
        axes.errorbar(days, values, yerr=half, fmt="none", ecolor="#b3ab9b", elinewidth=7, zorder=1)
    steady = [i for i, r in enumerate(series.readings) if not r.passing]
    axes.plot([days[i] for i in steady], [values[i] for i in steady], color="#1b1914", lw=1.1)
    for i, reading in enumerate(series.readings):
        marker = "x" if reading.estimated else "o"
        face = "#ffffff" if reading.passing else "#1b1914"
        axes.plot(days[i], values[i], marker, mfc=face, mec="#1b1914", ms=5, zorder=3)
    axes.set_xticks(*_day_ticks(series, days))
    axes.yaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 2.5, 5, 10]))
    low, high = min(values), max(values)
    room = max((high - low) * 0.25, (series.least_real or 0) / per * 0.75, 0.2)
    axes.set_ylim(low - room, high + room)
    if len(set(days)) == 1:
        axes.set_xlim(days[0] - 30, days[0] + 30)
    else:
        axes.margins(x=0.1)
    axes.grid(axis="y", color="#ddd6c6", lw=0.5)
    axes.set_axisbelow(True)


def _day_ticks(series: Series, days: list[float]) -> tuple[list[float], list[str]]:
    """First and last day, and those between that leave room for their words."""
    span = max(days) - min(days) or 1.0
    kept: list[int] = []
    for i in [0, len(days) - 1, *range(1, len(days) - 1)]:
        if all(abs(days[i] - days[k]) / span > 0.3 for k in kept):
            kept.append(i)
    return [days[i] for i in kept], [f"{series.readings[i].on:%b %Y}" for i in kept]


def _embedded(svg: str, series: Series, unit: Unit) -> str:
    """Cut the element out of the file, with names of its own for a page of many charts."""
    name = re.sub(r"\W+", "-", series.name).strip("-").lower()
    svg = svg[svg.index("<svg ") :]
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    svg = re.sub(r'\bid="', f'id="{name}-', svg)
    svg = re.sub(r'href="#', f'href="#{name}-', svg)
    svg = svg.replace("url(#", f"url(#{name}-")
    first = svg.index(">")
    head = re.sub(r' (?:width|height|version|xmlns:xlink)="[^"]*"', "", svg[:first])
    title = html.escape(series.name)
    said = html.escape(chart_words(series, unit))
    svg = re.sub(r"<title>.*?</title>", "", svg[first:], flags=re.DOTALL)
    return (
        f'{head} role="img" aria-labelledby="{name}-title {name}-words">'
        f'<title id="{name}-title">{title}</title><desc id="{name}-words">{said}</desc>{svg[1:]}'
    ).replace("xlink:href", "href")


def chart_words(series: Series, unit: Unit) -> str:
    """Say what a chart shows, first and last reading."""
    first, last = series.readings[0], series.readings[-1]
    if len(series.readings) == 1:
        return f"{value_words(series, first.value, unit)} on {first.on:%d %B %Y}."
    return (
        f"{len(series.readings)} readings, from {value_words(series, first.value, unit)} in "
        f"{first.on:%B %Y} to {value_words(series, last.value, unit)} in {last.on:%B %Y}."
    )


def value_words(series: Series, value: float, unit: Unit) -> str:
    """Write a reading for people."""
    return write_angle(value) if series.degrees else write_length(value, unit)
