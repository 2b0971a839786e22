"""What holds for all tests: they leave nothing in the user's own folders."""

from __future__ import annotations

import os

os.environ["TUNDISH_CACHE"] = "off"
