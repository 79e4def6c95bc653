"""pictures/boards.png: all boards on one page, in colour, to look at before the first cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, product
from pathlib import Path
from typing import Any

from exporters.colours import Colour, colour_of_species
from exporters.cutting.kerfs import kerf_shapes
from exporters.cutting.steps import offcut_key
from exporters.cutting.words import better_line, money, stock_of, unplaced_heading, unplaced_lines
from exporters.grain.board import dots_of
from exporters.grain.wood import Wood
from exporters.pdf.fonts import drawable
from exporters.subject import Subject
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan, Rectangle
from furniture.shop.cutting.values import Board, ZoneKind
from furniture.shop.cutting.zones import outline_of
from furniture.units import figure_with_unit, fitted_with_unit

ZONE_LOOKS: dict[ZoneKind, tuple[Colour, str, str]] = {
    ZoneKind.KNOT: ((0.30, 0.17, 0.09), "xxxx", "-"),
    ZoneKind.CHECK: ((0.10, 0.10, 0.10), "||||", "-"),
    ZoneKind.SAPWOOD: ((1.00, 0.97, 0.86), "//", "-"),
    ZoneKind.WANE: ((0.45, 0.36, 0.27), "\\\\", "-"),
    ZoneKind.STAIN: ((0.35, 0.40, 0.50), "..", "-"),
    ZoneKind.PITH: ((0.40, 0.25, 0.12), "--", "-"),
    ZoneKind.HOLE: ((0.20, 0.20, 0.20), "oo", "-"),
    ZoneKind.FIGURE: ((0.97, 0.83, 0.45), "", "-."),
    ZoneKind.EVEN_GRAIN: ((0.80, 0.88, 0.70), "", ":"),
}
"""Colour, hatch and outline of each kind of zone; they tell apart without the colour. Own rule.

What is worth having is not hatched, so that the wood in it is seen.
"""

_WIDE_IN, _DOTS_PER_INCH = 16.0, 110.0
_TITLE_IN, _GAP_IN, _FOOT_IN, _WARNING_IN = 0.75, 0.55, 0.6, 0.3
_ALARM: Colour = (0.75, 0.05, 0.05)


def write_boards_picture(
    of: Subject, outcome: CuttingOutcome, path: Path, woods: Mapping[str, Wood] | None = None
) -> Path:
    """The path of the picture written: every board to one scale, begun or not.

    Args:
        path: of the PNG file.
        woods: of the boards by name; one without is shown in its species' plain colour.

    Raises:
        OSError: the file cannot be written.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from PIL import Image

    boards = outcome.job.boards
    longest = max(board.length_mm for board in boards)
    margin = 0.35
    scale = (_WIDE_IN - 2 * margin) / longest  # inches of picture per mm of board
    heights = [board.greatest_width_mm * scale for board in boards]
    missing = unplaced_heading(outcome)
    warned = _WARNING_IN * (1 + len(unplaced_lines(outcome))) + 0.2 if missing else 0.0
    high = _TITLE_IN + warned + sum(heights) + _GAP_IN * len(boards) + _FOOT_IN
    picture = Figure(figsize=(_WIDE_IN, high), dpi=_DOTS_PER_INCH, facecolor="white")
    FigureCanvasAgg(picture)
    axes = picture.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(0.0, _WIDE_IN)
    axes.set_ylim(0.0, high)
    _title(axes, of, outcome, margin, high)
    if missing:
        _warning(axes, [missing, *unplaced_lines(outcome)], margin, high - _TITLE_IN, warned)
    top = high - _TITLE_IN - warned
    for board, height in zip(boards, heights, strict=True):
        wood = (woods or {}).get(board.name)
        _board(axes, outcome, board, (margin, top - _GAP_IN + 0.15 - height), scale, wood)
        top -= height + _GAP_IN
    _legend(axes, boards, margin, has_grain=bool(woods))
    picture.savefig(path, dpi=_DOTS_PER_INCH, metadata={"Software": None})
    with Image.open(path) as image:
        image.convert("RGB").save(path)
    return path


def _title(axes: Any, of: Subject, outcome: CuttingOutcome, left: float, high: float) -> None:
    plan = outcome.plan
    axes.text(
        left, high - 0.32, drawable(f"{of.name}: the boards before the first cut"), size=17,
        parse_math=False,
    )  # fmt: skip
    if plan is None:
        return
    line = f"{100 * plan.yield_share:.0f} % of these boards is used. {better_line(outcome)}"
    axes.text(left, high - 0.6, line, size=10.5)


def _warning(axes: Any, lines: list[str], left: float, top: float, high: float) -> None:
    """What has no place, white on red, over everything else."""
    from matplotlib.patches import Rectangle as Patch

    wide = _WIDE_IN - 2 * left
    axes.add_patch(Patch((left, top - high), wide, high, facecolor=_ALARM, linewidth=0, zorder=8))
    for index, line in enumerate(lines):
        y = top - 0.1 - (index + 0.5) * _WARNING_IN
        weight, letters = ("bold", 13.0) if index == 0 else ("normal", 10.5)
        letters = min(letters, 72.0 * wide / (0.62 * max(len(line), 1)))
        axes.text(
            left + 0.12, y, drawable(line), size=letters, weight=weight, color="white", va="center",
            zorder=9, parse_math=False,
        )  # fmt: skip


def _board(
    axes: Any, outcome: CuttingOutcome, board: Board, corner: tuple[float, float], scale: float,
    grain: Wood | None,
) -> None:  # fmt: skip
    from matplotlib.patches import Polygon

    job = outcome.job
    plan = next((each for each in outcome.used if each.board == board.name), None)
    planned = job.request.board_named[board.name]

    def at(x: float, y: float) -> tuple[float, float]:
        return (corner[0] + x * scale, corner[1] + y * scale)

    outline = [at(x, y) for x, y in outline_of(board)]
    wood = colour_of_species(board.species)
    axes.add_patch(Polygon(outline, facecolor=_paler(wood, 0.55), edgecolor="none", zorder=1))
    inside = Polygon(outline, facecolor="none", edgecolor="black", linewidth=1.4, zorder=6)
    axes.add_patch(inside)
    if grain is not None:
        _grain(axes, grain, board, at, inside, scale)
    if plan is not None:
        _parts(axes, outcome, plan, at, wood if grain is None else None, inside)
    for zone in board.zones:
        colour, hatch, dashes = ZONE_LOOKS[zone.kind]
        patch = Polygon(
            [at(x, y) for x, y in zone.outline],
            facecolor=(*colour, 0.55 if grain is None else 0.0),
            edgecolor=(0.2, 0.2, 0.2, 1.0 if grain is None else 0.55),
            hatch=hatch, linewidth=0.7 if hatch else 1.6, linestyle=dashes, zorder=3,
        )  # fmt: skip
        axes.add_patch(patch)
        patch.set_clip_path(inside)
    words = [
        f"Board {board.name}: {stock_of(job, planned.species)}",
        f"{figure_with_unit(board.length_mm, job.shown)} long",
        f"{fitted_with_unit(board.thickness_mm, job.shown)} thick",
    ]
    if board.price:
        words.append(money(board.price, job.currency))
    words.append("not begun" if plan is None else f"{100 * plan.yield_share:.0f} % used")
    if grain is not None and grain.told:
        words.append(grain.told)
    above = corner[1] + board.greatest_width_mm * scale + 0.08
    axes.text(corner[0], above, drawable(", ".join(words)), size=11.5, zorder=8, parse_math=False)


def _grain(axes: Any, grain: Wood, board: Board, at: Any, inside: Any, scale: float) -> None:
    """The board's upper face, and over it a veil that the parts are cut out of."""
    size = (board.length_mm, board.greatest_width_mm, board.thickness_mm)
    low, high = at(0.0, 0.0), at(board.length_mm, board.greatest_width_mm)
    shown = axes.imshow(
        dots_of(grain, size, 1.0 / (scale * _DOTS_PER_INCH)),
        extent=(low[0], high[0], low[1], high[1]), aspect="auto", zorder=1.2,
        interpolation="antialiased",
    )  # fmt: skip
    shown.set_clip_path(inside)
    axes.set_xlim(0.0, _WIDE_IN)


def _parts(
    axes: Any, outcome: CuttingOutcome, plan: BoardPlan, at: Any, wood: Colour | None, inside: Any
) -> None:
    """Kerfs, parts and what is kept; over real wood a veil lies on all that is not a part."""
    from matplotlib.patches import Polygon
    from matplotlib.patches import Rectangle as Patch

    board = outcome.job.board_named[plan.board]
    for cut in plan.cuts:
        for corners in kerf_shapes(cut, board):
            shape = [at(*corner) for corner in corners]
            axes.add_patch(Polygon(shape, facecolor="black", linewidth=0, zorder=5))
    laid = [outcome.laid(each) for each in plan.placements]
    usable = [each.place for each in plan.offcuts if each.is_usable]
    bare = (1.0, 1.0, 1.0, 0.0)
    if wood is None:
        whole = Rectangle(
            x_mm=0.0, y_mm=0.0, length_mm=board.length_mm, width_mm=board.greatest_width_mm
        )
        for place in _around(whole, [each.placement.place for each in laid]):
            low, wide, high = _size(place, at)
            veil = Patch(low, wide, high, facecolor=(1.0, 1.0, 1.0, 0.5), linewidth=0, zorder=1.5)
            axes.add_patch(veil)
            veil.set_clip_path(inside)
    pieces = [(each.placement.place, bare if wood is None else wood) for each in laid]
    pieces += [(place, bare if wood is None else _paler(wood, 0.75)) for place in usable]
    for place, colour in pieces:
        low, wide, high = _size(place, at)
        pen = 0.5 if wood is not None else 1.1
        patch = Patch(low, wide, high, facecolor=colour, edgecolor="black", linewidth=pen, zorder=2)
        axes.add_patch(patch)
        patch.set_clip_path(inside)
    names: list[tuple[str, Rectangle, float]] = []
    for each in laid:
        if not each.copy.is_common:
            names.append((outcome.name_of(each.placement), each.placement.place, 1.0))
            continue
        names += [(stretch.instance, own, 1.0) for stretch, own in each.places]
        for mark in each.marks_mm:
            place = each.placement.place
            foot, head = at(mark, place.y_mm), at(mark, place.y_end_mm)
            axes.plot(
                (foot[0], head[0]), (foot[1], head[1]), color="black", linewidth=0.6,
                linestyle=(0, (5, 4)), zorder=3,
            )  # fmt: skip
    names += [(f"keep {offcut_key(index)}", place, 0.85) for index, place in enumerate(usable)]
    for name, place, share in names:
        low, wide, high = _size(place, at)
        _name(axes, name, (low[0] + wide / 2, low[1] + high / 2), wide, high, share)


def _around(whole: Rectangle, parts: Sequence[Rectangle]) -> Iterator[Rectangle]:
    """The whole less the parts, as rectangles between all their edges."""
    xs = sorted({whole.x_mm, whole.x_end_mm, *(v for p in parts for v in (p.x_mm, p.x_end_mm))})
    ys = sorted({whole.y_mm, whole.y_end_mm, *(v for p in parts for v in (p.y_mm, p.y_end_mm))})
    for (x, x_end), (y, y_end) in product(pairwise(xs), pairwise(ys)):
        middle = ((x + x_end) / 2, (y + y_end) / 2)
        is_part = any(
            p.x_mm < middle[0] < p.x_end_mm and p.y_mm < middle[1] < p.y_end_mm for p in parts
        )
        if not is_part:
            yield Rectangle(x_mm=x, y_mm=y, length_mm=x_end - x, width_mm=y_end - y)


def _size(place: Rectangle, at: Any) -> tuple[tuple[float, float], float, float]:
    """The near corner of a place on the page, and how long and wide it is there [in]."""
    low, far = at(place.x_mm, place.y_mm), at(place.x_end_mm, place.y_end_mm)
    return low, far[0] - low[0], far[1] - low[1]


def _name(
    axes: Any, name: str, centre: tuple[float, float], wide: float, high: float, share: float
) -> None:
    """The name as large as its rectangle takes, in as many lines as reads best."""
    words = name.split()
    best: tuple[float, str, float] = (0.0, name, 0.0)
    for count in range(1, len(words) + 1):
        for text in _broken(words, count):
            for turn, (w, h) in ((0.0, (wide, high)), (90.0, (high, wide))):
                lines = text.split("\n")
                widest = max(len(line) for line in lines)
                points = 72.0 * min(0.92 * w / (0.60 * widest), 0.8 * h / (1.25 * len(lines)))
                points *= 1.0 if turn == 0.0 else 0.8
                if points > best[0] + 1e-9:
                    best = (points, text, turn)
    points, text, turn = best
    points = min(12.0, points if turn == 0.0 else points / 0.8) * share
    axes.text(
        *centre, drawable(text), size=points, parse_math=False, rotation=turn, ha="center",
        va="center", zorder=7,
        bbox={"facecolor": "white", "alpha": 0.6, "edgecolor": "none", "pad": 1.0},
    )  # fmt: skip


def _broken(words: list[str], count: int) -> list[str]:
    """The words in so many lines, as even as can be."""
    if count == 1:
        return [" ".join(words)]
    size = -(-len(words) // count)
    return ["\n".join(" ".join(words[i : i + size]) for i in range(0, len(words), size))]


def _legend(axes: Any, boards: tuple[Board, ...], left: float, *, has_grain: bool) -> None:
    from matplotlib.patches import Rectangle as Patch

    kinds = dict.fromkeys(zone.kind for board in boards for zone in board.zones)
    x = left
    for kind in kinds:
        colour, hatch, outline = ZONE_LOOKS[kind]
        axes.add_patch(
            Patch(
                (x, 0.22), 0.45, 0.24, facecolor=(*colour, 0.0 if has_grain else 0.55),
                edgecolor=(0.2, 0.2, 0.2), hatch=hatch, linewidth=0.7 if hatch else 1.6,
                linestyle=outline,
            )
        )  # fmt: skip
        axes.text(x + 0.53, 0.34, kind.value, size=11, va="center")
        x += 0.53 + 0.1 * len(kind.value) + 0.45
    axes.text(
        _WIDE_IN - left, 0.34, "left: where the tape was hooked on; below: the jointed edge",
        size=10, va="center", ha="right",
    )  # fmt: skip


def _paler(colour: Colour, share: float) -> Colour:
    red, green, blue = colour
    return (red + (1 - red) * share, green + (1 - green) * share, blue + (1 - blue) * share)
