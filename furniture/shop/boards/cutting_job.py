"""A job for the planner, with what its answer has to be read back with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from furniture.blanks import CommonBlank
from furniture.shop.boards.copies import Copy, LotBlank
from furniture.shop.boards.cut_parts import PartDemands
from furniture.shop.boards.lots import Lot
from furniture.shop.boards.reading_matches import Matched
from furniture.shop.boards.thickness import LeftAside
from furniture.shop.cutting import values as cutting
from furniture.shop.cutting.plan import BoardWanted
from furniture.units import Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Commons:
    """The common blanks of a job, and what it takes to ask for others instead.

    Args:
        blanks: that are asked for.
        apart: the same job with every part by itself.
        demands: what is asked of the parts beside their sizes.
        matches: all of them, those too that a common blank keeps.
    """

    blanks: tuple[LotBlank, ...]
    apart: CuttingJob
    demands: PartDemands
    matches: tuple[Matched, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingJob:
    """What the planner is asked, and what its answer has to be read back with.

    Args:
        request: for the planner. `species` there is what parts and boards are matched by.
        boards: as measured, in the order given.
        copies: what each copy of a part becomes, by the planner's part.
        sequences: what is to lie in order, by the name of each match in sequence.
        stocks: the stock's name, by the planner's part.
        species: of the wood, by the planner's key.
        sheets: the keys of sheet goods, which are sold by the sheet and as thick as they are.
        currency: of all prices; empty when none is named.
        shown: how lengths are shown.
        left_aside: boards that give no part since they are too thin.
        lots: the copies of pieces that are cut.
        kept: matches that no plan can break, as a common blank holds all that they name.
        commons: the common blanks; None where every part is by itself.
        remarks: how the boards were read, where a maker should know.
    """

    request: cutting.CuttingRequest
    boards: tuple[cutting.Board, ...]
    copies: Mapping[str, tuple[Copy, ...]]
    sequences: Mapping[str, tuple[Copy, ...]]
    stocks: Mapping[str, str]
    species: Mapping[str, str]
    currency: str
    shown: Shown
    sheets: frozenset[str] = frozenset()
    left_aside: tuple[LeftAside, ...] = ()
    lots: tuple[Lot, ...] = ()
    kept: tuple[cutting.MatchGroup, ...] = ()
    commons: Commons | None = None
    remarks: tuple[str, ...] = ()

    @property
    def lot_of(self) -> Mapping[str, Lot]:
        """The copy of a piece that an instance belongs to, by the instance's name among all."""
        return {lot.called(each.instance): lot for lot in self.lots for each in lot.piece.placed}

    @property
    def common_blanks(self) -> tuple[CommonBlank, ...]:
        """The blanks that several instances come off, of every copy of a piece."""
        return () if self.commons is None else tuple(each.common for each in self.commons.blanks)

    def common_blanks_of(self, mark: str) -> tuple[CommonBlank, ...]:
        """The blanks that several instances of one copy come off.

        Args:
            mark: of the copy.
        """
        if self.commons is None:
            return ()
        return tuple(each.common for each in self.commons.blanks if each.lot.mark == mark)

    @property
    def board_named(self) -> Mapping[str, cutting.Board]:
        """The boards as measured, by their names."""
        return {board.name: board for board in self.boards}

    @property
    def has_boards(self) -> bool:
        """Whether there is anything to plan on."""
        return bool(self.boards)

    def bought_thickness(self, wanted: BoardWanted) -> float:
        """How thick what is asked for is when it is bought [mm]: no sheet is planed.

        Args:
            wanted: as the planner says it, with what the planer takes off a rough board.
        """
        loss = self.request.saw.planing_loss_mm if wanted.species in self.sheets else 0.0
        return wanted.thickness_mm - loss

    def instances(self, part: str) -> tuple[str, ...]:
        """All instances that the copies of a planner's part become."""
        return tuple(name for copy in self.copies[part] for name in copy.instances)

    def part_ids(self, part: str) -> tuple[str, ...]:
        """The piece's parts that a planner's part becomes, by id, each once."""
        return tuple(dict.fromkeys(s.part for copy in self.copies[part] for s in copy.stretches))
