"""Run the command with ``python -m tundish``."""

from __future__ import annotations

import sys

from tundish.command.start import start

if __name__ == "__main__":
    sys.exit(start())
