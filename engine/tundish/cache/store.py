"""The cache: bytes under a name, sealed, so that only what this user's program wrote is read back.

The seal is a keyed digest over name and content. Its key is random, made on first use, and lies
beside the files, readable by the user alone; whoever could read it could as well change the
program. Anything wrong, from a flipped byte to a full disk, counts as a cache miss.
"""

from __future__ import annotations

import contextlib
import hashlib
import hmac
import os
import time

from tundish.cache import private_folder
from tundish.cache.location import folder

_KEY = "key"
_KEY_LENGTH = 32
_SEAL_LENGTH = 32
_A_MOMENT = 0.05
_MOST_FILES = 24
"""Files in the cache at most; the oldest are deleted first."""


def load(name: str) -> bytes | None:
    """Return the content saved under a name.

    Args:
        name: Letters, digits, '-' and '.', with no '.' at the start.

    Returns:
        The content; None if there is none, or if anything about it is in doubt.
    """
    place = folder()
    if place is None:
        return None
    try:
        with private_folder.opened(place) as opened:
            key, sealed = (
                _own_key(private_folder.read(opened, _KEY)),
                private_folder.read(opened, name),
            )
    except (OSError, ValueError):
        return None
    seal, content = sealed[:_SEAL_LENGTH], sealed[_SEAL_LENGTH:]
    return content if hmac.compare_digest(seal, _sealed(key, name, content)) else None


def save(name: str, content: bytes) -> bool:
    """Save content under a name, in place of what was saved there.

    Args:
        name: As for `load`.
        content: The bytes.

    Returns:
        Whether it is saved now.
    """
    place = folder()
    if place is None or len(content) + _SEAL_LENGTH > private_folder.LARGEST:
        return False
    try:
        with private_folder.opened(place, make=True) as opened:
            key = _key(opened)
            private_folder.write(opened, name, _sealed(key, name, content) + content)
            _evict_oldest(opened)
    except (OSError, ValueError):
        return False
    return True


def can_save() -> bool:
    """Say whether anything could be saved, before work is put into it."""
    place = folder()
    if place is None:
        return False
    try:
        with private_folder.opened(place, make=True) as opened:
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
        return _own_key(private_folder.read(opened, _KEY))
    new = os.urandom(_KEY_LENGTH)
    with contextlib.suppress(FileExistsError):
        private_folder.write(opened, _KEY, new, replace=False)
        return new
    time.sleep(_A_MOMENT)  # whoever makes one is done by then
    with contextlib.suppress(OSError, ValueError):
        return _own_key(private_folder.read(opened, _KEY))
    private_folder.write(opened, _KEY, new)
    return new


def _own_key(content: bytes) -> bytes:
    if len(content) != _KEY_LENGTH:
        raise ValueError("no key")
    return content


def _evict_oldest(opened: int) -> None:
    """Delete the oldest files, and with them what an interrupted run left behind."""
    with contextlib.suppress(OSError):
        ages = {
            name: os.stat(name, dir_fd=opened, follow_symlinks=False).st_mtime
            for name in os.listdir(opened)
            if name != _KEY
        }
        for name in sorted(ages, key=ages.__getitem__)[:-_MOST_FILES]:
            os.unlink(name, dir_fd=opened)
