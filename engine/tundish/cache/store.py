"""Keeping bytes under a name, sealed: what is read back is what this user's program wrote.

The seal is a keyed digest over name and content. Its key is made at random when first needed and
lies beside the files, readable by the user alone; who could read it could as well change the
program itself. Whatever is wrong, from a flipped byte to a full disk, is the same as nothing kept.
"""

from __future__ import annotations

import contextlib
import hashlib
import hmac
import os
import time

from tundish.cache import private_folder as guarded
from tundish.cache.location import folder

_KEY = "key"
_KEY_LENGTH = 32
_SEAL_LENGTH = 32
_A_MOMENT = 0.05
_MOST_KEPT = 24
"""Files kept at most; the oldest go first."""


def kept(name: str) -> bytes | None:
    """Return what is kept under a name.

    Args:
        name: Letters, digits, '-' and '.', with no '.' at the start.

    Returns:
        What was kept; None if nothing is, or if anything about it is in doubt.
    """
    place = folder()
    if place is None:
        return None
    try:
        with guarded.opened(place) as opened:
            key, sealed = _own_key(guarded.read(opened, _KEY)), guarded.read(opened, name)
    except (OSError, ValueError):
        return None
    seal, content = sealed[:_SEAL_LENGTH], sealed[_SEAL_LENGTH:]
    return content if hmac.compare_digest(seal, _sealed(key, name, content)) else None


def keep(name: str, content: bytes) -> bool:
    """Keep something under a name, in place of what was kept there.

    Args:
        name: As for `kept`.
        content: What to keep.

    Returns:
        Whether it is kept now.
    """
    place = folder()
    if place is None or len(content) + _SEAL_LENGTH > guarded.LARGEST:
        return False
    try:
        with guarded.opened(place, make=True) as opened:
            key = _key(opened)
            guarded.write(opened, name, _sealed(key, name, content) + content)
            _forget_the_oldest(opened)
    except (OSError, ValueError):
        return False
    return True


def can_keep() -> bool:
    """Say whether anything could be kept, before work is put into it."""
    place = folder()
    if place is None:
        return False
    try:
        with guarded.opened(place, make=True) as opened:
            _key(opened)
    except (OSError, ValueError):
        return False
    return True


def _sealed(key: bytes, name: str, content: bytes) -> bytes:
    digest = hashlib.blake2b(key=key, digest_size=_SEAL_LENGTH)
    digest.update(name.encode() + b"\0")
    digest.update(content)
    return digest.digest()


def _key(opened: int) -> bytes:
    """Return the key; where there is none yet, or none to be trusted, make one.

    Of several processes that find none, one makes it and the others take that.
    """
    with contextlib.suppress(OSError, ValueError):
        return _own_key(guarded.read(opened, _KEY))
    new = os.urandom(_KEY_LENGTH)
    with contextlib.suppress(FileExistsError):
        guarded.write(opened, _KEY, new, replace=False)
        return new
    time.sleep(_A_MOMENT)  # whoever makes one is done by then
    with contextlib.suppress(OSError, ValueError):
        return _own_key(guarded.read(opened, _KEY))
    guarded.write(opened, _KEY, new)
    return new


def _own_key(content: bytes) -> bytes:
    if len(content) != _KEY_LENGTH:
        raise ValueError("no key")
    return content


def _forget_the_oldest(opened: int) -> None:
    """Keep the folder from growing, and sweep up what an interrupted run left behind."""
    with contextlib.suppress(OSError):
        ages = {
            name: os.stat(name, dir_fd=opened, follow_symlinks=False).st_mtime
            for name in os.listdir(opened)
            if name != _KEY
        }
        for name in sorted(ages, key=ages.__getitem__)[:-_MOST_KEPT]:
            os.unlink(name, dir_fd=opened)
