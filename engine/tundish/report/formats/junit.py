"""JUnit XML: a suite for each job and a case for each requirement, for build servers."""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree import ElementTree as Xml

from tundish.findings.finding import Assessment, Finding
from tundish.report.formats.checked import Checked, Refusal, title_of
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.finding import breached_lines
from tundish.report.tell.phrases import as_sentence
from tundish.rulebook.evaluate.judge import Verdict
from tundish.text.escape import escape


def as_junit(checked: Checked) -> str:
    """Return all that was checked as JUnit XML, whatever was asked to be shown.

    A requirement that were left out would look as if nobody had asked for it.

    Args:
        checked: What was checked.

    Returns:
        A whole document that ends with a line break. It holds no time, so that it is the same
        whenever it is made.
    """
    root = Xml.Element("testsuites", name=escape(title_of(checked)))
    for assessment in checked.assessments:
        root.append(_suite(assessment, checked.workings))
    for refusal in checked.refusals:
        root.append(_refused(refusal))
    _count(root, root.iter("testcase"))
    Xml.indent(root)
    text: bytes = Xml.tostring(root, encoding="us-ascii", xml_declaration=True)
    return text.decode("ascii") + "\n"


def _suite(assessment: Assessment, workings: bool) -> Xml.Element:
    names = dict.fromkeys(name for name in (assessment.job, assessment.file) if name)
    suite = Xml.Element("testsuite", name=escape(", ".join(names)) or "A job without a title")
    properties = Xml.SubElement(suite, "properties")
    for name, value in _properties(assessment).items():
        Xml.SubElement(properties, "property", name=name, value=escape(value))
    for finding in assessment.findings:
        suite.append(_case(finding, workings))
    _count(suite, suite.iter("testcase"))
    return suite


def _properties(assessment: Assessment) -> dict[str, str]:
    return {
        "file": assessment.file,
        "stage": assessment.stage,
        "region": assessment.region,
        "date": assessment.date.isoformat() if assessment.date else "",
        "job digest": assessment.job_digest,
        "rulebook digest": assessment.rulebook_digest,
        "version": assessment.version,
    }


def _case(finding: Finding, workings: bool) -> Xml.Element:
    topic, _, _ = finding.rule.partition("/")
    name = f"{finding.rule} [{finding.item}]" if finding.item else finding.rule
    case = Xml.Element("testcase", classname=escape(topic), name=escape(name))
    text = escape(as_sentence(finding.statement))
    match finding.verdict:
        case Verdict.BREACHED:
            failure = Xml.SubElement(case, "failure", type=finding.severity, message=text)
            failure.text = f"\n{as_plain(breached_lines(finding, workings))}"
        case Verdict.UNDECIDED:
            Xml.SubElement(case, "skipped", message=f"undecided: {text}")
        case Verdict.NOT_APPLICABLE:
            Xml.SubElement(case, "skipped", message="not asked of this job")
        case Verdict.WAIVED:
            Xml.SubElement(case, "skipped", message=f"waived: {escape(finding.waiver) or text}")
    if finding.doubtful:
        Xml.SubElement(case, "system-out").text = escape(finding.doubtful)
    return case


def _refused(refusal: Refusal) -> Xml.Element:
    suite = Xml.Element("testsuite", name=escape(refusal.name))
    case = Xml.SubElement(
        suite,
        "testcase",
        classname="facts" if refusal.is_judged else "reading",
        name=escape(refusal.name),
    )
    for problem in refusal.problems:
        text = f"{problem.place}: {problem.sentence}"
        Xml.SubElement(case, "error", type=refusal.sort, message=escape(text))
    _count(suite, [case])
    return suite


def _count(counted: Xml.Element, cases: Iterable[Xml.Element]) -> None:
    """Write how many cases there are, and how many came out how."""
    cases = list(cases)
    counted.set("tests", str(len(cases)))
    for name, sort in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        counted.set(name, str(sum(case.find(sort) is not None for case in cases)))
