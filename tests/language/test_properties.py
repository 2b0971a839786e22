"""Properties that hold for every expression over every job, known in part."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from language.world import World, check, computed, explained
from tundish.groundwork.open_list import OpenList, like
from tundish.language.check.checker import check_expression
from tundish.language.syntax.parser import parse
from tundish.language.syntax.problem import ExpressionError
from tundish.units import dimension as d

SLOW = settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])

LENGTHS = st.sampled_from(
    ["a", "b", "c", "1 m", "0 m", "20 cm", "both", "water.depth", "all_twice"]
)
TRUTHS = st.sampled_from(
    ["f", "g", "h", "true", "false", "either", "present(water.vessel)", "('biocide' in has)"]
)
ITEM_LENGTHS = st.sampled_from(["run.length", "run.twice", "run.reach", "1 m"])
ITEM_TRUTHS = st.sampled_from(["run.open", "run.kind == 'copper'", "true"])


def lengths(truths: st.SearchStrategy[str], inner: st.SearchStrategy[str]) -> Any:
    return st.one_of(
        st.builds("({} {} {})".format, inner, st.sampled_from("+-"), inner),
        st.builds("({} / {} * {})".format, inner, inner, inner),
        st.builds("(-{})".format, inner),
        st.builds("least({}, {})".format, inner, inner),
        st.builds("absolute({})".format, inner),
        st.builds("square_root({} * {})".format, inner, inner),
        st.builds("(if {} then {} else {})".format, truths, inner, inner),
        st.builds(
            "{}({} for run in water.run if {})".format,
            st.sampled_from(["sum", "least", "greatest"]),
            ITEM_LENGTHS,
            ITEM_TRUTHS,
        ),
        st.builds("(lookup('rating.current', {}) * 1 m / 1 A)".format, inner),
        st.builds(
            "interpolate({}, {}, {} for run in water.run if {})".format,
            inner,
            ITEM_LENGTHS,
            ITEM_LENGTHS,
            ITEM_TRUTHS,
        ),
        st.builds("({} ^ 2 / 1 m)".format, inner),
    )


def conditions(inner: st.SearchStrategy[str], sizes: st.SearchStrategy[str]) -> Any:
    signs = st.sampled_from(["<", "<=", ">", ">=", "==", "!="])
    return st.one_of(
        st.builds("({} and {})".format, inner, inner),
        st.builds("({} or {} or {})".format, inner, inner, inner),
        st.builds("(not {})".format, inner),
        st.builds("({} {} {})".format, sizes, signs, sizes),
        st.builds("({} <= {} < {})".format, sizes, sizes, sizes),
        st.builds("({} == {})".format, inner, inner),
        st.builds("({} != {})".format, inner, inner),
        st.builds("(if {} then {} else {})".format, inner, inner, inner),
        st.builds(
            "{}({} for run in water.run if {})".format,
            st.sampled_from(["all", "any"]),
            st.one_of(ITEM_TRUTHS, st.builds("run.length < {}".format, LENGTHS)),
            ITEM_TRUTHS,
        ),
        st.builds("(count({} for run in water.run) > 1)".format, ITEM_TRUTHS),
        st.builds("(colour in ['red', 'blue'] and {})".format, inner),
    )


def deepened(leaves: st.SearchStrategy[str], rounds: int) -> st.SearchStrategy[str]:
    sizes, truths = LENGTHS, leaves
    for _ in range(rounds):
        sizes, truths = (
            st.one_of(LENGTHS, lengths(truths, sizes)),
            st.one_of(leaves, conditions(truths, sizes)),
        )
    return truths


CONDITIONS = deepened(TRUTHS, 3)

SIZES = st.one_of(
    st.sampled_from([0.0, 0.2, 1.0, 1.0 + 5e-10, 1.0 + 2e-9, -1.0, 1e200, 1e308]),
    st.floats(min_value=-1e3, max_value=1e3),
)
RUN = st.fixed_dictionaries(
    {},
    optional={
        "length": SIZES,
        "open": st.booleans(),
        "kind": st.sampled_from(["copper", "steel"]),
    },
)
RUNS = st.one_of(st.lists(RUN, max_size=3), st.lists(RUN, min_size=1, max_size=2).map(OpenList))
JOBS = st.fixed_dictionaries(
    {},
    optional={
        "a": SIZES,
        "b": SIZES,
        "c": SIZES,
        "water.depth": SIZES,
        "f": st.booleans(),
        "g": st.booleans(),
        "h": st.booleans(),
        "colour": st.sampled_from(["red", "green", "blue"]),
        "has": st.sampled_from([(), ("biocide",), ("inhibitor",)]),
        "water": st.booleans(),
        "water.vessel": st.booleans(),
        "water.run": RUNS,
    },
)
COMPLETE_RUN = {"length": 2.0, "open": True, "kind": "steel"}
COMPLETE = {
    "a": 1.5,
    "b": 0.5,
    "c": 3.0,
    "water.depth": 0.7,
    "f": True,
    "g": False,
    "h": True,
    "colour": "red",
    "has": ("biocide",),
    "water": True,
    "water.vessel": True,
    "water.run": [COMPLETE_RUN],
}


def a_world(values: dict[str, Any]) -> World:
    if values.get("water") is False:
        # Nothing is known of the parts of what is absent.
        values = {path: fact for path, fact in values.items() if not path.startswith("water.")}
    return World(values, names={f"water.run[{at}]": f"run {at}" for at in range(1, 4)})


@SLOW
@given(CONDITIONS, JOBS)
def test_compiled_and_explained_give_the_same(expression: str, job: dict[str, Any]) -> None:
    facts, node = a_world(job), check(expression)
    assert computed(node, facts) == explained(node, facts).value


@SLOW
@given(
    CONDITIONS,
    JOBS,
    st.sets(st.sampled_from(sorted(COMPLETE))),
    st.booleans(),
    st.sampled_from([[], [{}], [COMPLETE_RUN]]),
)
def test_a_decided_value_never_changes_when_something_is_learnt(
    expression: str,
    job: dict[str, Any],
    learnt: set[str],
    of_items: bool,
    more: list[dict[str, Any]],
) -> None:
    node, before = check(expression), a_world(job)
    value = computed(node, before)
    if value is None:
        return
    later = {**{path: COMPLETE[path] for path in learnt}, **job}
    if before.values.get("water") is False:
        later["water"] = False
    if of_items and isinstance(later.get("water.run"), list):
        runs = [{**COMPLETE_RUN, **run} for run in later["water.run"]]
        later["water.run"] = like(runs, later["water.run"])
    if isinstance(job.get("water.run"), OpenList):
        later["water.run"] = [*later["water.run"], *more]
    assert computed(node, a_world(later)) == value


@SLOW
@given(CONDITIONS, JOBS)
def test_what_is_undecided_says_what_is_needed_or_what_stands_in_the_way(
    expression: str, job: dict[str, Any]
) -> None:
    step = explained(check(expression), a_world(job))
    assert (step.value is None) == bool(step.needs or step.obstacles)


@SLOW
@given(CONDITIONS, JOBS)
def test_only_unknown_facts_are_needed(expression: str, job: dict[str, Any]) -> None:
    facts = a_world(job)
    for path in explained(check(expression), facts).needs:
        if "[" not in path:
            assert isinstance(facts.values.get(path), OpenList | None)
            continue
        position, _, name = path.removeprefix("water.run[").partition("].")
        assert name not in facts.values["water.run"][int(position) - 1]


@SLOW
@given(CONDITIONS, JOBS)
def test_knowing_all_that_is_needed_leaves_only_obstacles_or_new_questions(
    expression: str, job: dict[str, Any]
) -> None:
    node, facts = check(expression), a_world(job)
    asked: set[str] = set()
    for _ in range(40):
        step = explained(node, facts)
        if not step.needs:
            break
        assert not step.needs & asked  # nobody is asked the same thing twice
        asked |= step.needs
        facts = a_world(answered(facts.values, step.needs))
    assert not step.needs
    assert step.value is not None or step.obstacles


def answered(values: dict[str, Any], paths: frozenset[str]) -> dict[str, Any]:
    later = dict(values)
    for path in paths:
        if "[" not in path:
            is_begun = isinstance(later.get(path), OpenList)
            later[path] = list(later[path]) if is_begun else COMPLETE[path]
            continue
        position, _, name = path.removeprefix("water.run[").partition("].")
        runs = [dict(run) for run in later["water.run"]]
        runs[int(position) - 1][name] = COMPLETE_RUN[name]
        later["water.run"] = like(runs, later["water.run"])
    return later


@SLOW
@given(CONDITIONS, JOBS)
def test_the_same_job_gives_the_same_steps(expression: str, job: dict[str, Any]) -> None:
    node = check(expression)
    assert explained(node, a_world(job)) == explained(node, a_world(dict(job)))


@SLOW
@given(CONDITIONS)
def test_every_part_lies_inside_its_whole(expression: str) -> None:
    root = check(expression)
    for step in explained(root, a_world(dict(COMPLETE))).walk():
        for part in step.parts:
            if type(step.node).__name__ != "Derived":  # a quantity's formula is another text
                assert step.node.start <= part.node.start <= part.node.end <= step.node.end


PIECES = ["a", "f", "run", "water.run", "5 m", "3", "'red'", "(", ")", "[", "]", ",", "+", "-", "*"]
WORDS = ["/", "^", "<", ">=", "==", "and", "or", "not", "in", "if", "then", "else", "for", "sum"]


@SLOW
@given(st.lists(st.sampled_from(PIECES + WORDS), max_size=25), st.booleans())
def test_any_row_of_words_is_read_or_refused_with_places(words: list[str], spaced: bool) -> None:
    assert_read_or_refused((" " if spaced else "").join(words))


@SLOW
@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_places(text: str) -> None:
    assert_read_or_refused(text)


def assert_read_or_refused(text: str) -> None:
    try:
        check(text)
    except ExpressionError as error:
        assert error.problems
        assert list(error.problems) == sorted(error.problems)
        for problem in error.problems:
            assert 0 <= problem.start <= problem.end <= len(text) or problem.start == 0
            assert problem.sentence.endswith((".", "?"))


def test_the_generated_expressions_stay_within_the_language() -> None:
    assert parse("a + b") and check_expression.__doc__
    assert d.LENGTH in {check(text).kind.dimension for text in ("a", "1 m", "both")}
