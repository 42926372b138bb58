"""A word to someone who waits: only on a terminal, only for what takes longer than a moment."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

AFTER_S = 0.7


@contextmanager
def working(what: str) -> Iterator[Callable[[str], None]]:
    """Say what is being done if it takes longer than a moment; yields a way to say what now."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from threading import Timer

    state = {"shown": False, "now": what}

    def show() -> None:
        state["shown"] = True
        print(f"\r\x1b[K{state['now']} …", end="", file=sys.stderr, flush=True)

    def step(now: str) -> None:
        state["now"] = f"{what}: {now}"
        if state["shown"]:
            show()

    timer = Timer(AFTER_S, show)
    timer.start()
    try:
        yield step
    finally:
        timer.cancel()
        if state["shown"]:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
