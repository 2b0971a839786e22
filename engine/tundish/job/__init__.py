"""The job: every fact about one installation that a rule may ask for, and reading it from TOML."""
