"""Draw the pages that docs/packet.md shows: the demo's packet, one page of each moment, as small PNG files.

Run from the top of the checkout: `python tools/packet_pages.py`. It takes `pdftoppm` (poppler) on the path.
"""

from __future__ import annotations

import subprocess
import sys
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from pypdf import PdfReader

from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.packet_files import packet_of
from casewright.packet.shop_packet import packet

TOP = Path(__file__).parents[1]
JOB = TOP / "examples" / "pottery-studio.toml"
INTO = TOP / "docs" / "packet-pages"
SECONDS = 1.0
DOTS = 36
"""Per inch: enough to see how a page is set, too few to read it."""

MOMENTS = {
    "front": "SHOP PACKET",
    "yard": "At the yard",
    "labels": "left side",
    "trestles": "At the trestles",
    "saw": "At the table saw",
    "maps": "Sheet maps",
    "joints": "Joints, notches and holes",
    "worked": "Worked parts",
    "cases": "The cases",
    "hanging": "Hanging and standing",
}
"""What the first page of each moment says, by the name of its picture."""


def main() -> None:
    """Write a picture of the first page of every moment; ends with an error when a moment has no page."""
    pdf = packet(packet_of(open_job(JOB.read_text(encoding="utf-8")).planned(SECONDS)))
    said = [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]
    INTO.mkdir(exist_ok=True)
    with TemporaryDirectory() as folder:
        paper = Path(folder, "packet.pdf")
        paper.write_bytes(pdf)
        for name, words in MOMENTS.items():
            found = [
                number
                for number, text in enumerate(said, 1)
                if any(line.strip().startswith(words) for line in text.splitlines())
                and (name == "front" or number > 1)
            ]
            if not found:
                sys.exit(f"no page of the packet says “{words}”")
            page = str(found[0])
            picture = ["pdftoppm", "-r", str(DOTS), "-f", page, "-l", page, "-gray", "-png", "-singlefile"]
            subprocess.run([*picture, str(paper), str(INTO / name)], check=True)


if __name__ == "__main__":
    main()
