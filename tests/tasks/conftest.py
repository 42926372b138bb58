import shutil
from pathlib import Path

import pytest
from studio import build

from tracker.store.engine import Store


@pytest.fixture(scope="session")
def built_studio(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("studio") / "studio.db"
    build(path)
    return path


@pytest.fixture
def studio(built_studio: Path, tmp_path: Path) -> Store:
    path = tmp_path / "studio.db"
    shutil.copy(built_studio, path)
    return Store.open(path)
