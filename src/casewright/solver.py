"""HiGHS without a word on the terminal, which belongs to whoever called us."""

from __future__ import annotations

import highspy


class QuietHighs(highspy.Highs):
    """A solver silenced before it can print the banner that making one prints."""

    def enableCallbacks(self) -> None:
        # Called by the constructor, just before the first line would be written.
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def quiet_solver() -> QuietHighs:
    return QuietHighs()  # type: ignore[no-untyped-call]
