"""Asking at the terminal, where somebody sits who can answer."""

import sys
from collections.abc import Callable
from typing import TypeVar

import typer

from tracker.cli.show import begun

T = TypeVar("T")


def asking(keep_with: Callable[[list[str]], T], keep: list[str] | None) -> T:
    """Keep measurements; at a terminal, ask of each unusual value whether it is so.

    Args:
        keep_with: keeps them, given the names of unusual values that are so.
        keep: the names that were typed.

    Raises:
        Questioned: nobody is there to ask, or the answer was no; nothing is stored.
    """
    from tracker.tasks.measuring import Questioned

    names = list(keep or ())
    try:
        return keep_with(names)
    except Questioned as fault:
        if not sys.stdin.isatty():
            raise
        for question in fault.questions:
            if not typer.confirm(f"{begun(question.sentence)}. Is it so?"):
                raise
            names.append(question.place)
    return keep_with(names)
