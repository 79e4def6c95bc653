"""Every writer of a packet: for which output it writes, what it needs, and its files.

Writers import their libraries late: parts and the cutting plan need no solids and no drawings.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from exporters.facts import CHECKING, Facts, Need
from exporters.settings import Output, PacketSettings
from exporters.subject import Subject
from exporters.tables import (
    BOUGHT_HEADER,
    CHECKS_HEADER,
    PARTS_HEADER,
    bought_rows,
    checks_rows,
    parts_rows,
    write_table,
)
from furniture.units import Amounts

if TYPE_CHECKING:
    from exporters.pictures import Shown
    from exporters.sheets.values import Sheet, SheetSettings


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """`write` gives the paths that it has written into the folder; none where nothing is to say."""

    output: Output
    needs: frozenset[Need] = frozenset()
    write: Callable[[Facts, Path], Sequence[Path]]


def _step(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.step import write_step

    stamp = f"{facts.settings.dated.isoformat()}T00:00:00"
    return [write_step(facts.piece, folder / f"{facts.piece.slug}.step", stamp)]


def drawn(facts: Facts) -> tuple[Sheet, ...]:
    """The sheets of the piece and, in the same set, of the boards; what changed before them all.

    Args:
        facts: the piece, how it is written and what is known of it.
    """
    if Output.SHEETS not in facts.settings.outputs:
        return ()
    from exporters.sheets.sheets import sheets_of

    how = sheet_settings(facts.settings)

    def of_boards(first_number: int) -> Sequence[Sheet]:
        return _board_sheets(facts, first_number)

    sheets = sheets_of(facts.piece, how, of_boards, facts.order, facts.work)
    against, letters = facts.settings.against, facts.settings.letters
    if against is None and letters is None:
        return sheets
    from exporters.revision.marks import revised

    if letters is not None and against is None:
        return revised(sheets, letters, facts.piece)
    from exporters.revision.in_the_work import in_the_work
    from exporters.revision.sheet import changes_sheets

    steps = in_the_work(None if facts.work is None else facts.work.making)
    assert against is not None, "one of the two is there"
    return (
        *changes_sheets(facts.piece, against, how, len(sheets), steps),
        *revised(sheets, against, facts.piece),
    )


def _sheets(facts: Facts, folder: Path) -> Sequence[Path]:
    """The sheets as drawn, and the patterns."""
    from exporters.patterns import write_patterns
    from exporters.sheets.dxf import DxfVersion

    version = DxfVersion(facts.settings.dxf)
    return [
        *saved(facts.piece, facts.settings, facts.sheets, folder),
        *write_patterns(facts.piece, sheet_settings(facts.settings), folder, version),
    ]


def _sheets_of_boards_alone(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.sheets.numbering import numbered

    if Output.SHEETS in facts.settings.outputs or facts.cutting is None or not facts.cutting.used:
        return []
    return saved(facts.piece, facts.settings, numbered(_board_sheets(facts, 1)), folder)


def _parts(facts: Facts, folder: Path) -> Sequence[Path]:
    masses = None if facts.weighed is None else facts.weighed.parts
    made = [write_table(PARTS_HEADER, parts_rows(facts.piece, masses), folder / "parts.csv")]
    to_buy = bought_rows(facts.piece)
    if to_buy:
        made.append(write_table(BOUGHT_HEADER, to_buy, folder / "bought.csv"))
    return made


def _work(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.work import WORK_HEADER, work_rows

    if facts.work is None:
        return []
    return [
        write_table(WORK_HEADER, work_rows(facts.piece, facts.work.making), folder / "work.csv")
    ]


def _checks(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.own_rules import RULES_HEADER, rules_rows
    from exporters.report.write import write_report

    if facts.weighed is None:
        return []
    settings = facts.settings
    table = write_table(CHECKS_HEADER, checks_rows(facts.findings), folder / "checks.csv")
    show = Amounts(shown=facts.piece.shown)
    rules = write_table(
        RULES_HEADER, rules_rows(settings.setting.rules, show), folder / "rules.csv"
    )
    report = write_report(
        facts.piece,
        facts.weighed,
        facts.groups,
        folder / "checks.pdf",
        setting=settings.setting,
        dated=settings.dated,
        revision=settings.revision,
        paper=settings.paper,
    )
    return [table, rules, report]


def _pictures(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.pictures import write_pictures

    pictures = folder / "pictures"
    pictures.mkdir()
    written = write_pictures(shown_of(facts), pictures)
    return [*written, *_standing(facts, pictures / "standing.svg")]


def _standing(facts: Facts, path: Path) -> Sequence[Path]:
    """The piece from above on what it stands; none of one that hangs."""
    from exporters.page.svg_plan import svg_of_plan
    from exporters.report.plan import plan_of_piece
    from exporters.report.plan_picture import seen_from_above
    from furniture.checks.of_piece.reading import shown_by

    assert facts.weighed is not None
    plan = plan_of_piece(facts.piece, facts.weighed, facts.settings.setting)
    if plan is None:
        return []
    svg = svg_of_plan(plan, shown_by(facts.piece), seen_from_above(plan))
    path.write_text(f"{svg}\n", encoding="utf-8")
    return [path]


def shown_of(facts: Facts) -> Shown:
    """The piece in the wood that it is cut from.

    Args:
        facts: with its making and its order of assembly.
    """
    from exporters.grain import wood_of_instances
    from exporters.pictures import Shown

    woods = (
        {}
        if facts.work is None
        else wood_of_instances(facts.piece, facts.work.making, facts.cutting, facts.settings.photos)
    )
    return Shown(piece=facts.piece, woods=woods, order=facts.order)


def _cutting(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.cutting.write import write_cutting

    if facts.cutting is None:
        return []
    from exporters.grain import woods_of_boards

    woods = woods_of_boards(facts.piece, facts.cutting, facts.settings.photos)
    return write_cutting(facts.piece, facts.cutting, folder, woods)


def _plan(facts: Facts, folder: Path) -> Sequence[Path]:
    from exporters.page.make import write_plans

    return write_plans(facts, shown_of(facts), folder)


WRITERS = (
    Writer(output=Output.STEP, needs=frozenset({Need.MASS}), write=_step),
    Writer(
        output=Output.SHEETS,
        needs=frozenset({Need.MASS, Need.ORDER, Need.MAKING}),
        write=_sheets,
    ),
    Writer(output=Output.CUTTING, write=_sheets_of_boards_alone),
    Writer(output=Output.PARTS, write=_parts),
    Writer(output=Output.WORK, needs=frozenset({Need.ORDER, Need.MAKING}), write=_work),
    Writer(output=Output.CHECKS, needs=CHECKING, write=_checks),
    Writer(
        output=Output.PICTURES,
        needs=frozenset({Need.MASS, Need.ORDER, Need.MAKING}),
        write=_pictures,
    ),
    Writer(output=Output.CUTTING, write=_cutting),
    Writer(output=Output.PLAN, needs=CHECKING | {Need.MAKING}, write=_plan),
)
"""In the order in which piece.json names their files."""


def _board_sheets(facts: Facts, first_number: int) -> Sequence[Sheet]:
    from exporters.cutting.called import Called
    from exporters.cutting.sheets import cutting_sheets
    from exporters.faces import FaceNames
    from exporters.work.steps import steps_on_boards

    if facts.cutting is None:
        return ()
    called = Called(
        names=FaceNames(piece=facts.piece),
        steps={} if facts.work is None else steps_on_boards(facts.work.making),
    )
    how = sheet_settings(facts.settings)
    return cutting_sheets(facts.piece, facts.cutting, how, first_number, called)


def saved(
    of: Subject, settings: PacketSettings, sheets: Sequence[Sheet], folder: Path
) -> list[Path]:
    """One DXF file a sheet in the flavour asked for, and the PDF of all of them.

    Args:
        of: what they are of.
        settings: the flavour of the drawing files.
        sheets: in order.
        folder: that takes them.
    """
    from exporters.pdf import write_pdf
    from exporters.sheets.dxf import DxfVersion, document_of, save

    version = DxfVersion(settings.dxf)
    documents = [document_of(sheet) for sheet in sheets]
    (folder / "sheets").mkdir()
    made = []
    for sheet, document in zip(sheets, documents, strict=True):
        kept = document if version is DxfVersion.R2018 else document_of(sheet, version)
        made.append(save(kept, folder / "sheets" / f"{sheet.name}.dxf"))
    made.append(write_pdf(documents, folder / "sheets.pdf", of.name))
    return made


def sheet_settings(settings: PacketSettings) -> SheetSettings:
    """How the sheets of a packet are drawn."""
    from exporters.sheets.values import PartsOn, SheetSettings

    return SheetSettings(
        paper=settings.paper,
        dated=settings.dated,
        revision=settings.revision,
        parts_on=PartsOn(settings.parts_on),
    )
