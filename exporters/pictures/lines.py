"""A projected view as a picture: black lines on white, with no need of a graphics card."""

from __future__ import annotations

from pathlib import Path

from exporters.views.bounds import points_of
from exporters.views.values import EdgeClass, View

_DOTS_PER_INCH = 100.0
_WIDTH_POINTS = {EdgeClass.VISIBLE: 1.6, EdgeClass.SMOOTH: 0.6}
_MARGIN = 0.03


def write_lines(view: View, path: Path, long_side: int = 1600) -> Path:
    """The path of the picture written: the view's visible lines, hidden ones left out.

    Args:
        view: what is drawn.
        path: of the PNG file.
        long_side: of the picture [dots].

    Raises:
        OSError: the file cannot be written.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.collections import LineCollection
    from matplotlib.figure import Figure

    (left, bottom), (right, top) = view.low, view.high
    edge = _MARGIN * max(right - left, top - bottom)
    width, height = right - left + 2 * edge, top - bottom + 2 * edge
    inches = long_side / _DOTS_PER_INCH / max(width, height)
    figure = Figure(
        figsize=(width * inches, height * inches), dpi=_DOTS_PER_INCH, facecolor="white"
    )
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(left - edge, right + edge)
    axes.set_ylim(bottom - edge, top + edge)
    for edge_class, points in _WIDTH_POINTS.items():
        chains = [points_of(one.shape) for one in view.edges if one.edge_class is edge_class]
        axes.add_collection(
            LineCollection(chains, colors="black", linewidths=points, capstyle="round")
        )
    figure.savefig(path, dpi=_DOTS_PER_INCH, metadata={"Software": None})
    return path
