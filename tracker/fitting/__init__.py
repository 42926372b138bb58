"""Fittings, observations and readings, and the alterations they propose.

To give the engine a fitting problem, write down what was seen and how much, and ask what it comes
to. Lengths are millimetres; a place is a corner of a seam or edge and a distance from it, or a line
("bust line", the distance above it); ``pattern`` is a ``tracker.pattern.pattern.Pattern``, such as
``tracker.drafting.bodice.draft_bodice`` makes or a version of the store has.

>>> from tracker.fitting.observation import Observation, read_sign
>>> from tracker.fitting.propose import Answer, answers
>>> from tracker.fitting.reading import Reading, ReadingKind
>>> loose = Observation(
...     observation_id="1", fitting_id="1", number=1, seam="side", sign=read_sign("too loose"),
...     readings=(
...         Reading(kind=ReadingKind.PINNED_FOLD, corner="side waist", value_mm=5),
...         Reading(kind=ReadingKind.PINNED_FOLD, corner="underarm point", value_mm=0),
...     ),
... )
>>> (proposal,) = answers(pattern, loose)
>>> print(proposal.echo)
pinned fold: a fold takes up twice its depth
>>> print(proposal.sentence)  # doctest: +NORMALIZE_WHITESPACE
Right and left side seams in 10 mm at the side waist, to nothing at the underarm point:
5 mm from the front and 5 mm from the back
>>> [(line.what, round(line.by)) for line in proposal.effect.girths if line.what == "waist line"]
[('waist line', -20)]

``proposal.pattern`` is the pattern it would give, ``proposal.kind`` the alteration (see
``tracker.alterations``). A note without an amount is answered by its likely causes, likeliest
first, and by the one that was decided on:

>>> from tracker.fitting.suggest import likely
>>> high = Observation(
...     observation_id="2", fitting_id="1", number=2, piece="back", sign=read_sign("rides up"),
...     fitter_words="over the blades",
... )
>>> likely(pattern, high)[0].cause.name
'round back'
>>> answers(pattern, high, answer=Answer("round back", by_mm=12))[0].kind.word
'slash and spread'

What cannot be done is refused with a ``tracker.errors.TrackerError``: one sentence with the place,
the reason and the most that can be had.
"""
