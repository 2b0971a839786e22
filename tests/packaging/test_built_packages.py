"""The wheel and the sdist carry the rules and the sample jobs, and work from anywhere."""

import os
import subprocess
import sys
import tarfile
import venv
import zipfile
from pathlib import Path

from processes import surroundings

TOP = Path(__file__).parents[2]


def run(*command: object, cwd: Path, expect: int = 0) -> str:
    # A work tree on the path would hide what is missing from the package.
    surroundings = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        [str(word) for word in command],
        cwd=cwd,
        env=surroundings,
        capture_output=True,
        text=True,
        timeout=300,
    )
    assert done.returncode == expect, done.stdout + done.stderr
    return done.stdout


def files_in_wheel(wheel: Path) -> set[str]:
    return {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}


def test_the_wheel_judges_a_sample_from_another_folder(built: Path, tmp_path: Path) -> None:
    room = tmp_path / "fresh"
    venv.create(room)
    python = room / "bin" / "python"
    wheel = next(built.glob("*.whl"))
    run(sys.executable, "-m", "pip", "--python", python, "install", "--quiet", wheel, cwd=tmp_path)
    found = run(
        python,
        "-c",
        "from tundish.text.bundled_folders import bundled_folder as f; print(f('sample_jobs'))",
        cwd=tmp_path,
    ).strip()
    assert Path(found).is_relative_to(room)
    tundish = room / "bin" / "tundish"
    job = Path(found) / "shore-bungalow.toml"
    shown = run(tundish, "check", job, "--plain", cwd=tmp_path, expect=1)
    assert "FAULT" in shown
    run(tundish, "prove", cwd=tmp_path)


def test_the_sdist_builds_the_same_wheel(built: Path, tmp_path: Path) -> None:
    with tarfile.open(next(built.glob("*.tar.gz"))) as archive:
        archive.extractall(tmp_path, filter="data")
    source = next(tmp_path.iterdir())
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", tmp_path, cwd=source)
    from_source = files_in_wheel(next(tmp_path.glob("*.whl")))
    assert from_source == files_in_wheel(next(built.glob("*.whl")))


def test_every_rule_and_sample_is_in_the_wheel(built: Path) -> None:
    names = files_in_wheel(next(built.glob("*.whl")))
    for folder in ("rules", "sample_jobs"):
        for path in (TOP / folder).rglob("*.toml"):
            assert f"tundish/{path.relative_to(TOP).as_posix()}" in names
    assert "tundish/py.typed" in names


def test_the_rules_travel_linked(built: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        wheel.extractall(tmp_path)
    code = (
        "import sys; from tundish import Rulebook; book = Rulebook.built_in();"
        "print(book.digest, len(book.rules), 'pydantic' in sys.modules)"
    )
    told = [
        subprocess.run(
            [sys.executable, "-c", code],
            env=surroundings(PYTHONPATH=str(place), TUNDISH_CACHE="off"),
            capture_output=True,
            text=True,
            check=True,
        ).stdout.split()
        for place in (tmp_path, TOP / "engine")
    ]
    assert told[0][:2] == told[1][:2]
    assert [each[2] for each in told] == ["False", "True"]
