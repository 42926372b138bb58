"""One small class per kind of step: its parameters and how it changes a pattern.

Every kind is found by its word and made from plain values; nothing lists them by hand. Lengths are
millimetres. ``apply_step`` draws it, and refuses what does not fit with the most that does.

>>> from tracker.alterations.engine import apply_step
>>> from tracker.alterations.kind import kind_named, kinds
>>> "take in a seam" in kinds()
True
>>> wider = kind_named("change the width across").from_parameters(
...     {"line": "across back", "to": "wider", "by_mm": 12.0}
... )
>>> print(wider.sentence(pattern))  # doctest: +NORMALIZE_WHITESPACE
Across back 12 mm wider, measured at that line: 6 mm on each half; the shoulder point stays, the
underarm stays
>>> made = apply_step(wider, pattern, "1")
>>> [(line.what, round(line.by)) for line in made.effect.girths]
[('across back', 12)]

``made.pattern`` is the altered pattern, ``made.trace`` what became of every old line, and a kind's
docstring says what each parameter means. ``tracker.fitting`` makes them from what a fitter notes.
"""
