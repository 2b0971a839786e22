"""`tundish rule new`, walked as a user walks it: what it prints is typed next."""

import shlex
import subprocess
from pathlib import Path

import pytest

from command.conftest import Run
from processes import started, surroundings

SAMPLES = Path(__file__).parents[2] / "sample_jobs"


def shell(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a command line as printed, in a process of its own."""
    program, *arguments = shlex.split(line)
    assert program == "tundish"
    return started(*arguments, cwd=folder, env=surroundings(COLUMNS="100"))


def test_a_new_rule_is_written_proved_and_judges_a_job_as_printed(tmp_path: Path) -> None:
    fact = "water.run.insulation.thickness"
    written = shell(f"tundish rule new pipes/thick --fact {fact} --in 'our rules'", tmp_path)
    assert written.returncode == 0, written.stderr
    first, *_, last = written.stderr.splitlines()
    assert first == "Written: our rules/pipes/thick.toml."
    following = last.removeprefix("Next: ")
    assert following == "tundish prove pipes/thick --rules 'our rules'"
    proved = shell(following, tmp_path)
    assert proved.returncode == 0, proved.stdout + proved.stderr
    assert "all hold" in proved.stdout
    job = SAMPLES / "shore-bungalow.toml"
    checked = shell(f"tundish check {job} --rules 'our rules' --json", tmp_path)
    assert '"pipes/thick"' in checked.stdout
    assert checked.stderr == ""
    explained = shell("tundish explain pipes/thick --rules 'our rules' --plain", tmp_path)
    assert "For each run, the insulation thickness must be at least" in " ".join(
        explained.stdout.split()
    )


def test_a_folder_with_other_files_is_refused_before_anything_is_written(run: Run) -> None:
    Path("job.toml").write_text("[site]\n")
    ran = run("rule", "new", "ours/a", "--in", ".")
    assert ran.code == 2
    assert "'./job.toml' cannot stand in a folder of rules." in ran.err
    assert "--in more-rules" in ran.err
    assert not Path("ours").exists()
    assert run("rule", "new", "ours/a").code == 0
    assert Path("our-rules/ours/a.toml").read_text().startswith("#:schema ../schemas/rule.json\n")
    assert Path("our-rules/schemas/rule.json").exists()


def test_facts_of_the_folder_itself_and_of_other_packs_can_be_named(run: Run) -> None:
    Path("ours").mkdir()
    Path("ours/facts.toml").write_text(
        '[crane_reach]\nkind = "quantity"\nunit = "m"\nquestion = "How far does the crane reach?"\n'
    )
    own = run("rule", "new", "crane/reach", "--fact", "more.crane_reach", "--in", "ours")
    assert (own.code, own.err.partition("Next: ")[2]) == (
        0,
        "tundish prove crane/reach --rules ours\n",
    )
    ran = run(
        *("rule", "new", "crane/far", "--fact", "more.crane_reach"),
        *("--in", "more", "--rules", "ours"),
    )
    assert ran.err.endswith("Next: tundish prove crane/far --rules ours --rules more\n")


def test_a_position_in_a_path_is_passed_over(run: Run) -> None:
    assert run("rule", "new", "ours/a", "--fact", "water.run[2].length", "--in", "o").code == 0
    assert '"run.length >= ' in Path("o/ours/a.toml").read_text()


@pytest.mark.parametrize(
    ("fact", "said"),
    [
        ("placement.hight_below", "Did you mean 'placement.height_below'?"),
        ("snow_depth", "Did you mean 'site.snow_depth'?"),
        ("water.run.insulation.thicknes", "Did you mean 'water.run.insulation.thickness'?"),
        ("site", "is a table that every job has; name a fact in it, such as site."),
        ("unit_sheet", "No rule can ask for 'unit_sheet'"),
        ("", "A job has no fact ''."),
        ("x" * 5000, "A job has no fact 'xxx"),
    ],
)
def test_a_fact_that_cannot_be_asked_for_is_told_with_the_nearest(
    run: Run, fact: str, said: str
) -> None:
    ran = run("rule", "new", "ours/a", "--fact", fact)
    assert ran.code == 2
    assert said in ran.err
    assert not Path("ours").exists()


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("tables/x", "'tables' is a folder of another sort"),
        ("national/x", "'national' is a folder of another sort"),
        ("forms/walk", "'forms' is a folder of another sort"),
        ("snow/quantities", "'quantities.toml' holds the quantities of a topic"),
    ],
)
def test_a_name_that_is_read_as_something_else_is_refused(run: Run, name: str, said: str) -> None:
    ran = run("rule", "new", name)
    assert ran.code == 2
    assert said in ran.err
    assert not Path("our-rules").exists()
