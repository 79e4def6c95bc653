"""Which paper a drawing document is printed on, and where its model space comes to lie."""

from __future__ import annotations

from dataclasses import dataclass

from ezdxf.document import Drawing
from ezdxf.entities import Viewport
from ezdxf.layouts import Paperspace

from furniture.parts.vectors import Point2

_INCH_MM = 25.4


@dataclass(frozen=True, slots=True, kw_only=True)
class PdfPage:
    """A drawing document and how its model space lies on one page.

    Args:
        document: the drawing, in millimetres.
        paper_mm: width and height of the page [mm].
        scale: how many mm of model space one mm of paper shows (10 for 1:10).
        model_origin: the point of model space at the page's lower left corner [mm].
    """

    document: Drawing
    paper_mm: tuple[float, float]
    scale: float
    model_origin: Point2 = (0.0, 0.0)


def page_of(document: Drawing) -> PdfPage:
    """The page that the document's first paper-space layout and its one viewport ask for.

    Args:
        document: a drawing in millimetres whose layout has its page set up.

    Raises:
        ValueError: no layout, not exactly one viewport, a turned view, or no paper size.
    """
    layout = _first_layout(document)
    limits = layout.dxf_layout.dxf
    paper = (float(limits.paper_width), float(limits.paper_height))
    if min(paper) <= 0.0:
        raise ValueError(f"layout {layout.name!r} has no paper size")
    viewports = [port for port in layout.query("VIEWPORT") if port.dxf.get("id", 2) != 1]
    if len(viewports) != 1:
        raise ValueError(f"layout {layout.name!r} has {len(viewports)} viewports, not one")
    port = viewports[0]
    assert isinstance(port, Viewport)
    if abs(port.dxf.get("view_twist_angle", 0.0)) > 1e-9:
        raise ValueError(f"the viewport of layout {layout.name!r} is turned")
    unit = _INCH_MM if limits.plot_paper_units == 0 else 1.0
    scale = float(port.dxf.view_height) / (float(port.dxf.height) * unit)
    corner, _ = layout.get_paper_limits()
    centre, seen = port.dxf.center, port.dxf.view_center_point
    return PdfPage(
        document=document,
        paper_mm=paper,
        scale=scale,
        model_origin=(
            float(seen.x - (centre.x - corner.x) * unit * scale),
            float(seen.y - (centre.y - corner.y) * unit * scale),
        ),
    )


def _first_layout(document: Drawing) -> Paperspace:
    for name in document.layouts.names_in_taborder():
        layout = document.layouts.get(name)
        if isinstance(layout, Paperspace):
            return layout
    raise ValueError("the document has no paper-space layout")
