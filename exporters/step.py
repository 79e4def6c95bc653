"""The assembly as a STEP file: AP242, millimetres, one named and coloured product per part."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from exporters.colours import colour_of
from exporters.step_order import in_order
from furniture.errors import SolidError
from furniture.parts.placement import Placement
from furniture.pieces import Piece, distinct_parts
from furniture.solids.make import location_of, solid_of

SCHEMA = 5
"""The writer's number for AP242 (its options run AP203, AP214, AP242 in 1 to 5)."""


def write_step(piece: Piece, path: Path, written: str) -> Path:
    """The file written: every distinct part once, every instance placed as built.

    Args:
        piece: the piece.
        path: of the file.
        written: the time stamp for its header, ISO 8601.

    Raises:
        SolidError: the writer did not finish, or left no readable file.
    """
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.STEPControl import STEPControl_StepModelType
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFApp import XCAFApp_Application
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("MDTV-XCAF"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    colours = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    XCAFDoc_DocumentTool.SetLengthUnit_s(document, 0.001)
    _fill(piece, shapes, colours)
    shapes.UpdateAssemblies()
    writer = STEPCAFControl_Writer()
    writer.SetColorMode(True)
    writer.SetNameMode(True)
    Interface_Static.SetIVal_s("write.step.schema", SCHEMA)
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    writer.Transfer(document, STEPControl_StepModelType.STEPControl_AsIs)
    _sign(writer, piece, written)
    status = writer.Write(str(path))
    if status != IFSelect_ReturnStatus.IFSelect_RetDone or not path.is_file():
        raise SolidError(f"the STEP writer did not write {path.name}")
    # Read byte for byte: names are in UTF-8, and only numbers are changed.
    path.write_bytes(in_order(path.read_bytes().decode("latin-1")).encode("latin-1"))
    return path


def _fill(piece: Piece, shapes: Any, colours: Any) -> None:
    """One product per distinct part under one assembly, a component per instance."""
    from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
    from OCP.XCAFDoc import XCAFDoc_ColorType

    assembly = shapes.NewShape()
    _name(assembly, piece.name)
    placements: dict[str, Placement] = {each.instance: each.placement for each in piece.placed}
    for distinct in distinct_parts(piece):
        # A copy, as parts of two stocks may be one shape, which would be one product to the writer.
        label = shapes.AddShape(solid_of(distinct.part).copy().wrapped, False)
        _name(label, distinct.part.name)
        red, green, blue = colour_of(distinct.part.timber)
        colours.SetColor(
            label,
            Quantity_Color(red, green, blue, Quantity_TOC_sRGB),
            XCAFDoc_ColorType.XCAFDoc_ColorGen,
        )
        for instance in distinct.instances:
            component = shapes.AddComponent(assembly, label, location_of(placements[instance]))
            _name(component, instance)


def _sign(writer: Any, piece: Piece, written: str) -> None:
    """The file's header in our own words: what it is, when it was written, by what."""
    from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
    from OCP.TCollection import TCollection_HAsciiString

    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    header.SetName(TCollection_HAsciiString(piece.name))
    header.SetTimeStamp(TCollection_HAsciiString(written))
    header.SetOriginatingSystem(TCollection_HAsciiString("knifewall"))


def _name(label: Any, name: str) -> None:
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name

    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name, True))
