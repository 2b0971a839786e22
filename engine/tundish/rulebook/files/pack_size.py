"""The size of packs, looked at before anything in them is read."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from tundish.rulebook.files.pack import Pack
from tundish.text.bounds import LARGEST_RULEBOOK, MOST_FILES, MOST_PACKS, MOST_RULES
from tundish.text.problem import Refused, refusal


def check_folders(folders: Iterable[Path]) -> None:
    """Look how much there is to read in the folders of packs, all together.

    Args:
        folders: The packs; one that is not there is passed over, as reading it will say so.

    Raises:
        Refused: If there are more files, or more bytes in their rules, than are read.
    """
    files = size = 0
    for folder in folders:
        for entry in _files(str(folder)):
            files += 1
            if files > MOST_FILES:
                raise refusal(
                    str(folder),
                    f"There are more than {MOST_FILES:,} files in the folders of rules; name a "
                    "folder that holds rules and nothing else.",
                )
            if entry.name.endswith(".toml"):
                size += _size(entry)
            if size > LARGEST_RULEBOOK:
                raise refusal(
                    str(folder),
                    f"All rules together hold more than {LARGEST_RULEBOOK // 2**20} MiB; use "
                    "fewer packs at once, or packs with fewer rules.",
                )


def check_packs(packs: list[Pack]) -> None:
    """Look how many packs there are, and how many rules, quantities and parts in them.

    Raises:
        Refused: If there are more than are read.
    """
    if len(packs) > MOST_PACKS:
        raise refusal(
            str(packs[MOST_PACKS].folder),
            f"There are {len(packs):,} packs, national ones counted; at most {MOST_PACKS:,} are "
            "read together.",
        )
    count = 0
    for pack in packs:
        tables = (source for _, source in (*pack.quantities, *pack.provisions, *pack.constraints))
        count += len(pack.rules) + sum(len(source.file.data) for source in tables)
        if count > MOST_RULES:
            raise _too_many(pack)


def _too_many(pack: Pack) -> Refused:
    return refusal(
        str(pack.folder),
        f"There are more than {MOST_RULES:,} rules, quantities and parts, those of the packs "
        "beneath counted; use fewer packs at once.",
    )


def _files(folder: str) -> Iterator[os.DirEntry[str]]:
    """Give the files of a pack, hidden folders and what they hold left out."""
    try:
        entries = list(os.scandir(folder))
    except OSError:
        return
    for entry in entries:
        if not _is_folder(entry):
            yield entry
        elif not entry.name.startswith(".") and not entry.is_symlink():
            yield from _files(entry.path)


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False


def _size(entry: os.DirEntry[str]) -> int:
    try:
        return entry.stat().st_size
    except OSError:
        return 0
