"""How a part of a job is declared, read, refused and described."""
