"""All known mistakes, in the order in which they are tried."""

from __future__ import annotations

from tundish.text.toml_mistakes import brackets, keys, quotes, signs, words
from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Mistake, Recogniser

RECOGNISERS: tuple[Recogniser, ...] = (
    keys.other_language,
    brackets.list_outside,
    signs.comment_mark,
    signs.odd_space,
    keys.key_with_spaces,
    keys.no_key,
    signs.other_equals,
    keys.prose,
    signs.missing_value,
    words.truth,
    words.not_known,
    words.day,
    words.decimal_comma,
    words.number,
    quotes.backslash,
    quotes.curly_quotes,
    brackets.no_brackets,
    quotes.unclosed_in_list,
    quotes.quote_within,
    quotes.apostrophe,
    quotes.unclosed_quote,
    brackets.key_twice_in_braces,
    brackets.comma_in_braces,
    brackets.comma_at_end,
    brackets.braces_on_lines,
    words.quantity,
    words.bare_words,
    brackets.missing_comma,
    brackets.unclosed_bracket,
    brackets.header,
    brackets.empty_header,
    signs.no_equals,
    keys.odd_dots,
    keys.odd_key,
    words.other_value,
    signs.text_after,
)


def recognised(failure: Failure) -> Mistake | None:
    """Return the mistake for which a statement could not be read, if it is a known one."""
    mistakes = (recognise(failure) for recognise in RECOGNISERS)
    return next((mistake for mistake in mistakes if mistake is not None), None)
