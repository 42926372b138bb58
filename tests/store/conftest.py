"""A furnished store, made once and copied for each test."""

import shutil
from pathlib import Path

import pytest
from stores.studio import NOW, furnish

from tracker.store.engine import Store


@pytest.fixture(scope="session")
def furnished(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("furnished") / "studio.db"
    with Store.create(path).writing(NOW) as books:
        furnish(books)
    return path


@pytest.fixture
def path(furnished: Path, tmp_path: Path) -> Path:
    """The file of a furnished store, this test's own."""
    return Path(shutil.copy(furnished, tmp_path / "studio.db"))


@pytest.fixture
def store(path: Path) -> Store:
    return Store.open(path)


@pytest.fixture
def empty(tmp_path: Path) -> Store:
    return Store.create(tmp_path / "empty.db")
