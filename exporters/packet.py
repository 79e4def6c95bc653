"""The whole packet: every output of a piece, made in order and named in piece.json."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import Enum
from pathlib import Path

from exporters.summary import summary_of, write_summary
from exporters.tables import (
    BOUGHT_HEADER,
    CHECKS_HEADER,
    PARTS_HEADER,
    bought_rows,
    checks_rows,
    parts_rows,
    write_table,
)
from exporters.target import SUMMARY, replace_packet
from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.checks.finding import Finding
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.setting import Setting, setting_record
from furniture.pieces import Piece
from furniture.pieces.weighed import Weighed
from furniture.shop.boards.outcome import CuttingOutcome


class Output(Enum):
    """What a packet can hold beside its summary."""

    STEP = "step"
    SHEETS = "sheets"
    PARTS = "parts"
    CHECKS = "checks"
    PICTURES = "pictures"
    CUTTING = "cutting"


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketSettings:
    """How a packet is written: what goes in, on which paper, dated when; where the piece stands.

    `dxf` names the flavour of the drawing files; the PDF is the same with every flavour.
    """

    outputs: frozenset[Output] = frozenset(Output)
    paper: str | None = None
    dated: date
    revision: str = "-"
    dxf: str = "R2018"
    setting: Setting = field(default_factory=Setting)


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet:
    """A packet as written: its files and what the checks found, subject by subject."""

    files: tuple[str, ...]
    groups: tuple[Group, ...]
    weighed: Weighed | None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the checks found, in the order of their subjects."""
        return tuple(finding for group in self.groups for finding in group.findings)


def write_packet(
    piece: Piece, target: Path, settings: PacketSettings, cutting: CuttingOutcome | None = None
) -> Packet:
    """The packet, written beside the target and moved into place whole.

    Only what was asked for is made: parts and the cutting plan need no solids.

    Args:
        piece: what the packet is of.
        target: the folder.
        settings: what goes in.
        cutting: the cutting plan, when there is one.

    Raises:
        TargetError: the target cannot take it.
        SolidError: the solid kernel did not do what the model asked.
    """
    results: list[Packet] = []

    def make(folder: Path) -> Sequence[str]:
        packet = _fill(piece, folder, settings, cutting)
        results.append(packet)
        return packet.files

    replace_packet(target, make)
    return results[0]


def _fill(
    piece: Piece, folder: Path, settings: PacketSettings, cutting: CuttingOutcome | None
) -> Packet:
    outputs = settings.outputs
    if Output.CUTTING not in outputs:
        cutting = None
    weighed = None
    order = None
    assembly = None
    if not outputs <= {Output.PARTS, Output.CUTTING}:
        from furniture.solids.measure import weigh

        weighed = weigh(piece)
    from exporters.cutting.findings import place_groups

    groups = place_groups(cutting)
    if Output.CHECKS in outputs and weighed is not None:
        from exporters.cutting.at_the_saw import saw_findings_with
        from furniture.assembly import assembly_of, assembly_record
        from furniture.assembly.findings import assembly_finding, fit_findings
        from furniture.checks.of_piece import Subject, findings_by_subject

        order = assembly_of(piece)
        assembly = assembly_record(order)
        proofs = (*fit_findings(piece), assembly_finding(order))
        at_the_saw = saw_findings_with(piece, cutting)
        groups = (
            *(
                replace(group, findings=at_the_saw) if group.subject is Subject.SAW else group
                for group in findings_by_subject(piece, weighed, settings.setting)
            ),
            Group(subject=Subject.FIT, findings=proofs),
            *groups,
        )
    findings = tuple(finding for group in groups for finding in group.findings)
    made: list[Path] = []
    if Output.STEP in outputs:
        from exporters.step import write_step

        stamp = f"{settings.dated.isoformat()}T00:00:00"
        made.append(write_step(piece, folder / f"{piece.slug}.step", stamp))
    if Output.SHEETS in outputs or (cutting is not None and cutting.used):
        made += _write_sheets(piece, folder, settings, cutting, order)
    if Output.PARTS in outputs:
        masses = None if weighed is None else weighed.parts
        rows = parts_rows(piece, masses)
        made.append(write_table(PARTS_HEADER, rows, folder / "parts.csv"))
        to_buy = bought_rows(piece)
        if to_buy:
            made.append(write_table(BOUGHT_HEADER, to_buy, folder / "bought.csv"))
    if Output.CHECKS in outputs and weighed is not None:
        from exporters.report.write import write_report

        made.append(write_table(CHECKS_HEADER, checks_rows(findings), folder / "checks.csv"))
        made.append(
            write_report(
                piece,
                weighed,
                groups,
                folder / "checks.pdf",
                setting=settings.setting,
                dated=settings.dated,
                revision=settings.revision,
                paper=settings.paper,
            )
        )
    if Output.PICTURES in outputs:
        from exporters.pictures import write_pictures

        (folder / "pictures").mkdir()
        made += write_pictures(piece, folder / "pictures")
    record = None
    if cutting is not None:
        from exporters.cutting import cutting_record
        from exporters.cutting.write import write_cutting

        made += write_cutting(piece, cutting, folder)
        record = cutting_record(cutting)
    files = (*(path.relative_to(folder).as_posix() for path in made), SUMMARY)
    summary = summary_of(piece, weighed, findings, files, assembly, record)
    summary["place"] = setting_record(settings.setting)
    write_summary(summary, folder / SUMMARY)
    return Packet(files=files, groups=groups, weighed=weighed)


def _write_sheets(
    piece: Piece,
    folder: Path,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    order: AssemblyPlan | NoOrder | None,
) -> list[Path]:
    """The sheets that were asked for: of the piece, of the boards, or both as one set."""
    from exporters.cutting.sheets import cutting_sheets
    from exporters.pdf import write_pdf
    from exporters.sheets.dxf import DxfVersion, document_of, save
    from exporters.sheets.sheets import numbered, sheets_of
    from exporters.sheets.values import Sheet, SheetSettings

    how = SheetSettings(paper=settings.paper, dated=settings.dated, revision=settings.revision)

    def of_boards(first_number: int) -> Sequence[Sheet]:
        return () if cutting is None else cutting_sheets(piece, cutting, how, first_number)

    is_whole = Output.SHEETS in settings.outputs
    sheets = sheets_of(piece, how, of_boards, order) if is_whole else numbered(of_boards(1))
    version = DxfVersion(settings.dxf)
    documents = [document_of(sheet) for sheet in sheets]
    (folder / "sheets").mkdir()
    made = []
    for sheet, document in zip(sheets, documents, strict=True):
        kept = document if version is DxfVersion.R2018 else document_of(sheet, version)
        made.append(save(kept, folder / "sheets" / f"{sheet.name}.dxf"))
    made.append(write_pdf(documents, folder / "sheets.pdf", piece.name))
    if is_whole:
        from exporters.patterns import write_patterns

        made += write_patterns(piece, how, folder, version)
    return made
