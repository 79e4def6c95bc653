"""Renders triangles off-screen. Run as a program of its own, so that a crash costs one picture.

It knows nothing of the project: arrays go in by a file, pictures come out.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import numpy as np

_SAMPLES = 2
"""The picture is rendered this many times as large each way, then averaged down."""
_EDGE = (0.16, 0.13, 0.10)
_EDGE_DOTS = 1.8
_MARGIN = 1.06
_AMBIENT = 0.42
_LIGHTS = (((-0.45, 0.5, 0.8), 0.62), ((0.9, 0.1, 0.8), 0.25))
"""Where the lights stand seen from the eye (right, up, towards it) and how strong they are.

Own choice: in an isometric the top is lightest, then the front, then the side.
"""


def render(job: Any) -> None:
    """Write every picture that the job asks for.

    Args:
        job: arrays by name: `parts`, then for each part `points_N`, `triangles_N`, `strokes_N`,
            `lengths_N` and `colour_N`; `pictures`, then for each `path_N`, `right_N`, `up_N` and
            `long_side_N`.
    """
    # the back end registers itself when it is imported
    import vtkmodules.vtkRenderingOpenGL2  # noqa: F401
    from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow

    renderer = vtkRenderer()
    renderer.SetBackground(1.0, 1.0, 1.0)
    for index in range(int(job["parts"])):
        renderer.AddActor(_wood(job, index))
        renderer.AddActor(_edges(job, index))
    _light(renderer)
    points = np.vstack([job[f"points_{index}"] for index in range(int(job["parts"]))])
    window = vtkRenderWindow()
    window.SetOffScreenRendering(1)
    window.SetMultiSamples(0)
    window.AddRenderer(renderer)
    for index in range(int(job["pictures"])):
        right, up = job[f"right_{index}"], job[f"up_{index}"]
        low, high = (points @ right).min(), (points @ right).max()
        bottom, top = (points @ up).min(), (points @ up).max()
        wide, tall = (high - low) * _MARGIN, (top - bottom) * _MARGIN
        scale = float(job[f"long_side_{index}"]) / max(wide, tall)
        window.SetSize(*(_SAMPLES * round(side * scale) for side in (wide, tall)))
        middle = right * (low + high) / 2 + up * (bottom + top) / 2
        _aim(renderer, right, up, middle, tall / 2, float(np.ptp(points)))
        window.Render()
        _save(window, Path(str(job[f"path_{index}"])))


def _wood(job: Any, index: int) -> Any:
    from vtkmodules.util.numpy_support import numpy_to_vtk, numpy_to_vtkIdTypeArray
    from vtkmodules.vtkCommonCore import vtkPoints
    from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
    from vtkmodules.vtkRenderingCore import vtkActor, vtkPolyDataMapper

    points, triangles = job[f"points_{index}"], job[f"triangles_{index}"]
    corners = points[triangles]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    held = vtkPoints()
    held.SetData(numpy_to_vtk(np.ascontiguousarray(points), deep=True))
    cells = vtkCellArray()
    flat = np.hstack([np.full((len(triangles), 1), 3), triangles]).astype(np.int64).ravel()
    cells.ImportLegacyFormat(numpy_to_vtkIdTypeArray(flat, deep=True))
    mesh = vtkPolyData()
    mesh.SetPoints(held)
    mesh.SetPolys(cells)
    mesh.GetPointData().SetNormals(numpy_to_vtk(_smoothed(points, triangles, normals), deep=True))
    mapper = vtkPolyDataMapper()
    mapper.SetInputData(mesh)
    mapper.SetResolveCoincidentTopologyToPolygonOffset()
    actor = vtkActor()
    actor.SetMapper(mapper)
    look = actor.GetProperty()
    look.SetColor(*(float(value) for value in job[f"colour_{index}"]))
    look.SetAmbient(_AMBIENT)
    look.SetDiffuse(1.0)
    look.SetSpecular(0.0)
    return actor


def _smoothed(points: Any, triangles: Any, normals: Any) -> Any:
    """Normals at the points: faces do not share points, so flat ones stay flat, curves smooth."""
    summed = np.zeros_like(points)
    for corner in range(3):
        np.add.at(summed, triangles[:, corner], normals)
    size = np.linalg.norm(summed, axis=1, keepdims=True)
    return np.ascontiguousarray(summed / np.where(size > 0, size, 1.0))


def _edges(job: Any, index: int) -> Any:
    from vtkmodules.util.numpy_support import numpy_to_vtk, numpy_to_vtkIdTypeArray
    from vtkmodules.vtkCommonCore import vtkPoints
    from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
    from vtkmodules.vtkRenderingCore import vtkActor, vtkPolyDataMapper

    strokes, lengths = job[f"strokes_{index}"], job[f"lengths_{index}"]
    held = vtkPoints()
    held.SetData(numpy_to_vtk(np.ascontiguousarray(strokes), deep=True))
    flat: list[int] = []
    at = 0
    for length in (int(value) for value in lengths):
        flat += [length, *range(at, at + length)]
        at += length
    cells = vtkCellArray()
    cells.ImportLegacyFormat(numpy_to_vtkIdTypeArray(np.array(flat, dtype=np.int64), deep=True))
    mesh = vtkPolyData()
    mesh.SetPoints(held)
    mesh.SetLines(cells)
    mapper = vtkPolyDataMapper()
    mapper.SetInputData(mesh)
    actor = vtkActor()
    actor.SetMapper(mapper)
    look = actor.GetProperty()
    look.SetColor(*_EDGE)
    look.SetLineWidth(_EDGE_DOTS * _SAMPLES)
    look.LightingOff()
    return actor


def _light(renderer: Any) -> None:
    from vtkmodules.vtkRenderingCore import vtkLight

    for place, strength in _LIGHTS:
        light = vtkLight()
        light.SetLightTypeToCameraLight()
        light.SetPosition(*place)
        light.SetFocalPoint(0.0, 0.0, 0.0)
        light.SetIntensity(strength)
        renderer.AddLight(light)


def _aim(renderer: Any, right: Any, up: Any, middle: Any, half_height: float, reach: float) -> None:
    eye = middle + np.cross(right, up) * 4.0 * reach
    camera = renderer.GetActiveCamera()
    camera.ParallelProjectionOn()
    camera.SetFocalPoint(*middle)
    camera.SetPosition(*eye)
    camera.SetViewUp(*up)
    camera.SetParallelScale(half_height)
    renderer.ResetCameraClippingRange()


def _save(window: Any, path: Path) -> None:
    from PIL import Image
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkRenderingCore import vtkWindowToImageFilter

    shot = vtkWindowToImageFilter()
    shot.SetInput(window)
    shot.ReadFrontBufferOff()
    shot.Update()
    data = shot.GetOutput()
    width, height, _ = data.GetDimensions()
    grid = vtk_to_numpy(data.GetPointData().GetScalars()).reshape(height, width, -1)[::-1, :, :3]
    summed = np.zeros((height // _SAMPLES, width // _SAMPLES, 3), dtype=np.uint16)
    for row in range(_SAMPLES):
        for column in range(_SAMPLES):
            summed += grid[row::_SAMPLES, column::_SAMPLES]
    Image.fromarray((summed // _SAMPLES**2).astype(np.uint8)).save(path)


if __name__ == "__main__":
    with np.load(sys.argv[1], allow_pickle=False) as loaded:
        render(loaded)
