"""Pages: a template and plain values make one HTML file that needs nothing else."""

from functools import cache
from typing import TYPE_CHECKING, Any

from tracker.resources import shipped

if TYPE_CHECKING:
    from jinja2 import Environment

CAUTION = (
    "Check the test square before cutting cloth. "
    "A pattern is a starting point for a fitting, not a promise."
)


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader(shipped("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def page(template: str, **values: Any) -> str:
    """Return a page of the shipped templates, filled with values; all words are escaped."""
    return _environment().get_template(template).render(caution=CAUTION, **values)
