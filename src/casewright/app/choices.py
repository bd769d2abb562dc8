"""What a maker may choose from, and what applies if they choose nothing.

Help and forms name these, so this imports nothing that takes long to load.
"""

from __future__ import annotations

from ..jobfile.read.toml_text import LONGEST_TEXT
from ..packet.labels.label_stock import STOCKS
from ..packet.leaves import Moment
from ..repair.prevention.cut_dimension import CutDimension
from ..shop.rough_boards import LOTS_DRAWN

EXAMPLE_SHOWN = "pottery-studio"
"""The example of the demo."""

KINDS = ("base", "wall", "tall", "open")
"""Kinds of cases in a new job."""

SECONDS = 2.0
"""About how long to search for a plan of the sheets."""

LONGEST_JOB_TEXT = LONGEST_TEXT
"""Characters of a job file that are read."""

FORMATS = ("pdf", "csv", "json", "svg", "dxf", "glb", "step")
"""Kinds of files in a packet."""

MOMENTS = tuple(moment.value for moment in Moment)
"""Moments of the day whose leaves of the packet can be printed alone."""

DIMENSIONS = tuple(dimension.value for dimension in CutDimension)
"""Dimensions that a fence or stop is set for."""

LABEL_STOCKS = tuple(STOCKS)
"""What a label printer may hold."""

BOARD_LOTS = LOTS_DRAWN
"""How many lots of boards are drawn where nothing else is asked."""
