"""Commands as they can be typed, for reports that say what to run next."""

from __future__ import annotations

from collections.abc import Iterable


def typed(
    *words: str, rules: Iterable[str] = (), stage: str | None = None, region: str | None = None
) -> str:
    """Return a command of the program as a shell takes it.

    Whoever judged by rules of their own must go on with them: without them a job that states a
    fact of a pack is refused, and no rule of the pack has a name.

    Args:
        words: The subcommand and its arguments.
        rules: Folders of rules that lie on top of the built-in ones.
        stage: The stage to judge at, where another than the job's own was asked for.
        region: The region to judge for, where another than the job's own was asked for.

    Example:
        >>> typed("check", "our job.toml", rules=["our-rules"])
        "tundish check 'our job.toml' --rules our-rules"
    """
    from shlex import join

    pairs = [("--stage", stage), ("--region", region), *(("--rules", folder) for folder in rules)]
    options = [part for name, value in pairs if value for part in (name, str(value))]
    return join(["tundish", *words, *options])
