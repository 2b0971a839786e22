"""What a rule comes to, as numbers: in columns, where a name would be too long."""

MET, BREACHED, UNDECIDED, NOT_APPLICABLE = 1, 0, 2, 3
