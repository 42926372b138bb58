"""The client's card."""

from datetime import date

import pytest

from tracker.body.card import SORTS, Card, Consent, Degree, NotOnACard, Part, Posture


def test_posture_is_kept_part_by_part_and_side_by_side() -> None:
    card = Card(
        posture=(
            Posture(sort="round back", degree=Degree.SLIGHT),
            Posture(sort="low shoulder", degree=Degree.MARKED, side="right"),
            Posture(sort="forward head", degree=Degree.NONE),
        )
    )
    assert [one.words for one in card.posture] == [
        "slight round back",
        "marked low shoulder, right",
        "no forward head",
    ]
    assert [one.sort for one in card.of_part(Part.SHOULDERS)] == ["low shoulder"]
    changed = card.with_posture(Posture(sort="round back", degree=Degree.MARKED))
    assert len(changed.posture) == 3
    assert changed.of_part(Part.BACK)[0].degree is Degree.MARKED


def test_every_part_of_the_body_has_postures_to_look_for() -> None:
    assert {sort.part for sort in SORTS} == set(Part)
    for sort in SORTS:
        assert len(sort.look.split()) >= 4
        if sort.against:
            (other,) = [one for one in SORTS if one.name == sort.against]
            assert other.against == sort.name


@pytest.mark.parametrize(
    ("make", "part"),
    [
        (lambda: Posture(sort="rond back", degree=Degree.SLIGHT), "Did you mean round back"),
        (lambda: Posture(sort="round back", degree=Degree.SLIGHT, side="left"), "no left side"),
        (lambda: Posture(sort="round back", degree="huge"), "none, slight or marked"),
        (lambda: Posture(sort="high hip", degree=Degree.SLIGHT, side="up"), "not a side"),
        (
            lambda: Card(
                posture=(
                    Posture(sort="round back", degree=Degree.SLIGHT),
                    Posture(sort="erect back", degree=Degree.SLIGHT),
                )
            ),
            "slight erect back cannot both be",
        ),
        (
            lambda: Card(
                posture=(
                    Posture(sort="square shoulder", degree=Degree.SLIGHT),
                    Posture(sort="sloping shoulder", degree=Degree.MARKED, side="left"),
                )
            ),
            "marked sloping shoulder, left cannot both be",
        ),
        (
            lambda: Card(posture=(Posture(sort="round back", degree=Degree.SLIGHT),) * 2),
            "stands twice",
        ),
        (lambda: Consent(to=" ", given_on=date(2025, 1, 1)), "what it is for"),
        (
            lambda: Consent(to="photos", given_on=date(2025, 1, 2), withdrawn_on=date(2025, 1, 1)),
            "before it was given",
        ),
    ],
)
def test_what_cannot_stand_on_a_card_gets_a_sentence(make: object, part: str) -> None:
    with pytest.raises(NotOnACard, match=part):
        make()


def test_one_square_and_one_sloping_shoulder_can_be() -> None:
    card = Card(
        posture=(
            Posture(sort="square shoulder", degree=Degree.SLIGHT, side="left"),
            Posture(sort="sloping shoulder", degree=Degree.MARKED, side="right"),
        )
    )
    assert len(card.posture) == 2


def test_consent_holds_from_its_day_until_it_is_withdrawn() -> None:
    card = Card(
        consents=(Consent(to="Photos", given_on=date(2025, 1, 10), withdrawn_on=date(2025, 6, 1)),)
    )
    assert not card.agreed_to("photos", date(2025, 1, 9))
    assert card.agreed_to("photos", date(2025, 1, 10))
    assert not card.agreed_to("photos", date(2025, 6, 1))
    assert not card.agreed_to("measurements", date(2025, 2, 1))


def test_allergies_become_cautions() -> None:
    latex, nickel, wool = Card(allergies=("latex", "nickel", "wool")).cautions()
    assert "woven tape" in latex
    assert "pins" in nickel
    assert wool == "Wool: keep it off her skin."


def test_a_card_is_the_same_after_storing() -> None:
    card = Card(
        posture=(Posture(sort="high hip", degree=Degree.SLIGHT, side="left"),),
        likes=("high necks", "pockets"),
        allergies=("latex",),
        consents=(Consent(to="measurements", given_on=date(2025, 1, 10)),),
        note="prefers mornings",
    )
    assert Card.from_record(card.to_record()) == card
    assert Card.from_record(Card().to_record()) == Card()
