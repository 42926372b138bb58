"""Whatever there is only one of need not be said."""

import pytest
from studio import DRAWN
from wardrobe import bodice

from tracker.errors import TrackerError
from tracker.history.version import Address, Root, first_version
from tracker.store.engine import Store
from tracker.tasks.clients import new_client
from tracker.tasks.named import SayWhich, the_client, the_pattern, the_version


def _pattern(store: Store, client: str, name: str) -> None:
    version = first_version(
        Address(client, name, 1), Root("brought in", 1, {}), bodice(), "drawn by hand", DRAWN
    )
    with store.writing() as books:
        books.add_version(version)


@pytest.mark.parametrize(
    "said", [None, "", "mara", "bodice", "mara/bodice", "mara/bodice@1", "bodice@1", "@1", "mara@1"]
)
def test_with_one_client_and_one_pattern_any_way_of_saying_it_will_do(
    said: str | None, studio: Store
) -> None:
    with studio.reading() as books:
        assert str(the_version(books, said).address) == "mara/bodice@1"


def test_with_two_patterns_the_client_alone_is_not_enough(studio: Store) -> None:
    _pattern(studio, "mara", "princess")
    with studio.reading() as books:
        assert the_pattern(books, "princess") == ("mara", "princess", None)
        for said in (None, "mara", "@1"):
            with pytest.raises(SayWhich, match="mara/bodice and mara/princess"):
                the_pattern(books, said)


def test_with_two_clients_a_pattern_only_one_has_is_hers(studio: Store) -> None:
    new_client(studio, "odile", "Odile Varga")
    _pattern(studio, "odile", "jacket")
    with studio.reading() as books:
        assert the_pattern(books, "jacket@1") == ("odile", "jacket", 1)
        assert the_pattern(books, "odile") == ("odile", "jacket", None)
        with pytest.raises(SayWhich, match="which client"):
            the_client(books, None)
        with pytest.raises(SayWhich, match=r"no client and no pattern called “jaket”.*jacket"):
            the_pattern(books, "jaket")
    _pattern(studio, "odile", "bodice")
    with studio.reading() as books, pytest.raises(SayWhich, match="whose bodice"):
        the_pattern(books, "bodice")


@pytest.mark.parametrize("said", ["mara/bodice@", "mara/bodice@x", "/bodice", "mara/", "bodice@-1"])
def test_what_is_no_address_says_how_one_is_written(said: str, studio: Store) -> None:
    with studio.reading() as books, pytest.raises(TrackerError, match="@"):
        the_version(books, said)
