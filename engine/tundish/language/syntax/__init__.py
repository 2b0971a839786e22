"""From text to a syntax tree: lexer, parser, tree."""
