"""A drawing in the form the templates take: SVG text with its width and height in points."""

from __future__ import annotations

from ...drawings.kit.pages import PlacedScene
from ...drawings.kit.svg import svg

Json = str | int | float | bool | None | list["Json"] | dict[str, "Json"]


def embed_picture(placed: PlacedScene) -> dict[str, Json]:
    """The drawing as SVG, with its size on paper in points."""
    return {
        "svg": svg(placed).decode(),
        "wide": round(placed.wide, 2),
        "tall": round(placed.tall, 2),
    }
