"""Where the pages are found unless another address is asked for."""

from __future__ import annotations

HOST = "127.0.0.1"
EVERYWHERE = "0.0.0.0"
PORT = 8411
