"""JUnit XML: a suite for each job, a case for each requirement."""

from typing import Any
from xml.etree import ElementTree as Xml

import pytest

from report.hostile import HOSTILE, hostile_checked
from report.made import assessment, everything, finding
from tundish.report.formats.checked import Checked, Refusal
from tundish.report.formats.junit import as_junit
from tundish.report.tell.phrases import as_sentence
from tundish.rulebook.evaluate.judge import Verdict
from tundish.text.escape import escape
from tundish.text.problem import Problem

TAGS = {"testsuites", "testsuite", "properties", "property", "testcase"} | {
    "failure",
    "skipped",
    "error",
}


def read(checked: Checked) -> Xml.Element:
    return Xml.fromstring(as_junit(checked))


def case(**changes: Any) -> Xml.Element:
    found = read(Checked((assessment(finding(**changes)),))).find("testsuite/testcase")
    assert found is not None
    return found


def only(element: Xml.Element, name: str) -> Xml.Element:
    found = element.findall(name)
    assert len(found) == 1
    return found[0]


def test_a_suite_counts_its_cases() -> None:
    suite = only(read(Checked((everything(),))), "testsuite")
    counts = {name: suite.get(name) for name in ("tests", "failures", "errors", "skipped")}
    assert counts == {"tests": "11", "failures": "3", "errors": "0", "skipped": "7"}
    assert len(suite.findall("testcase")) == 11


def test_a_breach_is_a_failure_of_its_severity_with_all_that_is_said_of_it() -> None:
    failure = only(case(severity="danger"), "failure")
    assert failure.get("type") == "danger"
    assert (failure.get("message") or "").startswith("Free water volume 16.2 L is less")
    for said in ("to mend", "sheet.toml, line 12", "DANGER"):
        assert said in (failure.text or "")


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"verdict": Verdict.UNDECIDED}, "undecided: Free water volume"),
        ({"verdict": Verdict.NOT_APPLICABLE}, "not asked of this job"),
        ({"verdict": Verdict.WAIVED, "waiver": "Set aside"}, "waived: Set aside"),
        ({"verdict": Verdict.WAIVED}, "waived: Free water volume"),
    ],
)
def test_what_was_not_decided_is_skipped_with_a_reason(
    changes: dict[str, Any], message: str
) -> None:
    assert (only(case(**changes), "skipped").get("message") or "").startswith(message)


def test_what_is_met_has_nothing_to_say() -> None:
    assert list(case(verdict=Verdict.MET)) == []


def test_what_is_met_but_in_doubt_says_so() -> None:
    met = case(verdict=Verdict.MET, doubtful="Within 5 % it may not be.")
    assert only(met, "system-out").text == "Within 5 % it may not be."


def test_a_case_is_named_by_rule_and_item() -> None:
    assert case(item="flow").get("name") == "defrost-water/free-volume [flow]"
    assert case().get("classname") == "defrost-water"


def test_a_suite_says_what_it_was_made_from_and_no_time() -> None:
    text = as_junit(Checked((everything(),)))
    suite = only(Xml.fromstring(text), "testsuite")
    found = {one.get("name"): one.get("value") for one in suite.findall("properties/property")}
    assert found["stage"] == "design" and found["region"] == "GB"
    assert found["job digest"] == "0" * 64 and found["rulebook digest"] == "1" * 64
    assert not {"time", "timestamp"} & {key for one in suite.iter() for key in one.attrib}


def test_a_job_that_could_not_be_read_is_an_error() -> None:
    refusal = Refusal("b.toml", (Problem("b.toml", 2, None, "This is not TOML."),))
    root = read(Checked((everything(),), (refusal,), several=True))
    assert (root.get("errors"), root.get("tests")) == ("1", "12")
    (error,) = root.iter("error")
    assert error.get("message") == "b.toml, line 2: This is not TOML."


def test_show_leaves_no_requirement_out() -> None:
    assert as_junit(Checked((everything(),), show="breached")) == as_junit(Checked((everything(),)))


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_are_read_back_escaped(text: str) -> None:
    told = as_junit(hostile_checked(text))
    assert told.isascii() and told.replace("\n", "").isprintable()
    root = Xml.fromstring(told)
    failure = next(root.iter("failure"))
    assert failure.get("message") == escape(as_sentence(text))
    assert {one.tag for one in root.iter()} <= TAGS
