"""SARIF: results that fit the standard, and places that lead back to the job.

`sarif-2.1.0.json` beside this file is the JSON Schema of the OASIS standard SARIF 2.1.0 (rtm.5), as
it is published for use by tools under the MIT licence.
"""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft4Validator

from report.hostile import HOSTILE, hostile_checked
from report.made import assessment, everything, finding, undecided
from tundish.findings.finding import Input
from tundish.report.formats.checked import Checked, Refusal
from tundish.report.formats.sarif import as_sarif
from tundish.report.formats.sarif_places import message, uri_of
from tundish.rulebook.evaluate.judge import Verdict
from tundish.text.problem import Problem

SCHEMA = Path(__file__).with_name("sarif-2.1.0.json")
STANDARD = Draft4Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))


def run_of(checked: Checked) -> dict[str, Any]:
    data = json.loads(as_sarif(checked))
    STANDARD.validate(data)
    (run,) = data["runs"]
    return dict(run)


def results(checked: Checked) -> list[dict[str, Any]]:
    return list(run_of(checked)["results"])


def one(**changes: Any) -> dict[str, Any]:
    (result,) = results(Checked((assessment(finding(**changes)),)))
    return result


def test_what_does_not_fit_the_standard_would_be_found() -> None:
    data = json.loads(as_sarif(Checked((everything(),))))
    data["runs"][0]["results"][0]["kind"] = "failed"
    assert not STANDARD.is_valid(data)


@pytest.mark.parametrize(
    ("severity", "level"),
    [("danger", "error"), ("fault", "error"), ("caution", "warning"), ("note", "note")],
)
def test_a_breach_fails_with_the_level_of_its_severity(severity: str, level: str) -> None:
    result = one(severity=severity)
    assert (result["kind"], result["level"]) == ("fail", level)
    assert result["message"]["text"].endswith("short by 3.8 L.")


def test_what_is_no_failure_has_no_level() -> None:
    kinds = {one["kind"]: one["level"] for one in results(Checked((everything(),), show="all"))}
    assert (kinds["open"], kinds["pass"]) == ("none", "none")


@pytest.mark.parametrize(
    ("show", "counts"),
    [
        ("usual", {"breached": 3, "undecided": 4, "waived": 1}),
        ("all", {"breached": 3, "undecided": 5, "waived": 1, "met": 1}),
        ("open", {"undecided": 5}),
        ("breached", {"breached": 3}),
    ],
)
def test_show_says_which_findings_become_results(show: Any, counts: dict[str, int]) -> None:
    found = [one["properties"]["verdict"] for one in results(Checked((everything(),), show=show))]
    assert {verdict: found.count(verdict) for verdict in found} == counts


def test_a_result_names_its_rule_by_position_too() -> None:
    run = run_of(Checked((everything(),), show="all"))
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == sorted({one["ruleId"] for one in run["results"]})
    assert all(rules[one["ruleIndex"]]["id"] == one["ruleId"] for one in run["results"])


def test_a_rule_says_what_why_how_and_on_whose_authority() -> None:
    (rule,) = run_of(Checked((assessment(finding()),)))["tool"]["driver"]["rules"]
    assert rule["shortDescription"]["text"] == finding().title
    assert rule["fullDescription"]["text"] == finding().because
    assert rule["help"]["text"] == finding().remedy
    assert rule["properties"]["severity"] == "fault"
    assert rule["properties"]["sources"] == ["Common practice of the trade"]


def test_a_waiver_is_a_suppression_with_its_reason() -> None:
    result = one(verdict=Verdict.WAIVED, waiver="Set aside by the designer until 2027: open")
    assert result["suppressions"] == [
        {
            "kind": "inSource",
            "status": "accepted",
            "justification": "Set aside by the designer until 2027: open",
        }
    ]


def place(location: dict[str, Any]) -> tuple[str, int | None]:
    physical = location["physicalLocation"]
    return physical["artifactLocation"]["uri"], physical.get("region", {}).get("startLine")


def test_places_are_those_of_the_inputs_the_job_first() -> None:
    inputs = (
        Input("unit.a", "a", "1 L", "sheet.toml:12"),
        Input("water.b", "b", "2 L", "bungalow.toml:7"),
        Input("water.c", "c", "3 L", "bungalow.toml:7"),
        Input("water.d", "d", "4 L"),
    )
    locations = one(inputs=inputs)["locations"]
    assert [place(one) for one in locations] == [("bungalow.toml", 7), ("sheet.toml", 12)]
    assert locations[0]["message"]["text"] == "b 2 L; c 3 L"


def test_without_a_line_the_job_is_the_place() -> None:
    assert [place(at) for at in one(inputs=())["locations"]] == [("bungalow.toml", None)]


def test_a_job_without_a_file_has_no_place() -> None:
    (result,) = results(Checked((assessment(finding(inputs=()), file=""),)))
    assert result["locations"] == []


def test_files_are_listed_once_and_named_by_position() -> None:
    run = run_of(Checked((everything(), everything()), several=True))
    files = [one["location"]["uri"] for one in run["artifacts"]]
    assert files == ["bungalow.toml", "sheet.toml"]
    for result in run["results"]:
        for location in result["locations"]:
            where = location["physicalLocation"]["artifactLocation"]
            assert files[where["index"]] == where["uri"]


def test_a_fingerprint_follows_from_rule_and_item_alone() -> None:
    def fingerprint(**changes: Any) -> Any:
        return one(**changes)["partialFingerprints"]["ruleAndItem/v1"]

    assert fingerprint() == fingerprint(statement="other", severity="note", inputs=())
    assert len({fingerprint(), fingerprint(item="a"), fingerprint(rule="a/b")}) == 3


def test_what_would_decide_is_told() -> None:
    (result,) = results(Checked((assessment(undecided()),)))
    assert result["properties"]["open"][0]["path"] == "site.snow_depth"
    assert result["properties"]["due"] is True


def test_what_could_not_be_read_is_a_notification_with_its_place() -> None:
    refusal = Refusal("b.toml", (Problem("b.toml", 2, 5, "This is not TOML."),))
    run = run_of(Checked((everything(),), (refusal,), several=True))
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    (told,) = invocation["toolExecutionNotifications"]
    assert told["message"]["text"] == "This is not TOML."
    region = told["locations"][0]["physicalLocation"]["region"]
    assert region == {"startLine": 2, "startColumn": 5}


def test_nothing_but_what_could_not_be_read_is_a_run_too() -> None:
    refusal = Refusal("b.toml", (Problem("", None, None, "No."),))
    assert run_of(Checked((), (refusal,)))["results"] == []


def test_a_job_is_told_with_its_digests_and_no_time() -> None:
    run = run_of(Checked((everything(),)))
    assert run["properties"]["jobs"][0]["jobDigest"] == "0" * 64
    assert run["invocations"] == [{"executionSuccessful": True}]


@pytest.mark.parametrize(
    ("file", "uri"),
    [
        ("jobs/a b.toml", "jobs/a%20b.toml"),
        ("./a:b.toml", "a%3Ab.toml"),
        ("../50%.toml", "../50%25.toml"),
        ("/srv/jobs/\u00e9.toml", "file:///srv/jobs/%C3%A9.toml"),
        ("\udcff.toml", "%5Cudcff.toml"),
    ],
)
def test_a_file_is_a_reference_that_any_program_can_read(file: str, uri: str) -> None:
    assert uri_of(file) == uri


def test_no_text_becomes_a_link_or_a_blank() -> None:
    assert message("[a](b) {0}")["text"] == "\\[a\\](b) {{0}}"
    assert message("[from memory] [b]")["text"] == "[from memory] [b]"


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_fit_the_standard(text: str) -> None:
    run = run_of(hostile_checked(text))
    told = [one["message"]["text"] for one in run["results"]]
    assert all(text.isprintable() for text in told)
    assert not any(re.search(r"(?<!\\)\]\(", text) for text in told)
