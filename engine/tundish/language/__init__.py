"""The condition language: words, tree, kinds and dimensions, compiled form, explained form."""
