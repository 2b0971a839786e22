"""Checking comparisons and ``in``: both sides of one kind, words only that a fact can be."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.language.check.context import Context
from tundish.language.check.levels import fit_level
from tundish.language.check.names import is_bare_word, refuse_bare_word
from tundish.language.operations.operators import RELATIONS
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH, Kind, capital, fits, missing_unit
from tundish.text.nearest import did_you_mean

ORDERED = ("quantity", "date")


def check_comparison(context: Context, part: s.ComparisonSyntax) -> t.Node | None:
    """Check a comparison; a chained one becomes its comparisons joined by ``and``."""
    operands = _side_by_side(context, part.operands)
    comparisons: list[t.Node] = []
    for index, sign in enumerate(part.signs):
        left, right = operands[index], operands[index + 1]
        if left is None or right is None:
            continue
        left, right = fit_level(left, right), fit_level(right, left)
        sentence = _quoted_name(context, left, right) or _misfit(sign, left, right)
        if sentence:
            context.refuse(part, sentence)
            continue
        comparisons.append(t.Comparison(TRUTH, left.start, right.end, sign, left, right))
    if len(comparisons) < len(part.signs):
        return None
    if len(comparisons) == 1:
        return comparisons[0]
    return t.Logic(TRUTH, part.start, part.end, "and", tuple(comparisons))


def _side_by_side(context: Context, parts: Sequence[s.Syntax]) -> list[t.Node | None]:
    """Check values that are compared; a word without quotes after the others."""
    nodes = [None if is_bare_word(context, part) else context.node(part) for part in parts]
    asked = next((at for at, node in enumerate(nodes) if node is not None), 0)
    for part in parts:
        if is_bare_word(context, part):
            _beside(context, part, parts[asked], nodes[asked])
    return nodes


def _beside(
    context: Context, part: s.Syntax, asked: s.Syntax, node: t.Node | None
) -> t.Node | None:
    """Check a value that is compared with another.

    Args:
        context: The check of the expression.
        part: The value.
        asked: The other.
        node: The other, checked.
    """
    # A literal text has only itself as a choice, which says nothing about the other side.
    is_of_words = node is not None and node.kind.name in ("text", "texts")
    if not is_of_words or isinstance(node, t.Constant) or not is_bare_word(context, part):
        return context.node(part)
    assert node is not None
    assert isinstance(part, s.NameSyntax)
    refuse_bare_word(context, part, asked, node.kind.choices)
    return None


def check_membership(context: Context, part: s.MembershipSyntax) -> t.Node | None:
    """Check ``x in ['a', 'b']``, or ``'a' in list``."""
    if isinstance(part.options, s.ListSyntax):
        member = context.node(part.member)
        return _in_literals(context, part, member, part.options)
    member, texts = _side_by_side(context, (part.member, part.options))
    if member is None or texts is None:
        return None
    if texts.kind.name != "texts" or member.kind.name != "text":
        sentence = (
            f"'in' asks for a text in a list of texts, not for {member.kind} in {texts.kind}."
        )
        context.refuse(part, sentence)
        return None
    if isinstance(member, t.Constant):
        sentence = not_a_choice(member.value, texts.kind)
        if sentence:
            context.refuse(part.member, sentence)
            return None
    return t.Membership(TRUTH, part.start, part.end, member, None, texts)


def not_a_choice(value: t.Value, kind: Kind) -> str:
    """Say that a text is none of the words a fact can take, or nothing where it is one."""
    if not kind.choices or value in kind.choices:
        return ""
    hint = did_you_mean(str(value), list(kind.choices))
    return f"'{value}' is none of the words this can be: {', '.join(kind.choices)}.{hint}"


def _in_literals(
    context: Context, part: s.MembershipSyntax, member: t.Node | None, options: s.ListSyntax
) -> t.Node | None:
    values: list[t.Value] = []
    for item in options.items:
        option = _beside(context, item, part.member, member)
        if option is None or member is None:
            continue
        if not isinstance(option, t.Constant):
            context.refuse(item, "Only literals may stand in a list in square brackets.")
            continue
        sentence = _misfit("==", member, fit_level(option, member))
        if sentence:
            context.refuse(item, sentence)
        values.append(option.value)
    if not options.items:
        context.refuse(options, "An empty list holds nothing: this would never be true.")
    if member is None or len(values) < len(options.items):
        return None
    return t.Membership(TRUTH, part.start, part.end, member, tuple(values), None)


def _quoted_name(context: Context, left: t.Node, right: t.Node) -> str:
    """Say that a fact's name stands in quotes, where it can be no text; or nothing."""
    for node, other in ((left, right), (right, left)):
        if not isinstance(node, t.Constant) or node.value not in context.scope.facts:
            continue
        may_be_text = other.kind.name == "text" and not isinstance(other, t.Constant)
        if not may_be_text or not_a_choice(node.value, other.kind):
            return f"In quotes '{node.value}' is a text and no fact: write {node.value}."
    return ""


def _misfit(sign: str, left: t.Node, right: t.Node) -> str:
    """Say why two values cannot be compared, or nothing where they can."""
    first, second = left.kind, right.kind
    if not fits(first, second):
        hint = missing_unit(first, second)
        return f"{capital(first)} cannot be compared with {second}.{hint}"
    if first.name == "texts":
        return "Lists of texts cannot be compared; ask whether a text is 'in' one."
    if not RELATIONS[sign].takes_any and first.name not in ORDERED:
        return f"'{sign}' compares quantities or dates, not {first}."
    for literal, wanted in ((left, second), (right, first)):
        if isinstance(literal, t.Constant):
            return not_a_choice(literal.value, wanted)
    return ""
