"""The whole set of a piece's sheets, as values and as documents."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from exporters.faces import PartFaces, faces_of
from exporters.own_rules import changed_words
from exporters.sheets.annotate import annotated, bench_for
from exporters.sheets.annotation import is_rounded
from exporters.sheets.assembly_sheet import general_arrangement, list_sheets
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.exploded_sheet import exploded_block, exploded_sheet
from exporters.sheets.gathered_sheets import Gathering, gathered_sheets
from exporters.sheets.gathering import TaskOf
from exporters.sheets.inside_sheet import Exploded, Inside, inside_sheets
from exporters.sheets.like_parts import drawn_once, told_together
from exporters.sheets.lists_sheet import Listed, lists_of, lists_sheets
from exporters.sheets.numbering import key_of, listed_in_runs, named_as, numbered, type_of
from exporters.sheets.paper import Paper, Projection, paper_named
from exporters.sheets.part_notes import flushed_note, notes_for, stands_of
from exporters.sheets.part_sheet import part_sheets
from exporters.sheets.part_task import MadeIn, Opposite, PartTask
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.position_blocks import positions_table
from exporters.sheets.positions import GluedOn, glued_on, without_positions
from exporters.sheets.put_on import annotated_put_on, put_on
from exporters.sheets.rough_words import InStrip, sawn_from, strips_of
from exporters.sheets.section_planes import Sectioned, sectioned
from exporters.sheets.title_block import TitleFields
from exporters.sheets.values import PartsOn, Sheet, SheetSettings, Shows
from exporters.sheets.whole_task import WholeTask
from exporters.sheets.work_sheet import work_and_glue_sheets, work_sheets
from exporters.subject import Subject
from exporters.work.boards_of import boards_of
from exporters.work.fitted import fitted
from exporters.work.steps import steps_on
from exporters.work.work_of import Work, work_of
from furniture.assembly import AssemblyPlan, NoOrder, assembly_of
from furniture.job.figures import Figure
from furniture.parts.part import Part, slug_of
from furniture.pieces.piece import Distinct, Piece, distinct_parts
from furniture.pieces.twins import Twins, twins_of
from furniture.rules.bench import ANGLE_ERROR, LENGTH_ERROR
from furniture.units import (
    Amounts,
    Shown,
    decimal_figure,
    fitted_with_unit,
)

_OF_WORK = frozenset({Shows.WORK, Shows.GLUE_UPS})
"""Sheets that define no size: what holds for sizes and the finish stand where they are needed."""

_OPPOSITE = (
    "Opposite hand, {item}: as in a mirror, left in a name for right; each figure runs from the "
    "mirrored face."
)

Following = Callable[[int], Sequence[Sheet]]
"""Makes more sheets of a set, given the number of the first of them."""


def sheets_of(
    piece: Piece,
    settings: SheetSettings,
    following: Following | None = None,
    order: AssemblyPlan | NoOrder | None = None,
    work: Work | None = None,
) -> tuple[Sheet, ...]:
    """Every sheet of the piece: the whole first, then its distinct parts, then others.

    Args:
        piece: what to draw.
        settings: paper, projection, date.
        following: makes sheets of another kind to stand behind these.
        order: of assembly; found here where it is not known.
        work: on the piece; in a usual shop and without boards where it is not known.

    Raises:
        NoRoomError: something cannot be drawn on this paper at any standard scale.
    """
    if len(piece.placed) > 1:
        order = order or assembly_of(piece)
    work = work or work_of(piece, order=order)
    making = work.making
    maker = _Maker(
        piece, settings, _finish_of(work), strips_of(making), steps_on(making), making.flushed
    )
    sheets = _whole_sheets(maker, order, work)
    to_measure = fitted(piece, work.making)
    sheets += _of_parts(maker, distinct_parts(piece), len(sheets) + 1, to_measure)
    if following is not None:
        sheets += following(len(sheets) + 1)
    return numbered(sheets)


def sheets_of_parts(
    piece: Piece, settings: SheetSettings, parts: Sequence[Distinct], number: int
) -> Sequence[Sheet]:
    """The sheets of distinct parts.

    Args:
        piece: that they are of.
        settings: paper, projection, date.
        parts: with their instances.
        number: of the first of the sheets in the set.
    """
    return _of_parts(_Maker(piece, settings), parts, number, {})


def tasks_of(piece: Piece, settings: SheetSettings) -> TaskOf:
    """What sheets of the whole piece say, before anything is drawn on them.

    Args:
        piece: what to draw.
        settings: paper, projection, date.
    """
    return _Maker(piece, settings).task_of


def _of_parts(
    maker: _Maker,
    parts: Sequence[Distinct],
    number: int,
    to_measure: Mapping[str, Sequence[Figure]],
) -> list[Sheet]:
    """The sheets of parts; `to_measure` has what is measured for each instance."""
    tasks = maker.part_tasks(parts, to_measure)
    return part_sheets(tasks, lambda some: maker.parts_task(some, number), maker.settings.parts_on)


def _whole_sheets(maker: _Maker, order: AssemblyPlan | NoOrder | None, work: Work) -> list[Sheet]:
    piece = maker.piece
    groups = glued_on(piece)
    bare = replace(piece, references=without_positions(piece.references, groups))
    task = maker.whole_task(Shows.WHOLE)
    changed = changed_words(piece.rules, Amounts(shown=piece.shown))
    notes = (*task.notes, changed) if changed else task.notes
    task = replace(task, piece=bare, notes=notes)
    every_list = lists_of(piece, boards_of(work.making))
    arranged = general_arrangement(task, every_list, order is not None)
    lists, sheets = arranged.lists_left, [arranged.sheet]
    if order is None:
        sheets += lists_sheets(maker.whole_task(Shows.LISTS), lists)
    else:
        sheets += _opened_up(maker, order, lists, groups)
        if arranged.figures_left is None and maker.settings.parts_on is PartsOn.SHARED:
            wanted = Gathering(
                arranged=task,
                task_of=maker.task_of,
                lists=every_list,
                sections=sectioned(piece),
                groups=groups,
                exploded=exploded_block(maker.whole_task(Shows.EXPLODED), order),
                has_plan=True,
            )
            sheets = gathered_sheets(wanted, arranged.sheet.scale, len(sheets) - 1) or sheets
    in_order = maker.whole_task(Shows.WORK)
    if work.found is None:
        sheets += work_sheets(in_order, work.making)
    else:
        sheets += work_and_glue_sheets(in_order, maker.whole_task(Shows.GLUE_UPS), work)
    if arranged.figures_left is not None:
        sheets += list_sheets(maker.whole_task(Shows.FIGURES), arranged.figures_left)
    return sheets


def _opened_up(
    maker: _Maker,
    order: AssemblyPlan | NoOrder,
    lists: tuple[Listed, ...],
    groups: Sequence[GluedOn],
) -> list[Sheet]:
    """The exploded view, lists that still look for a sheet, sections and joints.

    Where no list does, the exploded view may stand on a sheet of sections and joints.
    """
    task = maker.whole_task(Shows.EXPLODED)
    sections = sectioned(maker.piece)
    if not lists and maker.settings.parts_on is PartsOn.SHARED:
        found = _inside(maker, sections, groups, exploded_block(task, order))
        if found.has_exploded:
            return found.sheets
    else:
        found = _inside(maker, sections, groups, None)
    sheet, lists = exploded_sheet(task, lists, order)
    return [sheet, *lists_sheets(maker.whole_task(Shows.LISTS), lists), *found.sheets]


def _inside(
    maker: _Maker,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    exploded: Exploded | None,
) -> Inside:
    """Sections, joints and places; the places as a table where they are too many to draw."""
    try:
        return inside_sheets(maker.task_of, sections, groups, exploded)
    except NoRoomError:
        if not groups:
            raise
    found = inside_sheets(maker.task_of, sections, (), exploded)
    table = positions_table(maker.piece, groups)
    listed = list_sheets(maker.whole_task(Shows.POSITIONS), table)
    return replace(found, sheets=[*found.sheets, *listed])


class _Maker:
    """Fills in the title blocks of one piece's sheets."""

    def __init__(
        self,
        piece: Piece,
        settings: SheetSettings,
        finish: str = "",
        strips: Mapping[str, InStrip] = MappingProxyType({}),
        steps: Mapping[str, Sequence[int]] = MappingProxyType({}),
        flushed: Collection[str] = (),
    ) -> None:
        self.piece = piece
        self._strips, self._steps, self._flushed = strips, steps, flushed
        self._finish = finish
        self.settings = settings
        self._paper, _ = resolved(piece, settings)
        self._style = INCH_STYLE if piece.shown.is_inch else ISO_STYLE

    def _fields(self, what: str, key: str) -> TitleFields:
        piece = self.piece
        return replace(
            title_fields(piece, self.settings, f"{piece.name}: {what}", key),
            tolerance=_tolerance_of(piece),
            finish=self._finish,
        )

    def whole_task(self, shows: Shows) -> WholeTask:
        """A sheet of the whole piece."""
        return self.task_of(frozenset({shows}))

    def task_of(self, shows: frozenset[Shows]) -> WholeTask:
        """A sheet that shows this of the whole piece; its number is found once all are known."""
        what = named_as(shows)
        fields = replace(self._fields(what, key_of(shows)), document_type=type_of(shows))
        if shows & _OF_WORK:
            fields = replace(fields, tolerance="", finish="")
        return WholeTask(
            piece=self.piece,
            fields=fields,
            notes=tuple(each.text for each in self.piece.notes),
            name=f"00-{slug_of(what)}",
            paper=self._paper,
            style=self._style,
            shows=shows,
        )

    def parts_task(self, tasks: Sequence[PartTask], number: int) -> WholeTask:
        """The sheet of these parts."""
        items = sorted({item for task in tasks for item in task.items})
        names = list(dict.fromkeys(part.name for task in tasks for part in task.parts))
        what = names[0] if len(names) == 1 else f"parts {listed_in_runs(items)}"
        stocks = list(dict.fromkeys(_stock_of(task.part, self.piece.shown) for task in tasks))
        fields = replace(
            self._fields(what, f"P{items[0]:02d}"),
            title=f"{self.piece.name}: {what}",
            document_type="parts",
            items=listed_in_runs(items),
            material=stocks[0] if len(stocks) == 1 else "at each part",
        )
        notes = tuple(dict.fromkeys(note for task in tasks for note in task.general))
        name = tasks[0].part.id if len(names) == 1 else f"parts-{listed_in_runs(items)}"
        return WholeTask(
            piece=self.piece,
            fields=fields,
            notes=notes,
            name=f"{number:02d}-{slug_of(name)}",
            paper=self._paper,
            style=self._style,
        )

    def part_tasks(
        self, parts: Sequence[Distinct], to_measure: Mapping[str, Sequence[Figure]]
    ) -> list[PartTask]:
        """The drawings of these parts: of a mirrored pair one, where parts share sheets."""
        tasks = {each.part.id: self.part_task(each, to_measure) for each in parts}
        once = drawn_once(self.piece, parts) if self.settings.parts_on is PartsOn.SHARED else {}
        instances = {each.part.id: each.instances for each in parts}
        for twins in twins_of(self.piece):
            if twins.first not in once:
                _tell_apart(tasks, twins)
        for twins in once.values():
            first, second = tasks[twins.first], tasks.pop(twins.second)
            own = [f"{second.item}: {note}" for note in second.notes if note not in first.notes]
            tasks[twins.first] = replace(
                first,
                sawn=sawn_from(
                    first.part,
                    (*instances[twins.first], *instances[twins.second]),
                    self._strips,
                    self.piece.shown,
                ),
                notes=(*first.notes, _OPPOSITE.format(item=second.item), *own),
                stands=(*first.stands, *second.stands),
                work=(*first.work, *second.work),
                opposite=Opposite(part=second.part, item=second.item, flips=twins.flips),
            )
        if self.settings.parts_on is PartsOn.THEIR_OWN:
            return list(tasks.values())
        by_id = {each.part.id: each for each in parts}
        return told_together(
            list(tasks.values()),
            lambda task, faces: self.part_task(by_id[task.part.id], to_measure, faces),
        )

    def _made_in(self, each: Distinct, item: int) -> tuple[MadeIn, ...]:
        """Where the work tells how a part is made, if it does."""
        steps = frozenset(step for name in each.instances for step in self._steps.get(name, ()))
        return (MadeIn(item=item, steps=steps),) if steps else ()

    def part_task(
        self,
        each: Distinct,
        to_measure: Mapping[str, Sequence[Figure]],
        faces: PartFaces | None = None,
    ) -> PartTask:
        """The drawing of one distinct part, its faces by other names than their own where given."""
        part, shown = each.part, self.piece.shown
        is_square = set(each.instances) <= set(self._flushed)
        if is_square:  # as it is sawn: what makes it flush comes when it is glued in
            part = replace(part, cuts=())
        faces = faces or faces_of(self.piece, each)
        item = distinct_parts(self.piece).index(each) + 1
        bench = bench_for(part, shown, faces)
        things = put_on(self.piece, each)
        told = (*annotated(part, bench), *annotated_put_on(things, part, bench))
        rounded = is_rounded(bench, told)
        own, general = notes_for(self.piece, each, faces, rounded, to_measure)
        return PartTask(
            part=part,
            item=item,
            shown=shown,
            faces=faces,
            quantity=each.quantity,
            stock=_stock_of(part, shown),
            sawn=sawn_from(part, each.instances, self._strips, shown),
            notes=(*own, flushed_note(each.part, shown, faces)) if is_square else own,
            stands=stands_of(self.piece, each, faces),
            work=self._made_in(each, item),
            general=general,
            projection=resolved(self.piece, self.settings)[1],
            style=self._style,
            put_on=things,
        )


def _tell_apart(tasks: dict[str, PartTask], twins: Twins) -> None:
    """Note on both of a mirrored pair that have drawings of their own which the other is."""
    for one, other in ((twins.first, twins.second), (twins.second, twins.first)):
        if one in tasks and other in tasks:
            note = f"Mirror image of {tasks[other].part.name}, measured from mirrored faces."
            tasks[one] = replace(tasks[one], notes=(*tasks[one].notes, note))


def _finish_of(work: Work) -> str:
    finishing = work.making.finishing
    if finishing is None:
        return ""
    return f"{finishing.facts.family.value}, {finishing.coats} coats"


def _tolerance_of(piece: Piece) -> str:
    """What holds where a figure states nothing: how far off the bench comes."""
    length = decimal_figure(piece.rules[LENGTH_ERROR], piece.shown)
    return f"±{length}; ±{piece.rules[ANGLE_ERROR]:g}°; joints to fit"


def _stock_of(part: Part, shown: Shown) -> str:
    timber = part.timber
    thick = fitted_with_unit(timber.thickness_mm, shown)
    return f"{timber.species.name}: {timber.name}, measured {thick}"


def title_fields(of: Subject, settings: SheetSettings, title: str, key: str) -> TitleFields:
    """What the title block of one sheet says; its scale, and how many sheets there are, come later.

    Args:
        of: what the sheet is of.
        settings: paper, projection, date.
        title: of the sheet.
        key: ends its drawing number, and hangs on what it shows and not on its place in the set.
    """
    paper, projection = resolved(of, settings)
    return TitleFields(
        title=title,
        piece=of.name,
        drawing_number=f"{settings.drawing_number or of.slug}-{key}",
        scale="-",
        sheet="00 of 00",  # filled in with the whole set
        date=settings.dated.isoformat() if settings.dated else "",
        revision=settings.revision,
        units=of.shown.unit.symbol,
        projection=projection,
        paper=paper.title,
    )


def resolved(of: Subject, settings: SheetSettings) -> tuple[Paper, Projection]:
    """The paper and the projection, the usual ones of its unit where none is set."""
    is_inch = of.shown.is_inch
    given = settings.paper
    paper = paper_named(given) if isinstance(given, str) else given
    paper = paper or (Paper.LETTER if is_inch else Paper.A4)
    usual = Projection.THIRD_ANGLE if is_inch else Projection.FIRST_ANGLE
    return paper, settings.projection or usual
