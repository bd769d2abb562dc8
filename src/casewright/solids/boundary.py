"""Parts as exact boundary solids, and a STEP file of them. Needs the `step` extra to be imported.

All in millimetres, which is what the files declare.
"""

from __future__ import annotations

import re
from io import BytesIO
from itertools import count
from threading import Lock
from typing import Any

from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCylinder
from OCP.collections import List_TopoDS_Shape
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.Message import Message
from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from ..casework.parts.holes import Bore
from ..errors import LibraryError, library_call
from ..lengths.length import MM
from .bodies import Bodies
from .part_shape import Block, PartShape, Point

STAMP = "2000-01-01T00:00:00"
"""The header's time stamp: fixed, so that one job gives one file, byte for byte."""

NAME = "casewright"

TASK = "writing the job as STEP"

_ONE_AT_A_TIME = Lock()
"""The kernel's settings, the product's name among them, belong to the whole process."""

_NUMBERED = re.compile(rb"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\(')\d+")


def exact_solid(shape: PartShape) -> Any:
    """The shape as a solid (a TopoDS_Shape), its holes true cylinders."""
    blank = _box(Block((shape.blank[0] * 0,) * 3, shape.blank))
    tools = [_box(cut) for cut in shape.cuts if _has_room(cut)] + [_cylinder(bore) for bore in shape.bores]
    if not tools:
        return blank
    cutting = BRepAlgoAPI_Cut()
    cutting.SetArguments(_listed([blank]))
    cutting.SetTools(_listed(tools))
    cutting.Build()
    if not cutting.IsDone():
        raise _failed("a part's features cannot be cut")
    # Two cuts that share a wall must leave one face there, not two.
    merging = ShapeUpgrade_UnifySameDomain(cutting.Shape(), True, True, False)
    merging.Build()
    solids = TopExp_Explorer(merging.Shape(), TopAbs_SOLID)
    if not solids.More():
        raise _failed("a part is cut away completely by its features")
    return solids.Current()


def write_step(bodies: Bodies, name: str) -> bytes:
    """An assembly called `name`, each body in its place under its part's mark.

    Equal parts of one material are one product, which has the first one's mark. Raises LibraryError
    when the kernel fails.
    """
    with _ONE_AT_A_TIME, library_call("The STEP kernel", TASK):
        return _written(_assembly(bodies, name), name)


def _failed(reason: str) -> LibraryError:
    return LibraryError("The STEP kernel", TASK, reason)


def _assembly(bodies: Bodies, name: str) -> Any:
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    XCAFDoc_ShapeTool.SetAutoNaming_s(False)
    whole = shapes.NewShape()
    _name(whole, name)
    products: dict[tuple[PartShape, str], Any] = {}
    for body in bodies.values():
        key = (body.shape, body.part.material)
        if key not in products:
            products[key] = shapes.AddShape(exact_solid(body.shape), False)
            _name(products[key], body.part.mark)
        _name(shapes.AddComponent(whole, products[key], _place(body.corner)), body.part.mark)
    shapes.UpdateAssemblies()
    return document


def _written(document: Any, name: str) -> bytes:
    # The kernel prints reports to standard output, which belongs to the caller.
    Message.DefaultMessenger_s().ChangePrinters().Clear()
    writer = STEPCAFControl_Writer()
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetCVal_s("write.step.product.name", name)
    writer.SetNameMode(True)
    if not writer.Transfer(document):
        raise _failed("the parts cannot be added to the file")
    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    header.SetName(TCollection_HAsciiString(name))
    header.SetTimeStamp(TCollection_HAsciiString(STAMP))
    header.SetAuthorValue(1, TCollection_HAsciiString(""))
    header.SetOrganizationValue(1, TCollection_HAsciiString(""))
    header.SetOriginatingSystem(TCollection_HAsciiString(NAME))
    file = BytesIO()
    if writer.WriteStream(file) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise _failed("the file cannot be written")
    # The kernel keeps counting from one file to the next; here each file starts at 1 again.
    numbers = count(1)
    return _NUMBERED.sub(lambda found: found[1] + str(next(numbers)).encode(), file.getvalue())


def _name(label: Any, text: str) -> None:
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(text, True))


def _place(corner: Point) -> Any:
    moving = gp_Trsf()
    moving.SetTranslation(gp_Vec(*_millimetres(corner)))
    return TopLoc_Location(moving)


def _listed(shapes: list[Any]) -> Any:
    listed = List_TopoDS_Shape()
    for shape in shapes:
        listed.Append(shape)
    return listed


def _box(block: Block) -> Any:
    return BRepPrimAPI_MakeBox(gp_Pnt(*_millimetres(block.low)), gp_Pnt(*_millimetres(block.high))).Solid()


def _cylinder(bore: Bore) -> Any:
    way = [0.0, 0.0, 0.0]
    way[bore.into.axis.value] = float(bore.into.sign)
    axis = gp_Ax2(gp_Pnt(*_millimetres(bore.mouth)), gp_Dir(*way))
    return BRepPrimAPI_MakeCylinder(axis, float(bore.radius / MM), float(bore.depth / MM)).Solid()


def _has_room(cut: Block) -> bool:
    return all(low < high for low, high in zip(cut.low, cut.high, strict=True))


def _millimetres(point: Point) -> tuple[float, float, float]:
    return float(point[0] / MM), float(point[1] / MM), float(point[2] / MM)
