"""What is wrong in a text that is no TOML, told so that its writer can mend it."""
