"""The text of a page as a person reads it: what stands on it and what stands in its fields."""

from __future__ import annotations

import re

from bs4 import BeautifulSoup, Tag

UNSEEN = ["script", "style", "template", "noscript"]
OF_A_LINE = ["a", "b", "strong", "em", "i", "code", "span", "small", "time", "sup", "sub", "tspan", "abbr"]
CELLS = ["td", "th"]


def page_text(html: str) -> str:
    """A line for each paragraph, heading, row, entry or label, in the order of the page.

    A field shows as `[name: content]`, with what it suggests while empty in round brackets; of a
    choice the chosen entry has a star. Cells of a row are parted by bars.
    """
    page = BeautifulSoup(html, "html.parser")
    for tag in page.find_all(UNSEEN):
        tag.decompose()
    for field in page.find_all(["input", "textarea"]):
        field.replace_with(_field(field))
    for option in page.find_all("option", selected=True):
        option.append(" *")
    for tag in page.find_all(True, attrs={"title": True}):
        tag.append(f" ({tag['title']})")
    for tag in page.find_all(True):
        if tag.name in CELLS:
            tag.append(" | ")
        elif tag.name not in OF_A_LINE:
            tag.insert_before("\0")
            tag.append("\0")
    lines = (" ".join(line.split()) for line in re.split("\0+", page.get_text()))
    return "\n".join(line.removesuffix(" |") for line in lines if line) + "\n"


def _field(field: Tag) -> str:
    kind = field.get("type")
    if kind in ("hidden", "submit"):
        return ""
    if kind in ("checkbox", "radio"):
        content = "ticked" if field.has_attr("checked") else "not ticked"
    else:
        content = str(field.get("value") or field.get_text())
    hint = field.get("placeholder")
    return f"[{field.get('name')}: {content}{f' ({hint})' if hint else ''}]"
