"""The kinds of block that can be drafted, and what may be asked of each."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from tracker.body.measurement import BodySide
from tracker.errors import TrackerError, nearest_names

if TYPE_CHECKING:
    from tracker.body.body import Body
    from tracker.body.ease import EasePlan


class NoSuchBlock(TrackerError):
    """A kind of block nobody drafts here, or something asked of one that it does not have."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftWish:
    """What the maker asks of a draft.

    Attributes:
        kind: bodice, skirt, torso or trousers.
        pattern: the pattern's name; none for the kind's.
        session: the number of the measuring session; none for the newest usual values.
        with_passing: passing sessions count too.
        estimate: work out what was not measured.
        cloth: woven or stretch; the ease table that is started from.
        ease: (line, mm) of her own choice.
        back_shoulder: "dart" or "ease".
        body_side: both, or the side of the wearer that is drafted for.
        length_mm: of a skirt, down the side; none for down to the knee.
        hem_mm: of trousers, round each leg; none for straight down from the knee.
    """

    kind: str = "bodice"
    pattern: str | None = None
    session: int | None = None
    with_passing: bool = False
    estimate: bool = False
    cloth: str = "woven"
    ease: tuple[tuple[str, float], ...] = ()
    back_shoulder: str = "dart"
    body_side: BodySide = "both"
    length_mm: float | None = None
    hem_mm: float | None = None


@dataclass(frozen=True)
class BlockMaker:
    """How one kind of block is drafted.

    Attributes:
        kind: the word its drafts are stored under.
        rule: the revision of its arithmetic.
        needs: what is worked out when it is to be estimated.
        draft: from a body, a plan and what she asks.
    """

    kind: str
    rule: int
    needs: tuple[str, ...]
    draft: Callable[["Body", "EasePlan", DraftWish], Any]

    def estimated(self, body: "Body") -> "Body":
        """Return the body with everything this block needs, what was missing marked."""
        from tracker.body.estimate import estimate

        return estimate(body, self.needs)


#: What can be drafted.
KINDS = ("bodice", "skirt", "torso", "trousers")


def makers() -> dict[str, BlockMaker]:
    """Return how each kind is drafted."""
    from tracker.body.estimate import BODICE_NEEDS
    from tracker.drafting import bodice, skirt, torso, trousers
    from tracker.drafting.trousers_wants import TrouserChoices

    return {
        "bodice": BlockMaker(
            bodice.KIND, bodice.RULE, tuple(BODICE_NEEDS),
            lambda body, ease, wish: bodice.draft_bodice(body, ease, _above(wish)),
        ),
        "skirt": BlockMaker(
            skirt.KIND, skirt.RULE, skirt.TO_ESTIMATE,
            lambda body, ease, wish: skirt.draft_skirt(
                body, ease,
                skirt.SkirtChoices(length_mm=wish.length_mm, body_side=wish.body_side),
            ),
        ),
        "torso": BlockMaker(
            torso.KIND, torso.RULE, torso.TO_ESTIMATE,
            lambda body, ease, wish: torso.draft_torso(
                body, ease, torso.TorsoChoices(bodice=_above(wish))
            ),
        ),
        "trousers": BlockMaker(
            trousers.KIND, trousers.RULE, trousers.TO_ESTIMATE,
            lambda body, ease, wish: trousers.draft_trousers(
                body, ease,
                TrouserChoices(body_side=wish.body_side, hem_mm=wish.hem_mm or 0.0),
            ),
        ),
    }  # fmt: skip


def _above(wish: DraftWish) -> Any:
    from tracker.drafting.bodice import BodiceChoices

    return BodiceChoices(back_shoulder=_back_shoulder(wish.back_shoulder), body_side=wish.body_side)


def _back_shoulder(word: str) -> Literal["dart", "ease"]:
    if word not in ("dart", "ease"):
        raise NoSuchBlock(f"the back shoulder has a dart or is eased; “{word}” is neither")
    return "ease" if word == "ease" else "dart"


def check_wish(wish: DraftWish) -> None:
    """Refuse a kind that does not exist, and what is asked of another kind of block.

    Raises:
        NoSuchBlock: it is one of these.
    """
    if wish.kind not in KINDS:
        raise NoSuchBlock(
            f"“{wish.kind}” is no block that is drafted here; there are {', '.join(KINDS)}."
            f"{nearest_names(wish.kind, list(KINDS))}"
        )
    if wish.length_mm is not None and wish.kind != "skirt":
        raise NoSuchBlock(
            f"a length is asked for of a skirt; that of the {wish.kind} follows from the body, so "
            "leave it out"
        )
    if wish.hem_mm is not None and wish.kind != "trousers":
        raise NoSuchBlock(
            f"a hem's width is asked for of trousers; the {wish.kind} is tapered or widened at its "
            "hem as a style afterwards, so leave it out"
        )
    if wish.hem_mm is not None and wish.hem_mm <= 0:
        raise NoSuchBlock("a hem has a width of more than nothing; leave it out for a straight leg")
    _back_shoulder(wish.back_shoulder)
