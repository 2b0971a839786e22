"""`tundish verify`: a result that somebody sent, held against what comes out."""

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from command.conftest import DANGEROUS_JOB, GOOD_JOB, Run, Write
from tundish import Job, Rulebook, read_result, verify
from tundish.text.bounds import DEEPEST_NESTING
from tundish.text.bundled_folders import bundled_folder


@pytest.fixture(name="result")
def made_result(run: Run, write: Write) -> dict[str, Any]:
    write("job.toml", DANGEROUS_JOB)
    out = run("check", "job.toml", "--json").out
    write("result.json", out)
    data: dict[str, Any] = json.loads(out)
    return data


def test_what_was_put_out_holds(run: Run, result: dict[str, Any]) -> None:
    ran = run("verify", "result.json", "job.toml", "--plain")
    assert (ran.code, ran.err) == (0, "")
    assert "The result holds" in ran.out
    assert result["job_digest"] in "".join(ran.out.split())
    assert result["rulebook_digest"] in "".join(ran.out.split())


def test_where_the_job_lies_and_how_it_is_written_say_nothing(
    run: Run, write: Write, result: dict[str, Any]
) -> None:
    write("elsewhere/renamed.toml", "# moved\n\n" + DANGEROUS_JOB)
    assert run("verify", "result.json", "elsewhere/renamed.toml").code == 0


def test_the_stage_and_region_that_it_states_are_those_it_is_judged_at(
    run: Run, write: Write
) -> None:
    write("job.toml", DANGEROUS_JOB)
    ran = run("check", "job.toml", "--json", "--stage", "enquiry", "--region", "DE")
    write("result.json", ran.out)
    assert run("verify", "result.json", "job.toml").code == 0


def test_another_job_is_told(run: Run, write: Write, result: dict[str, Any]) -> None:
    write("job.toml", GOOD_JOB)
    ran = run("verify", "result.json", "job.toml", "--plain")
    assert ran.code == 1
    assert "another job" in ran.out
    assert "breached -> met" in ran.out


def test_another_rulebook_is_told(run: Run, write: Write, result: dict[str, Any]) -> None:
    write("ours/pack.toml", 'title = "Ours"\n')
    ran = run("verify", "result.json", "job.toml", "--rules", "ours", "--plain")
    assert ran.code == 1
    assert "another rulebook" in ran.out
    assert "come out alike all" in ran.out


def test_a_rule_that_was_renamed_is_held_against_itself(run_built_in: Run, write: Write) -> None:
    write("job.toml", DANGEROUS_JOB)
    result = json.loads(run_built_in("check", "job.toml", "--json").out)
    for finding in result["findings"]:
        if finding["rule"] == "cable-sizing/voltage-drop-by-tables":
            finding["rule"] = "cable-sizing/british-voltage-drop"
    write("result.json", json.dumps(result))
    differences = json.loads(run_built_in("verify", "result.json", "job.toml", "--json").out)[
        "differences"
    ]
    names = ("cable-sizing/british-voltage-drop", "cable-sizing/voltage-drop-by-tables")
    assert {(one["what"], one["then"], one["now"]) for one in differences} == {("rule", *names)}


def test_another_version_is_told(run: Run, write: Write, result: dict[str, Any]) -> None:
    write("result.json", json.dumps({**result, "version": "0.0.1"}))
    assert "another: then 0.0.1" in run("verify", "result.json", "job.toml").out


Change = Callable[[dict[str, Any]], object]


@pytest.mark.parametrize(
    ("change", "what"),
    [
        (lambda data: data["findings"][0].update(verdict="met"), "verdict"),
        (lambda data: data["findings"][0].update(statement="All is well."), "statement"),
        (lambda data: data["findings"][0].update(severity="note"), "severity"),
        (lambda data: data["findings"][0]["inputs"][0].update(value="1 km"), "inputs[1].value"),
        (lambda data: data["findings"][0].update(margin=None), "margin"),
        (lambda data: data["findings"][0].update(approved=True), "approved"),
        (lambda data: data["findings"].pop(0), "finding"),
        (lambda data: data["findings"].append(data["findings"][0]), "finding"),
        (lambda data: data["counts"].update(breached=0), "counts.breached"),
        (lambda data: data.update(job="Another house"), "job"),
        (lambda data: data.update(cautions=[]), "cautions"),
    ],
)
def test_whatever_was_changed_in_a_result_is_found(
    run: Run, write: Write, result: dict[str, Any], change: Change, what: str
) -> None:
    change(result)
    write("result.json", json.dumps(result))
    ran = run("verify", "result.json", "job.toml", "--json")
    told = json.loads(ran.out)
    assert (ran.code, told["holds"]) == (1, False)
    assert told["same_job"]
    assert told["same_rulebook"]
    assert what in [one["what"] for one in told["differences"]]


def test_of_several_jobs_the_one_of_that_file_is_meant(run: Run, write: Write) -> None:
    write("a.toml", GOOD_JOB)
    write("b.toml", DANGEROUS_JOB)
    write("result.json", run("check", "a.toml", "b.toml", "--json").out)
    assert run("verify", "result.json", "b.toml").code == 0
    ran = run("verify", "result.json", "./b.toml")
    assert (ran.code, ran.out) == (2, "")
    assert "0 of them is './b.toml'" in ran.err


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "null",
        "{}",
        "\ufeff{}",
        '{"program": "tundish"}',
        '{"program": "tundish", "form": true}',
        '{"program": "tundish", "form": 2}',
        '{"program": "tundish", "form": 1}',
        '{"program": "tundish", "form": 1, "assessments": {}}',
        '{"program": "tundish", "form": 1, "assessments": [1, null]}',
        '{"a": 1, "a": 2}',
        '{"a": NaN}',
        '{"a": Infinity}',
        '{"a": ' + "9" * 5000 + "}",
        "[" * 100_000 + "]" * 100_000,
        '{"a":' * 100_000 + "1" + "}" * 100_000,
        '{"program": "tundish", "form": ' + "[" * (DEEPEST_NESTING + 1) + "]" * 33 + "}",
    ],
)
def test_what_is_no_result_is_refused_with_a_sentence(run: Run, write: Write, text: str) -> None:
    write("job.toml", GOOD_JOB)
    write("result.json", text)
    ran = run("verify", "result.json", "job.toml")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("result.json")
    assert "Something went wrong" not in ran.err


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("stage", "sometime"),
        ("stage", 3),
        ("region", "Mars\x1b[2J"),
        ("job_digest", None),
        ("version", ["1"]),
        ("findings", "none"),
        ("findings", [1]),
        ("findings", [{"rule": "a/b"}]),
        ("findings", [{"rule": 1, "item": "", "verdict": "", "severity": "", "statement": ""}]),
    ],
)
def test_a_result_of_another_shape_is_refused(
    run: Run, write: Write, result: dict[str, Any], key: str, value: object
) -> None:
    write("result.json", json.dumps({**result, key: value}))
    ran = run("verify", "result.json", "job.toml")
    assert (ran.code, ran.out) == (2, "")
    assert "Something went wrong" not in ran.err
    assert "\x1b" not in ran.err


def test_nothing_that_a_result_states_reaches_a_terminal_raw(
    run: Run, write: Write, result: dict[str, Any]
) -> None:
    hostile = "\x1b[2J[red]\u202e"
    for key in ("rule", "item", "verdict", "severity", "statement", hostile):
        result["findings"][0][key] = hostile
    write("result.json", json.dumps({**result, "version": hostile, "job_digest": hostile}))
    for form in ("--plain", "--json"):
        ran = run("verify", "result.json", "job.toml", form)
        assert ran.code == 1
        assert "\x1b" not in ran.out
        assert "\u202e" not in ran.out


@pytest.mark.parametrize("name", ["/dev/zero", "pipe", "folder", "nowhere.json", "loop"])
def test_what_is_no_file_is_refused_and_not_waited_for(run: Run, write: Write, name: str) -> None:
    write("job.toml", GOOD_JOB)
    os.mkfifo("pipe")
    Path("folder").mkdir()
    Path("loop").symlink_to("loop")
    ran = run("verify", name, "job.toml")
    assert (ran.code, ran.out) == (2, "")
    assert name in ran.err


def test_a_result_is_verified_from_python(tmp_path: Path) -> None:
    from tundish.findings.assess import assess
    from tundish.results.as_data import as_data, as_json

    job = Job.from_file(bundled_folder("sample_jobs") / "shore-bungalow.toml")
    rules = Rulebook.built_in()
    text = as_json(as_data(assess(job, rules, changes=True)))
    (tmp_path / "result.json").write_text(text)
    found = verify(read_result(tmp_path / "result.json"), job)
    assert found.holds
    assert found.differences == ()
