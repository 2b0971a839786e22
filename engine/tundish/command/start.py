"""Where the command starts: before anything is loaded, so that it can be stopped at any moment.

It ends with 130 when stopped by hand and 143 when told to end, as shells expect, and leaves no
half-written file: whoever writes one cleans up on the way out.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from types import FrameType
from typing import NoReturn

from tundish.command.exit_codes import INTERRUPTED, TERMINATED

_COLLECT_AFTER = 100_000
"""New objects after which the garbage collector runs."""


class Ended(BaseException):
    """The process was told to end; no handler of errors is to mistake it for one."""


def start() -> int:
    """Run the command as a process of its own; return what it ends with."""
    # A rulebook is many small objects that all stay, so garbage collection would find nothing.
    gc.set_threshold(_COLLECT_AFTER)
    _have_streams()
    signal.signal(signal.SIGTERM, _end)
    try:
        from tundish.command.main import main

        return main()
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped.\n")
        return INTERRUPTED
    except Ended:
        return TERMINATED
    finally:
        # Everything goes with the process, so a garbage collection at its end would only cost
        # time: as much as showing help.
        gc.freeze()
        # From here on there is nothing to clean up, so what comes now may end the process at once.
        signal.signal(signal.SIGTERM, signal.SIG_DFL)


def _end(_: int, __: FrameType | None) -> NoReturn:
    raise Ended


def _have_streams() -> None:
    """Send what is put out nowhere, where the process was started without a stream for it."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w"))  # noqa: SIM115 - it lasts as long as we do
