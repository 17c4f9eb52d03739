"""What holds for every test."""

from __future__ import annotations

import os

# The browser tests keep an event loop in this process; Django then refuses plain database calls in later
# tests although none of them runs inside that loop.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
