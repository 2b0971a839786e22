"""A job whose every text tries to be something else than text."""

from __future__ import annotations

from report.made import STANDARD, assessment, finding, undecided
from tundish.findings.finding import Assessment, Input, Open, Remedy, Working
from tundish.report.formats.checked import Checked, Refusal
from tundish.rulebook.evaluate.judge import Verdict
from tundish.text.problem import Problem

HOSTILE = (
    '<script>alert("1")</script>',
    "\"><img src=x onerror='y'>",
    "[click](https://invalid.example/) <https://invalid.example>",
    "www.invalid.example a@invalid.example @someone #12 :fire:",
    "![p](x) | a | b | `c` ``` ~~~ **d** __e__ ~~f~~ $g$ \\ &amp; &#65;",
    "# one",
    "- two",
    "1. three",
    "> four",
    "---",
    "]]> <!-- --> <![CDATA[ five",
    "{0} {1} six",
    "]](seven)",
    "\x1b[2J\x07\x00 eight \u202enine\u202c \ud800 \u2028 ten\nrow\ttab",
    "\u05e9\u05dc\u05d5\u05dd caf\u00e9 \u4e2d \U0001f525",
)
"""Markup of several sorts, links, quotes, control characters, marks that turn text round."""


def hostile_assessment(text: str) -> Assessment:
    """Return an assessment that says one text wherever a job, a rule or a file can say one."""
    facts = {"item": text, "statement": text, "title": text, "because": text, "remedy": text}
    change = Remedy(text, text, text, text, (), (), ())
    return assessment(
        finding(
            **facts,
            assumed=(text,),
            waiver=text,
            inputs=(Input(text, text, text, f"{text}:3"),),
            workings=(Working(text, text, text, text, text, (STANDARD,)),),
            changes=(change,),
            tried=(text,),
        ),
        undecided(**facts, open=(Open(text, text, text, text, text),)),
        finding(**facts, verdict=Verdict.WAIVED, rule="a/waived", waiver=text),
        finding(**facts, verdict=Verdict.MET, rule="a/met"),
        job=text,
        file=text,
        cautions=(text,),
    )


def hostile_checked(text: str, several: bool = True) -> Checked:
    """Return such an assessment, and a job of that name that could not be read."""
    refusal = Refusal(text, (Problem(text, 2, 3, f"{text}\n  {text}\n  ^", text),))
    return Checked((hostile_assessment(text),), (refusal,) * several, several, "all", workings=True)
