"""Pictures of triangles by plain arithmetic: no display, no card, the same dots each time."""

from exporters.render.camera import Camera, level, three_quarter
from exporters.render.frame import Frame, framed
from exporters.render.light import Lighting
from exporters.render.render import Rendered, render

__all__ = [
    "Camera",
    "Frame",
    "Lighting",
    "Rendered",
    "framed",
    "level",
    "render",
    "three_quarter",
]
