"""What a plan tells, in words and rows, before any paper or page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from exporters.cutting.words import money, purchase_line, stock_of, unplaced_heading
from exporters.facts import Facts
from exporters.plan.work_rows import WorkRow, work_rows
from exporters.report.plan import Plan, plan_of_piece
from exporters.report.standing import standing_answer
from exporters.report.words import (
    GUIDANCE,
    VERDICT_WORDS,
    amiss,
    at_the_bench,
    happens,
    nearest,
    noted,
    worst_of_each,
)
from exporters.work.checklist import MachineHead
from exporters.work.finish_words import used_up_in_words
from exporters.work.rig_words import rig_in_words
from furniture.checks.finding import Finding, Show
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.tall import StandsOn
from furniture.making.settings import Machine
from furniture.pieces.bought import bought_parts, size_in_words
from furniture.pieces.piece import Stance, distinct_parts, extents_of, timbers_of
from furniture.units import figure_with_unit, finished_size, fitted_with_unit


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """A distinct part: number, name, how many, finished size and stock, and its instances."""

    number: int
    id: str
    name: str
    quantity: int
    size: str
    stock: str
    instances: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A finding in a sentence: its verdict, what happens, and what to do."""

    verdict: str
    sentence: str
    advice: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What is told on one subject; without lines it is in order."""

    subject: str
    lines: tuple[Told, ...]
    nearest: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What the picture of the piece from above shows, and how it says its lengths."""

    plan: Plan
    show: Show


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """Everything that a plan tells.

    Args:
        name: of the piece.
        lines: its sizes, what it is made of, what it bears.
        stands: whether it stands, in a sentence.
        parts: its parts.
        size_heading: what the sizes of parts are, with their unit.
        wood: what wood is needed.
        cutters: machines and cutters that are made ready.
        bought: hardware, glue and finish.
        work: step by step.
        standing: the piece from above, on what it stands; None where it does not stand.
        checks: by subject.
        cautions: what may hurt, each once.
        dated: day and revision.
    """

    name: str
    lines: tuple[str, ...]
    stands: str
    parts: tuple[PartRow, ...]
    size_heading: str
    wood: tuple[str, ...]
    cutters: tuple[str, ...]
    bought: tuple[str, ...]
    work: tuple[WorkRow, ...]
    standing: Standing | None
    checks: tuple[Judged, ...]
    cautions: tuple[str, ...]
    dated: str


def contents_of(facts: Facts) -> Contents:
    """What the plan of a piece tells.

    Args:
        facts: with its masses, order, checks and making.
    """
    piece = facts.piece
    show = shown_by(piece)
    work = tuple(work_rows(facts.piece, facts.work))
    return Contents(
        name=piece.name,
        lines=tuple(_sizes(facts)),
        stands=standing_answer(facts.groups, show).sentence if facts.groups else "",
        parts=tuple(
            PartRow(
                number=number,
                id=each.part.id,
                name=each.part.name,
                quantity=each.quantity,
                size=finished_size(each.part.blank.size, piece.shown),
                stock=each.part.timber.name,
                instances=each.instances,
            )
            for number, each in enumerate(distinct_parts(piece), start=1)
        ),
        size_heading=f"finished L x W x T [{piece.shown.unit.symbol}]",
        wood=tuple(_wood(facts)),
        cutters=tuple(_cutters(facts)),
        bought=tuple(_bought(facts)),
        work=work,
        standing=_standing(facts),
        checks=tuple(_judged(group, facts) for group in facts.groups),
        cautions=tuple(
            dict.fromkeys(
                (
                    *(
                        f"{caution[:1].upper()}{caution[1:]}."
                        for row in work
                        if isinstance(row, MachineHead)
                        for caution in row.cautions
                    ),
                    GUIDANCE,
                )
            )
        ),
        dated=f"{facts.settings.dated.isoformat()}, revision {facts.settings.revision}",
    )


def _where(facts: Facts) -> str:
    """What the piece hangs on or stands on, where it will be."""
    if facts.piece.stance is Stance.WALL:
        return facts.piece.stance.value
    is_on_table = facts.settings.setting.stands_on is StandsOn.TABLE
    return "stands on a table" if is_on_table else facts.piece.stance.value


def _sizes(facts: Facts) -> Iterator[str]:
    piece = facts.piece
    low, high = extents_of(piece)
    wide, deep, tall = (
        figure_with_unit(b - a, piece.shown) for a, b in zip(low, high, strict=True)
    )
    yield f"{wide} wide, {deep} deep, {tall} high as cut"
    show = shown_by(piece)
    if facts.weighed is not None:
        bears = ""
        if piece.loads:
            bears = f", made to bear {show.mass(sum(each.mass_kg for each in piece.loads))}"
        yield f"{show.mass(facts.weighed.whole.mass_kg)} by itself{bears}; {_where(facts)}"
    species = dict.fromkeys(each.species.name for each in timbers_of(piece))
    yield f"{len(piece.placed)} parts of {', '.join(species)}"


def _wood(facts: Facts) -> Iterator[str]:
    piece, cutting = facts.piece, facts.cutting
    if cutting is not None and cutting.plan is not None:
        job = cutting.job
        planned = job.request.board_named
        boards = {each.name: each for each in job.boards}
        for used in cutting.used:
            board = boards[used.board]
            price = f", {money(board.price, job.currency)}" if board.price else ""
            yield (
                f"board {board.name}, {stock_of(job, planned[board.name].species)}: "
                f"{figure_with_unit(board.length_mm, piece.shown)} x "
                f"{figure_with_unit(board.greatest_width_mm, piece.shown)}, "
                f"{fitted_with_unit(board.thickness_mm, piece.shown)} thick{price}; "
                f"{100 * used.yield_share:.0f} % of it is used{_by_photo(facts, board.name)}"
            )
        if heading := unplaced_heading(cutting):
            yield heading
    if cutting is not None:
        yield from (f"to buy: {purchase_line(each, cutting.job)}" for each in cutting.to_buy)
    if cutting is None:
        for timber in timbers_of(piece):
            area = sum(
                each.part.blank.length_mm * each.part.blank.width_mm
                for each in piece.placed
                if each.part.timber == timber
            )
            yield (
                f"{timber.name}, {fitted_with_unit(timber.thickness_mm, piece.shown)}: "
                f"{shown_by(piece).surface(area)} in parts, without waste"
            )


def _by_photo(facts: Facts, board: str) -> str:
    photo = facts.settings.photos.get(board)
    return "" if photo is None else f"; {photo.told}"


def _cutters(facts: Facts) -> Iterator[str]:
    if facts.work is None:
        return
    rigs = (each.rig for each in facts.work.making.operations if each.rig is not None)
    shown = facts.piece.shown
    found = dict.fromkeys(
        rig_in_words(rig, shown) for rig in rigs if rig.machine is not Machine.BENCH
    )
    yield from sorted(found)


def _bought(facts: Facts) -> Iterator[str]:
    piece = facts.piece
    for each in bought_parts(piece):
        size = size_in_words(each, piece.shown)
        yield " ".join(
            word
            for word in (
                f"{each.quantity} x {each.name}", size, f"({each.note})" if each.note else "",
            )
            if word
        )  # fmt: skip
    if facts.work is not None:
        yield from used_up_in_words(facts.work.making, shown_by(piece))


def _standing(facts: Facts) -> Standing | None:
    """None where nothing was checked, too."""
    if facts.weighed is None or not facts.groups:
        return None
    plan = plan_of_piece(facts.piece, facts.weighed, facts.settings.setting)
    return None if plan is None else Standing(plan=plan, show=shown_by(facts.piece))


def _judged(group: Group, facts: Facts) -> Judged:
    show = shown_by(facts.piece)
    told = (
        *worst_of_each(amiss(group)), *worst_of_each(at_the_bench(group)),
        *worst_of_each(noted(group)),
    )  # fmt: skip

    def line(finding: Finding) -> Told:
        advice = f"{finding.advice[:1].upper()}{finding.advice[1:]}." if finding.advice else ""
        return Told(
            verdict=VERDICT_WORDS[finding.verdict], sentence=happens(finding, show), advice=advice
        )

    return Judged(
        subject=group.subject.value,
        lines=tuple(line(each) for each in told),
        nearest=nearest(group, show),
    )
