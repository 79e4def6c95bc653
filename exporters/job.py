"""A job in the middle, on the command line and on the screen."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from exporters.batch import BuiltBatch
from exporters.designs import Design
from exporters.faces import FaceNames
from exporters.revision.against import Against
from exporters.revision.in_the_work import NOWHERE, InTheWork
from exporters.revision.report import change_lines, verdict_lines
from exporters.work.fitted import gap_in_words
from furniture.errors import DesignError, Problem, TargetError
from furniture.job import Say, Verdict
from furniture.job.boards_now import boards_now, listed_boards
from furniture.job.choices import Choice, Gave
from furniture.job.done import SAME_MM
from furniture.job.equations import Why
from furniture.job.figures import AXES, Figure, Of, designed_mm, plays_of, sizes_of
from furniture.job.going_on import GoingOn, gone_on_with
from furniture.job.job import Job
from furniture.job.job_file import read_job
from furniture.job.solving import Buildable
from furniture.job.template import job_template
from furniture.making.bench.squareness import out_of_square
from furniture.pieces import Piece
from furniture.rules import ShopRules
from furniture.shop.boards import MeasuredBoard
from furniture.shop.tools.values import ShopRead
from furniture.units import Shown, figure_with_unit, fitted_with_unit, listed

GivenBoards = Sequence[MeasuredBoard] | Path | str


class _Composed:
    """A piece that is composed already: nothing in it gives."""

    def __init__(self, piece: Piece) -> None:
        self._piece = piece

    def build(self, rules: ShopRules | None = None) -> Piece:
        return self._piece


def buildable_of(design: Design | Piece) -> Buildable:
    """The design, or a piece that is composed already.

    Args:
        design: as the script hands it on.
    """
    return _Composed(design) if isinstance(design, Piece) else design


def going_on(
    design: Design | Piece,
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
    buildable = buildable_of(design)
    piece = buildable.build(rules)
    job = read_job(path, design, piece, listed_boards(boards))
    refuse_same(job.packet, out)
    return gone_on_with(buildable, job, rules, shop.saw, listed_boards(boards))


def refuse_same(packet: Path | None, out: Path) -> None:
    """Refuse to write over the packet that is worked by.

    Args:
        packet: that is worked by.
        out: the folder that is written.

    Raises:
        DesignError: they are one.
    """
    if packet is not None and packet.resolve() == out.resolve():
        raise DesignError([Problem(
            parameter="--out", given=str(out), allowed="another folder than that of the packet",
            why="the numbers of the packet that you work by would be gone", remedy=f"--out {out}-2",
        )])  # fmt: skip


def boards_left(boards: GivenBoards, going: GoingOn) -> GivenBoards:
    """What there is to cut from; boards that cannot be read are left to be told where they are.

    Args:
        boards: as the script lists them.
        going: the job.
    """
    there = going.job.worked.before.boards_of(listed_boards(boards))
    return boards if boards and not there else boards_now(there, going.job, {"": going.piece})


def write_template(path: Path, work: Piece | BuiltBatch, boards: GivenBoards, out: Path) -> None:
    """A job file to fill in.

    Args:
        path: that must not be there yet.
        work: as it is designed.
        boards: as the script lists them.
        out: the folder of the packet that the job is worked by.

    Raises:
        TargetError: it is there, or cannot be written.
    """
    pieces = {"": work} if isinstance(work, Piece) else {e.mark: e.piece for e in work.lots}
    packet = Path(os.path.relpath(out, path.parent)).as_posix()
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(job_template(work.name, pieces, packet, listed_boards(boards), _between))
    except FileExistsError as error:
        raise TargetError(f"{path} is there already, and may be filled in: name another") from error
    except OSError as error:
        raise TargetError(f"{path} cannot be written: {error.strerror or error}") from error


def _between(piece: Piece, figure: Figure) -> str:
    return gap_in_words(piece, FaceNames(piece=piece), figure)


def job_lines(
    going: GoingOn, work: InTheWork = NOWHERE, against: Against | None = None
) -> Iterator[str]:
    """What the screen tells first: figures that were measured, what gave, what is done.

    Args:
        going: the job.
        work: in whose set-ups a done part is trimmed.
        against: what the whole piece is told against besides, where the maker asked for that.
    """
    piece = going.piece
    yield from mark_lines(going.job)
    yield from _figure_lines(going)
    yield from _standing_lines(going)
    for gave in going.stands.gave:
        yield from (*_taken_lines(gave, piece.shown), *_instead_lines(gave, piece.shown))
    if going.verdicts:
        yield from ("done:", *verdict_lines(going.verdicts, piece, work))
    if going.not_cut:
        changed = listed([each.instance for each in going.not_cut])
        yield f"not cut yet, and changed: {changed}: make them by their new sheets"
    yield from _in_hand_lines(piece)
    if against is not None and _changes(against.verdicts) != _changes(
        (*going.verdicts, *going.not_cut)
    ):
        yield from change_lines(against, piece, work)


def mark_lines(job: Job) -> Iterator[str]:
    """Of which work the numbers are, where the file does not say it.

    Args:
        job: of a piece, or of the boards of a batch.
    """
    if job.is_unmarked:
        mark = job.worked.mark
        yield (
            f"numbers: taken for those of work {mark} in {job.packet}; with work = "
            f'"{mark}" under [done] they are refused should that folder be written anew'
        )


def _in_hand_lines(piece: Piece) -> Iterator[str]:
    if piece.in_hand:
        laid = listed([each.instance for each in piece.placed if each.instance in piece.in_hand])
        yield f"wood is in hand, or keeps its place by the earlier board sheets: {laid}"


def _changes(verdicts: Sequence[Verdict]) -> list[Verdict]:
    return [each for each in verdicts if each.say is not Say.AS_IS]


def measured_lines(going: GoingOn) -> Iterator[str]:
    """What was measured, what gave for it, without what else could have, and what keeps its wood.

    Args:
        going: the job.
    """
    yield from mark_lines(going.job)
    yield from _figure_lines(going)
    yield from _standing_lines(going)
    for gave in going.stands.gave:
        yield from _taken_lines(gave, going.piece.shown)
    yield from _in_hand_lines(going.piece)


def _figure_lines(going: GoingOn) -> Iterator[str]:
    designed, shown = going.stands.designed, going.piece.shown
    sizes, plays, now = sizes_of(designed), plays_of(designed), plays_of(going.piece)
    for figure, value in going.job.measured.items():
        was = figure_with_unit(designed_mm(figure, sizes, plays), shown)
        yield f"measured: {figure.name} {figure_with_unit(value, shown)} (designed {was})"
        at = (figure.instance, figure.axis)
        if figure.is_room and abs(now[at] - plays[at]) > SAME_MM:
            has, meant = (figure_with_unit(each, shown) for each in (now[at], plays[at]))
            yield f"  {figure.instance} has {has} of play there in all (designed {meant})"
    yield from _squareness_lines(going)


def _standing_lines(going: GoingOn) -> Iterator[str]:
    """What is made and is drawn a little otherwise, since what it frames was measured."""
    shown = going.piece.shown
    alike: dict[tuple[str, str, str], list[str]] = {}
    for (name, axis), (made, stands) in going.stands.as_they_stand.items():
        figures = fitted_with_unit(stands, shown), fitted_with_unit(made, shown)
        alike.setdefault((AXES[axis], *figures), []).append(name)
    for (size, stands_at, made_at), names in alike.items():
        yield (
            f"as it stands: {size} of {listed(names)} drawn as {stands_at} (made {made_at}), so "
            "that what is measured fits; nothing is cut on it for that"
        )


def _squareness_lines(going: GoingOn) -> Iterator[str]:
    """How far an opening is out of square, and what to do about it."""
    shown = going.piece.shown
    sizes, plays = sizes_of(going.piece), plays_of(going.piece)
    for name, (first, second) in going.job.diagonals.items():
        along, across = (
            going.job.measured.get(figure, designed_mm(figure, sizes, plays))
            for figure in (Figure(instance=name, axis=0, of=Of.OPENING),
                           Figure(instance=name, axis=1, of=Of.OPENING))
        )  # fmt: skip
        found = out_of_square(along, across, first, second, going.piece.rules)
        if found.is_square:
            yield f"{name} opening: square"
            continue
        target = figure_with_unit(found.target_mm, shown)
        shift = figure_with_unit(found.shift_mm, shown)
        longer = figure_with_unit(max(first, second), shown)
        yield (
            f"{name} opening: out of square by {shift} over its width, "
            f"{found.corner_deg:.2f}°. Before the glue sets, clamp "
            f"lightly across the diagonal of {longer} until both read {target}. Once it has set, "
            f"take {shift} off {name} at two corners, those that point to the shorter diagonal's "
            "ends, tapering to nothing across each end."
        )


def _taken_lines(gave: Gave, shown: Shown) -> Iterator[str]:
    if gave.choice is None:
        return
    held, figure = "keep" if gave.equation.why is Why.DONE else "meet", gave.equation.figure
    yield f"to {held} {figure.name}: {_told(gave.choice, shown)}"
    if figure.is_room and gave.choice.changed == (figure.instance,):
        yield (
            f"  {figure.instance} keeps the designed play in its real {figure.of.value}; the frame "
            "is drawn as designed, so the drawn gap takes up what it is off"
        )


def _instead_lines(gave: Gave, shown: Shown) -> Iterator[str]:
    """What else could have given: what spoils done parts in one line, since few will want it."""
    for each in gave.passed_over:
        yield f"  not {each.choice.lever.name}, with which {each.why}"
    key = repr(gave.equation.figure.key)
    for other in gave.others:
        if not other.broken:
            yield f"  or [free] {key} = {other.lever.name!r}: {_told(other, shown)}"
    spoiling = [each for each in gave.others if each.broken]
    if spoiling:
        names = ", ".join(repr(each.lever.name) for each in spoiling)
        spoilt = listed(list(dict.fromkeys(name for each in spoiling for name in each.broken)))
        yield f"  or [free] {key} = {names}, which would spoil done parts: {spoilt}"


def _told(choice: Choice, shown: Shown) -> str:
    was, now = (figure_with_unit(each, shown) for each in (choice.lever.value_mm, choice.to_mm))
    spoiled = f"; alone it would spoil {listed(choice.broken)}" if choice.broken else ""
    return f"{choice.lever.name} {was} -> {now}, changes {listed(choice.changed)}{spoiled}"
