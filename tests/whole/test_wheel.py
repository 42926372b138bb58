"""The built wheel in an environment of its own: what is shipped is found wherever it lies."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def run(*words: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    done = subprocess.run(
        [str(w) for w in words], cwd=cwd, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, f"{words}\n{done.stdout}\n{done.stderr}"
    return done


#: One worker builds the wheel and runs all of these.
pytestmark = pytest.mark.xdist_group("wheel")


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new environment with the wheel and what it needs, and nothing for developers."""
    folder = tmp_path_factory.mktemp("wheel")
    python = Path(sys.executable)
    run(python, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder, ROOT, cwd=folder)
    (wheel,) = folder.glob("*.whl")
    run(python, "-m", "venv", folder / "env", cwd=folder)
    pip = folder / "env" / "bin" / "pip"
    run(pip, "install", "-q", "-c", ROOT / ".ci" / "constraints.txt", wheel, cwd=folder)
    return folder


def test_the_demo_runs_from_the_installed_wheel(installed: Path) -> None:
    tracker = installed / "env" / "bin" / "tracker"
    told = run(tracker, "demo", "studio", cwd=installed).stdout
    assert "Look first at:" in told
    made = {p.name for p in (installed / "studio").iterdir()}
    assert {"studio.db", "mara-history.html", "mara-panelled-3.pdf"} <= made
    listed = run(tracker, "--store", "studio/studio.db", "client", "list", cwd=installed).stdout
    assert "odile" in listed


def test_the_shipped_folders_are_inside_the_package(installed: Path) -> None:
    python = installed / "env" / "bin" / "python"
    found = run(
        python, "-c",
        "from tracker.resources import shipped\n"
        "for n in ('templates', 'migrations', 'demo_db'): print(shipped(n))",
        cwd=installed,
    ).stdout.split()  # fmt: skip
    assert [Path(p).parent.name for p in found] == ["_data"] * 3
    assert all(str(installed) in p for p in found)


def test_nothing_for_developers_is_needed_to_run(installed: Path) -> None:
    names = run(installed / "env" / "bin" / "pip", "list", cwd=installed).stdout
    assert "pytest" not in names
    assert "hypothesis" not in names
