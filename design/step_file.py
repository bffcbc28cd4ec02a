"""Write the bodies of a finished top as a STEP file: AP214, millimetres, one named product for each body.

The same solid gives the same bytes: the time stamp in the header is fixed, and every product has a name (an
unnamed one, like the parts of an assembly, would carry a count that goes on through the process).

References
----------
ISO 10303-21 (exchange structure), ISO 10303-214 (AP214)
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any, Final

from edgewright.design.solid import Solid
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.errors import OutputError

__all__ = ["write_step"]

#: Stands in every file instead of the time of writing.
_TIME_STAMP: Final = "2000-01-01T00:00:00"


def write_step(solid: Solid, path: str | os.PathLike[str], title: str = "finished top") -> None:
    """Write all bodies, as parts of one product that carries the title.

    Raises
    ------
    OutputError
        If the file cannot be written.
    """
    target = Path(path)
    try:
        target.write_bytes(b"")  # the kernel says only that it failed, the system says why
    except OSError as fault:
        raise OutputError(f"{target}: cannot be written ({fault.strerror}); choose another folder") from fault
    try:
        done, why = _written(solid, target, plain_ascii(title)), "no reason given"
    except Exception as fault:  # the kernel raises its own bare errors
        done, why = False, f"{type(fault).__name__}: {' '.join(str(fault).split())}"
    if not done:
        target.unlink(missing_ok=True)
        raise OutputError(
            f"{target}: the geometry kernel could not write the STEP file ({why}); all else holds"
        )


def _written(solid: Solid, target: Path, title: str) -> bool:
    """Let the kernel write the file; whether it says that all went well."""
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.STEPControl import STEPControl_StepModelType

    writer = _writer()
    if not writer.Transfer(_document(solid, title), STEPControl_StepModelType.STEPControl_AsIs):
        return False
    _number_parts(writer)
    _set_header(writer, title)
    return bool(writer.Write(str(target)) == IFSelect_ReturnStatus.IFSelect_RetDone)


def _document(solid: Solid, title: str) -> Any:
    """Kernel document with one assembly: names live there, not on shapes."""
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDocStd import TDocStd_Document
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    root = shapes.NewShape()
    TDataStd_Name.Set_s(root, TCollection_ExtendedString(title))
    for name, body in solid.bodies:
        part = shapes.AddShape(body.wrapped, False)
        TDataStd_Name.Set_s(part, TCollection_ExtendedString(name))
        component = shapes.AddComponent(root, part, TopLoc_Location())
        TDataStd_Name.Set_s(component, TCollection_ExtendedString(name))
    shapes.UpdateAssemblies()
    return document


def _writer() -> Any:
    """Kernel writer with all settings named: they are global to the process and another part may have set them."""
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.XSControl import XSControl_WorkSession

    writer = STEPCAFControl_Writer(XSControl_WorkSession(), False)
    writer.SetNameMode(True)
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    Interface_Static.SetCVal_s("xstep.cascade.unit", "MM")
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 1)
    Interface_Static.SetIVal_s("write.precision.mode", 0)
    return writer


def _number_parts(writer: Any) -> None:
    """Count the parts of the assembly from 1: the kernel goes on counting from the file before."""
    from OCP.StepRepr import StepRepr_NextAssemblyUsageOccurrence
    from OCP.TCollection import TCollection_HAsciiString

    model = writer.ChangeWriter().Model()
    entities = (model.Value(number) for number in range(1, model.NbEntities() + 1))
    parts = (entity for entity in entities if isinstance(entity, StepRepr_NextAssemblyUsageOccurrence))
    for number, part in enumerate(parts, start=1):
        part.SetId(TCollection_HAsciiString(str(number)))


def _set_header(writer: Any, title: str) -> None:
    from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
    from OCP.TCollection import TCollection_HAsciiString

    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    header.SetName(TCollection_HAsciiString(title))
    header.SetTimeStamp(TCollection_HAsciiString(_TIME_STAMP))
    header.SetAuthorValue(1, TCollection_HAsciiString(""))
    header.SetOrganizationValue(1, TCollection_HAsciiString(""))
    header.SetPreprocessorVersion(TCollection_HAsciiString("edgewright, geometry kernel OCCT"))
    header.SetOriginatingSystem(TCollection_HAsciiString("edgewright"))
    header.SetDescriptionValue(1, TCollection_HAsciiString("finished top and strips, millimetres"))
