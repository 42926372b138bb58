"""What every kind of step is: typed parameters, a sentence, and how it changes a pattern.

A kind is one file under ``kinds``; nothing lists the kinds by hand.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from functools import cache
from typing import Any, ClassVar, Self

from tracker.alterations.effect import Effect
from tracker.errors import TrackerError, nearest_names
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


class UnknownKind(TrackerError):
    """A step recorded by a newer program, or a kind that does not exist."""


class BadParameters(TrackerError):
    """A step's parameters that cannot be read."""


class DoesNotFit(TrackerError):
    """An alteration that cannot be drawn, with the most that can."""


@dataclass(frozen=True)
class Applied:
    """What a step made of a pattern.

    Attributes:
        pattern: the new pattern, settled to the store's rounding.
        effect: what changed, in figures.
        trace: what became of the material.
    """

    pattern: Pattern
    effect: Effect
    trace: Trace


class NoExample(TrackerError):
    """A kind that has nothing to show itself on."""


@dataclass(frozen=True)
class Example:
    """A kind shown on a pattern: what its page draws and its example line says.

    Attributes:
        pattern: a pattern it can be done to, mostly one of ``alterations.examples``.
        kind: the step, with parameters a fitter might give.
    """

    pattern: Pattern
    kind: "Kind"


@dataclass(frozen=True, kw_only=True)
class Kind(ABC):
    """A step's intent with its parameters; lengths in millimetres."""

    #: The word it is stored under; ours, and never changed.
    word: ClassVar[str]
    #: The revision of its arithmetic. 2 holds an amount at a slanted corner by a blend, and takes a
    #: piece for both sides that is sewn to split ones apart with them.
    rule: ClassVar[int] = 2
    #: "draft", "style", "alteration" or "plan"; "record" for what only the program makes.
    family: ClassVar[str] = "alteration"
    #: One sentence for people who have not used it.
    help: ClassVar[str] = ""
    #: The parameters its amount stands in: millimetres, or places each with ``amount_mm``.
    amounts_in: ClassVar[tuple[str, ...]] = ()
    #: Whether it has no opposite: its amounts are more than nothing.
    one_way: ClassVar[bool] = False
    __pydantic_config__: ClassVar[Mapping[str, Any]] = {"extra": "forbid"}

    @classmethod
    def example(cls) -> Example:
        """Return the kind with parameters of its own, and a pattern it can be done to.

        Raises:
            NoExample: it has none.
        """
        raise NoExample(f"{cls.word} has no example yet")

    @abstractmethod
    def sentence(self, pattern: Pattern) -> str:
        """Say what is done, in a fitter's words, before it is done to ``pattern``."""

    @abstractmethod
    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Do it.

        Raises:
            TrackerError: it cannot be done here; the sentence says why.
        """

    def scaled(self, factor: float) -> Self | None:
        """Return the same with its amounts multiplied; nothing where there is no such step."""
        if not self.amount_mm or (self.one_way and factor <= 0):
            return None
        return replace(self, **{f: _times(getattr(self, f), factor) for f in self.amounts_in})

    def opposite(self, pattern: Pattern) -> Self | None:
        """Return the step that undoes it, if its lines are drawn afresh and it has one.

        Done again, such a kind would only come near to what was there; so the engine keeps that,
        and gives it back. A kind whose amounts simply add has no need of it.
        """
        del pattern
        return None

    @property
    def amount_mm(self) -> float:
        """The amount a limit is told in, the largest of several; 0 where there is none."""
        amounts: list[float] = []
        for value in (getattr(self, f) for f in self.amounts_in):
            amounts += [a.amount_mm for a in value] if isinstance(value, tuple) else [value]
        return max(amounts, key=abs, default=0.0)

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values."""
        plain: dict[str, Any] = _plain(asdict(self))
        return plain

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back, telling every fault at once.

        Raises:
            BadParameters: a value is missing, unknown or of the wrong sort.
        """
        from pydantic import TypeAdapter, ValidationError

        try:
            return TypeAdapter(cls).validate_python(dict(parameters))
        except ValidationError as fault:
            told = "; ".join(
                f"{', '.join(str(p) for p in e['loc']) or 'step'}: {e['msg'].lower()}"
                for e in fault.errors()
            )
            raise BadParameters(f"{cls.word}: {told}") from fault


def _times(value: Any, factor: float) -> Any:
    if isinstance(value, tuple):
        return tuple(replace(place, amount_mm=place.amount_mm * factor) for place in value)
    return value * factor


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {k: _plain(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(v) for v in value]
    return str(value) if isinstance(value, str) else value


@cache
def kinds() -> dict[str, type[Kind]]:
    """Return every kind by its word; found by looking into the folder ``kinds``."""
    import importlib
    import pkgutil

    from tracker.alterations import kinds as folder

    for module in pkgutil.iter_modules(folder.__path__):
        importlib.import_module(f"{folder.__name__}.{module.name}")
    found: dict[str, type[Kind]] = {}
    waiting = list(Kind.__subclasses__())
    while waiting:
        kind = waiting.pop()
        waiting.extend(kind.__subclasses__())
        if "word" in kind.__dict__:
            found[kind.word] = kind
    return dict(sorted(found.items()))


def kind_named(word: str) -> type[Kind]:
    """Return a kind by its stored word.

    Raises:
        UnknownKind: no such kind.
    """
    known = kinds()
    if word not in known:
        raise UnknownKind(
            f"{word!r} is not an alteration this program knows; it may have been recorded by a "
            f"newer one.{nearest_names(word, list(known))}"
        )
    return known[word]
