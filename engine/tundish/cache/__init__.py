"""The cache between runs: a folder that only this user can write to."""
