"""General-purpose expression engines, each asked the same rules in its own form."""
