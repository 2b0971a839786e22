"""Exit codes of the command, beside 0 for all is well and 1 for a breach."""

CANNOT_READ = 2
"""Something could not be read or written."""

INTERRUPTED = 130
"""What a shell expects of a command that was stopped by hand."""

READER_GONE = 141
"""What a shell expects of a command whose output nobody reads any more."""

TERMINATED = 143
"""What a shell expects of a command that another program told to end."""
