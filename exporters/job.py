"""A job in the middle, on the command line and on the screen."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from exporters.batch import Batch
from exporters.designs import Design
from exporters.revision.report import verdict_lines
from furniture.errors import DesignError, Problem, TargetError
from furniture.job.boards_now import boards_now, listed_boards
from furniture.job.equations import Why
from furniture.job.figures import Figure, designed_mm, play_of_openings, sizes_of
from furniture.job.going_on import GoingOn, gone_on_with
from furniture.job.job_file import read_job
from furniture.job.standing import Choice, Gave
from furniture.job.template import job_template
from furniture.making.bench.squareness import out_of_square
from furniture.pieces import Piece
from furniture.rules import ShopRules
from furniture.shop.boards import MeasuredBoard
from furniture.shop.tools.values import ShopRead
from furniture.units import Shown, figure_with_unit, listed

GivenBoards = Sequence[MeasuredBoard] | Path | str


class _Composed:
    """A piece that is composed already: nothing in it gives."""

    def __init__(self, piece: Piece) -> None:
        self._piece = piece

    def build(self, rules: ShopRules | None = None) -> Piece:
        return self._piece


def going_on(
    design: Design | Piece | Batch,
    path: Path,
    out: Path,
    boards: GivenBoards,
    rules: ShopRules | None,
    shop: ShopRead,
) -> GoingOn:
    """The job of a job file gone on with.

    Args:
        design: as the script hands it on.
        path: of the job file.
        out: the folder that is written.
        boards: as the script lists them.
        rules: the shop's own limits.
        shop: what is on hand.

    Raises:
        DesignError: with every problem of the design, or else of the file, or else of the job.
    """
    if isinstance(design, Batch):
        raise DesignError([Problem(
            parameter="--job", given="a batch", allowed="one piece",
            why="a job file tells of the parts of one piece", remedy="hand main that piece",
        )])  # fmt: skip
    buildable = _Composed(design) if isinstance(design, Piece) else design
    piece = buildable.build(rules)
    job = read_job(path, design, piece, listed_boards(boards))
    if job.packet is not None and job.packet.resolve() == out.resolve():
        raise DesignError([Problem(
            parameter="--out", given=str(out), allowed="another folder than that of the packet",
            why="the numbers of the packet that you work by would be gone", remedy=f"--out {out}-2",
        )])  # fmt: skip
    return gone_on_with(buildable, job, rules, shop.saw, listed_boards(boards))


def boards_left(boards: GivenBoards, going: GoingOn) -> GivenBoards:
    """What there is to cut from; boards that cannot be read are left to be told where they are.

    Args:
        boards: as the script lists them.
        going: the job.
    """
    there = listed_boards(boards)
    return boards if boards and not there else boards_now(there, going.job, going.piece)


def write_template(path: Path, piece: Piece, boards: GivenBoards, out: Path) -> None:
    """A job file to fill in.

    Args:
        path: that must not be there yet.
        piece: as it is designed.
        boards: as the script lists them.
        out: the folder of the packet that the job is worked by.

    Raises:
        TargetError: it is there, or cannot be written.
    """
    packet = Path(os.path.relpath(out, path.parent)).as_posix()
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(job_template(piece, packet, listed_boards(boards)))
    except FileExistsError as error:
        raise TargetError(f"{path} is there already, and may be filled in: name another") from error
    except OSError as error:
        raise TargetError(f"{path} cannot be written: {error.strerror or error}") from error


def job_lines(going: GoingOn) -> Iterator[str]:
    """What the screen tells first: figures that were measured, what gave, what is done.

    Args:
        going: the job.
    """
    piece, designed = going.piece, going.stands.designed
    sizes, plays = sizes_of(designed), play_of_openings(designed)
    for figure, value in going.job.measured.items():
        was = figure_with_unit(designed_mm(figure, sizes, plays), piece.shown)
        yield f"measured: {figure.name} {figure_with_unit(value, piece.shown)} (designed {was})"
    yield from _squareness_lines(going)
    for gave in going.stands.gave:
        yield from _gave_lines(gave, piece.shown)
    if going.verdicts:
        yield from ("done:", *verdict_lines(going.verdicts, piece))
    if piece.in_hand:
        laid = listed([each.instance for each in piece.placed if each.instance in piece.in_hand])
        yield f"wood is in hand, or keeps its place by the earlier board sheets: {laid}"


def _squareness_lines(going: GoingOn) -> Iterator[str]:
    """How far an opening is out of square, and what to do about it."""
    shown = going.piece.shown
    sizes, plays = sizes_of(going.piece), play_of_openings(going.piece)
    for name, (first, second) in going.job.diagonals.items():
        along, across = (
            going.job.measured.get(figure, designed_mm(figure, sizes, plays))
            for figure in (Figure(instance=name, axis=0, is_opening=True),
                           Figure(instance=name, axis=1, is_opening=True))
        )  # fmt: skip
        found = out_of_square(along, across, first, second, going.piece.rules)
        if found.is_square:
            yield f"{name} opening: square"
            continue
        target = figure_with_unit(found.target_mm, shown)
        shift = figure_with_unit(found.shift_mm, shown)
        longer = figure_with_unit(max(first, second), shown)
        yield (
            f"{name} opening: out of square by {shift} over its width. Before the glue sets, clamp "
            f"lightly across the diagonal of {longer} until both read {target}. Once it has set, "
            f"take {shift} off {name} at two corners, those that point to the shorter diagonal's "
            "ends, tapering to nothing across each end."
        )


def _gave_lines(gave: Gave, shown: Shown) -> Iterator[str]:
    if gave.choice is None:
        return
    held = "keep" if gave.equation.why is Why.DONE else "meet"
    yield f"to {held} {gave.equation.figure.name}: {_told(gave.choice, shown)}"
    for other in gave.others:
        instead = f"{gave.equation.figure.key!r} = {other.lever.name!r}"
        yield f"  or [free] {instead}: {_told(other, shown)}"


def _told(choice: Choice, shown: Shown) -> str:
    was, now = (figure_with_unit(each, shown) for each in (choice.lever.value_mm, choice.to_mm))
    spoiled = f"; alone it would spoil {listed(choice.broken)}" if choice.broken else ""
    return f"{choice.lever.name} {was} -> {now}, changes {listed(choice.changed)}{spoiled}"
