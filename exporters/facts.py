"""What the writers of a packet are given: the piece and whatever had to be worked out for them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

from exporters.cutting.findings import place_groups
from exporters.settings import Output, PacketSettings
from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.checks.finding import Finding
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.setting import Setting
from furniture.pieces import Piece
from furniture.pieces.weighed import Weighed
from furniture.shop.boards.outcome import CuttingOutcome

if TYPE_CHECKING:
    from exporters.sheets.values import Sheet
    from exporters.work import Work


class Need(Enum):
    """What takes a while, so it is only worked out for who needs it; the making needs no solids."""

    MASS = "mass"
    ORDER = "order of assembly"
    CHECKS = "checks"
    MAKING = "making"


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """The piece, how it is to be written and what is known of it; None is what nobody needed.

    `sheets` are drawn last, once it is sure that they are written.
    """

    piece: Piece
    settings: PacketSettings
    cutting: CuttingOutcome | None
    weighed: Weighed | None
    order: AssemblyPlan | NoOrder | None
    work: Work | None
    groups: tuple[Group, ...]
    sheets: tuple[Sheet, ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the checks found, in the order of their subjects."""
        return tuple(finding for group in self.groups for finding in group.findings)


def facts_of(
    piece: Piece,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    needs: Iterable[Need],
) -> Facts:
    """What is needed, worked out once for every writer.

    Args:
        piece: what the packet is of.
        settings: how it is written.
        cutting: the cutting plan, when there is one; it only counts where it is asked for.
        needs: of all the writers together.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    needs = frozenset(needs)
    weighed = _weighed(piece) if needs - {Need.MAKING} else None
    order = _order(piece) if Need.ORDER in needs else None
    if Output.CUTTING not in settings.outputs:
        cutting = None
    groups = place_groups(cutting)
    work = None
    if needs & {Need.MAKING, Need.CHECKS}:
        work = _work(piece, settings, cutting, order, weighed)  # checks ask where clamps have room
    if weighed is not None and order is not None and work is not None and Need.CHECKS in needs:
        groups = (*_checked(piece, weighed, order, settings.setting, work), *groups)
    return Facts(
        piece=piece,
        settings=settings,
        cutting=cutting,
        weighed=weighed,
        order=order,
        work=work if Need.MAKING in needs else None,
        groups=groups,
    )


CHECKING = frozenset({Need.MASS, Need.ORDER, Need.CHECKS})
"""What the checks rest on, and they themselves."""


def _checked(
    piece: Piece,
    weighed: Weighed,
    order: AssemblyPlan | NoOrder,
    setting: Setting,
    work: Work,
) -> tuple[Group, ...]:
    from furniture.assembly.findings import assembly_finding, fit_findings
    from furniture.assembly.ways_out import ways_out_of
    from furniture.checks.of_piece import Subject, findings_by_subject
    from furniture.making.at_the_saw import saw_findings
    from furniture.making.tools_wanting import tool_findings
    from furniture.units import Amounts

    show = Amounts(shown=piece.shown)
    at_the_bench = {
        Subject.SAW: saw_findings(work.making, show, setting.rules),
        Subject.TOOLS: (*tool_findings(work.making, show), *_clamped(work)),
        Subject.FIT: (*fit_findings(piece), assembly_finding(order)),
    }
    found = {
        each.subject: each.findings
        for each in findings_by_subject(piece, weighed, setting, ways_out_of(piece))
    }
    found |= at_the_bench
    return tuple(Group(subject=each, findings=found[each]) for each in Subject if each in found)


def _clamped(work: Work) -> tuple[Finding, ...]:
    """Where no clamp has room; nothing where the piece does not go together at all."""
    from furniture.making.clamp_room import clamp_findings
    from furniture.making.glue_ups.values import GlueUps

    return clamp_findings(work.found) if isinstance(work.found, GlueUps) else ()


def _weighed(piece: Piece) -> Weighed:
    from furniture.solids.measure import weigh

    return weigh(piece)


def _work(
    piece: Piece,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    order: AssemblyPlan | NoOrder | None,
    weighed: Weighed | None,
) -> Work:
    from exporters.work import work_of
    from furniture.job.begun import begun_of
    from furniture.making.begun import Begun

    begun = (
        Begun(in_strips=settings.in_strips)
        if settings.job is None
        else begun_of(piece, settings.job, settings.in_strips)
    )
    work = work_of(piece, settings.shop, cutting, order, weighed, begun, settings.blanks)
    return replace(work, making=replace(work.making, copies=settings.copies))


def _order(piece: Piece) -> AssemblyPlan | NoOrder:
    from furniture.assembly import assembly_of

    return assembly_of(piece)
