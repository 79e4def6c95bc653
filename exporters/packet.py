"""The whole packet: every output of a piece, made in order and named in piece.json."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from pathlib import Path

from exporters.summary import summary_of, write_summary
from exporters.tables import (
    CHECKS_HEADER,
    PARTS_HEADER,
    checks_rows,
    parts_rows,
    write_table,
)
from exporters.target import SUMMARY, replace_packet
from furniture.checks.finding import Finding
from furniture.pieces import Piece
from furniture.pieces.weighed import Weighed


class Output(Enum):
    """What a packet can hold beside its summary."""

    STEP = "step"
    SHEETS = "sheets"
    PARTS = "parts"
    CHECKS = "checks"
    PICTURES = "pictures"


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketSettings:
    """How a packet is written: what goes in, on which paper, dated when."""

    outputs: frozenset[Output] = frozenset(Output)
    paper: str | None = None
    dated: date
    revision: str = "-"


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet:
    """A packet as written: its files and what the checks found."""

    files: tuple[str, ...]
    findings: tuple[Finding, ...]
    weighed: Weighed | None


def write_packet(piece: Piece, target: Path, settings: PacketSettings) -> Packet:
    """The packet, written beside the target and moved into place whole.

    Only what was asked for is made: parts alone need no solids.

    Raises:
        TargetError: the target cannot take it.
        SolidError: the solid kernel did not do what the model asked.
    """
    results: list[Packet] = []

    def make(folder: Path) -> Sequence[str]:
        packet = _fill(piece, folder, settings)
        results.append(packet)
        return packet.files

    replace_packet(target, make)
    return results[0]


def _fill(piece: Piece, folder: Path, settings: PacketSettings) -> Packet:
    outputs: Collection[Output] = settings.outputs
    weighed = None
    findings: tuple[Finding, ...] = ()
    assembly = None
    if outputs != {Output.PARTS}:
        from furniture.solids.measure import weigh

        weighed = weigh(piece)
    if Output.CHECKS in outputs and weighed is not None:
        from furniture.assembly import assembly_of, assembly_record
        from furniture.assembly.findings import assembly_finding, fit_findings
        from furniture.checks.of_piece import findings_of

        order = assembly_of(piece)
        assembly = assembly_record(order)
        proofs = (*fit_findings(piece), assembly_finding(order))
        findings = (*findings_of(piece, weighed), *proofs)
    made: list[Path] = []
    if Output.STEP in outputs:
        from exporters.step import write_step

        stamp = f"{settings.dated.isoformat()}T00:00:00"
        made.append(write_step(piece, folder / f"{piece.slug}.step", stamp))
    if Output.SHEETS in outputs:
        made += _write_sheets(piece, folder, settings)
    if Output.PARTS in outputs:
        masses = None if weighed is None else weighed.parts
        rows = parts_rows(piece, masses)
        made.append(write_table(PARTS_HEADER, rows, folder / "parts.csv"))
    if Output.CHECKS in outputs:
        made.append(write_table(CHECKS_HEADER, checks_rows(findings), folder / "checks.csv"))
    if Output.PICTURES in outputs:
        from exporters.pictures import write_pictures

        (folder / "pictures").mkdir()
        made += write_pictures(piece, folder / "pictures")
    files = (*(path.relative_to(folder).as_posix() for path in made), SUMMARY)
    write_summary(summary_of(piece, weighed, findings, files, assembly), folder / SUMMARY)
    return Packet(files=files, findings=findings, weighed=weighed)


def _write_sheets(piece: Piece, folder: Path, settings: PacketSettings) -> list[Path]:
    from exporters.pdf import write_pdf
    from exporters.sheets.dxf import save
    from exporters.sheets.sheets import sheet_documents
    from exporters.sheets.values import SheetSettings

    sheets = sheet_documents(
        piece,
        SheetSettings(paper=settings.paper, dated=settings.dated, revision=settings.revision),
    )
    (folder / "sheets").mkdir()
    made = [save(sheet.document, folder / "sheets" / f"{sheet.name}.dxf") for sheet in sheets]
    made.append(write_pdf([sheet.document for sheet in sheets], folder / "sheets.pdf", piece.name))
    return made
