"""What machine a benchmark ran on, for the first line it prints."""

from __future__ import annotations

import os
import platform


def machine() -> str:
    """Processor, how many, system and Python."""
    cpu = platform.processor() or platform.machine()
    return f"{cpu}, {os.cpu_count()} processors, {platform.system()}, Python {platform.python_version()}"
