"""Strokes as SVG, through the standard library's element tree: the same input, the same bytes."""

from __future__ import annotations

from xml.etree import ElementTree as ET

from .pages import PlacedScene
from .pens import Pen, Tint
from .scene import Anchor, Point
from .strokes import Lettering, Outline, Ring

NAMESPACE = "http://www.w3.org/2000/svg"
TYPEFACE = "'Source Sans Pro', 'Helvetica Neue', Arial, sans-serif"
_ANCHORS = {Anchor.START: "start", Anchor.MIDDLE: "middle", Anchor.END: "end"}


def svg(placed: PlacedScene) -> bytes:
    """The drawing as an SVG document whose units are points."""
    root = ET.Element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "viewBox": f"0 0 {_number(placed.wide)} {_number(placed.tall)}",
            "width": f"{_number(placed.wide)}pt",
            "height": f"{_number(placed.tall)}pt",
            "font-family": TYPEFACE,
            "stroke-linejoin": "round",
        },
    )
    if placed.title:
        ET.SubElement(root, "title").text = placed.title
    for stroke in placed.strokes:
        if isinstance(stroke, Outline):
            _outline(root, stroke, placed)
        elif isinstance(stroke, Ring):
            _ring(root, stroke, placed)
        else:
            _lettering(root, stroke, placed)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True))


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"


def _at(point: Point, placed: PlacedScene) -> tuple[str, str]:
    x = (point[0] - placed.extent.left) / placed.point
    y = (placed.extent.high - point[1]) / placed.point
    return _number(x), _number(y)


def _pen(pen: Pen | None, tint: Tint) -> dict[str, str]:
    given = {"fill": str(tint.value)}
    if pen:
        given |= {"stroke": pen.colour, "stroke-width": _number(pen.weight)}
        if pen.dash:
            given["stroke-dasharray"] = " ".join(_number(step) for step in pen.dash)
    return given


def _outline(root: ET.Element, stroke: Outline, placed: PlacedScene) -> None:
    points = " ".join(",".join(_at(point, placed)) for point in stroke.points)
    tag = "polygon" if stroke.closed else "polyline"
    element = ET.SubElement(root, tag, {"points": points, **_pen(stroke.pen, stroke.tint)})
    _named(element, stroke.name)


def _ring(root: ET.Element, stroke: Ring, placed: PlacedScene) -> None:
    x, y = _at(stroke.centre, placed)
    radius = _number(stroke.radius / placed.point)
    element = ET.SubElement(root, "circle", {"cx": x, "cy": y, "r": radius, **_pen(stroke.pen, stroke.tint)})
    _named(element, stroke.name)


def _named(element: ET.Element, name: str) -> None:
    if name:
        element.set("data-name", name)


def _lettering(root: ET.Element, stroke: Lettering, placed: PlacedScene) -> None:
    x, y = _at(stroke.at, placed)
    given = {
        "x": x,
        "y": y,
        "font-size": _number(stroke.size / placed.point),
        "text-anchor": _ANCHORS[stroke.anchor],
        "fill": stroke.colour,
    }
    if stroke.bold:
        given["font-weight"] = "700"
    if stroke.turn:
        given["transform"] = f"rotate({_number(-stroke.turn)} {x} {y})"
    element = ET.SubElement(root, "text", given)
    element.text = stroke.text
    _named(element, stroke.name)
