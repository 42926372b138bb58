import json
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from studio import TODAY, build

from tracker.cli import clock
from tracker.cli.run import main


@dataclass(frozen=True)
class Outcome:
    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)


Tracker = Callable[..., Outcome]


@pytest.fixture(scope="session")
def built_studio(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("studio") / "studio.db"
    build(path)
    return path


@pytest.fixture(autouse=True)
def _here_today(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Each test runs in its own empty folder, on one day."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("TRACKER_STORE", raising=False)
    monkeypatch.delenv("TRACKER_DEBUG", raising=False)
    with clock.as_if_on(TODAY):
        yield


@pytest.fixture
def tracker(capsys: pytest.CaptureFixture[str]) -> Tracker:
    """Run a command as it is typed; return status and both outputs."""

    def run(*arguments: str) -> Outcome:
        capsys.readouterr()
        status = main(arguments)
        said = capsys.readouterr()
        assert "Traceback" not in said.out + said.err
        return Outcome(status, said.out, said.err)

    return run


@pytest.fixture
def studio(built_studio: Path, tmp_path: Path) -> Path:
    """A store where the commands look for it without being told."""
    path = tmp_path / "studio.db"
    shutil.copy(built_studio, path)
    return path
