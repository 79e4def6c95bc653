"""What is fixed at the tiers of a stand besides its joints: lips, and brackets or cleats under."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from furniture.builders.bearable import bearable_tiers
from furniture.builders.brackets import (
    Bracket,
    BracketFigures,
    below_tiers,
    bored_for,
    bracket_joints,
    bracket_names,
    bracket_notes,
    place_bracket,
    read_brackets,
)
from furniture.builders.common import Names, StockOf
from furniture.builders.edges import HiddenEdges
from furniture.builders.lips import (
    Lip,
    LipFigures,
    lip_hidden,
    lip_joints,
    lip_name,
    lip_names,
    place_lips,
    read_lips,
    within_lips,
)
from furniture.builders.rules import DesignReader
from furniture.builders.support import Support
from furniture.builders.tier_cleats import (
    TierCleat,
    TierCleatFigures,
    cleat_name,
    place_tier_cleats,
    read_tier_cleats,
    tier_cleat_joints,
    tier_cleat_names,
    tier_cleat_notes,
)
from furniture.builders.tiers import TierFigures
from furniture.builders.uprights import Uprights
from furniture.joints import Joint
from furniture.parts.faces import ALL_ARRISES, Arris, Face
from furniture.parts.part import Placed, Rough
from furniture.pieces import Bearable, Note, Surface
from furniture.rules import Rules


class TierPartsGiven(Protocol):
    """The parameters of a stand that say what is fixed to its tiers."""

    @property
    def lips(self) -> Sequence[Lip]: ...
    @property
    def brackets(self) -> Sequence[Bracket]: ...
    @property
    def tier_cleats(self) -> Sequence[TierCleat]: ...
    @property
    def uprights(self) -> Uprights | None: ...


def and_tier_parts(names: Names, given: TierPartsGiven) -> Names:
    """The names of a stand with those of its lips, brackets and cleats.

    Args:
        names: without them.
        given: the parameters.
    """
    lips, has_uprights = lip_names(given.lips, names), given.uprights is not None
    groups = {
        "lips": lips,
        "brackets": bracket_names(given.brackets, names, has_uprights),
        "tier cleats": tier_cleat_names(given.tier_cleats, names) if has_uprights else (),
    }
    return names.and_strips(groups, lips)


@dataclass(frozen=True, slots=True, kw_only=True)
class TierParts:
    """Lips, brackets and cleats, their figures read; the cleats by the shop's own limits.

    `bearable` is what else may be put under each tier.
    """

    lips: tuple[LipFigures, ...]
    brackets: tuple[BracketFigures, ...]
    cleats: tuple[TierCleatFigures, ...]
    bearable: tuple[Bearable, ...]
    rules: Rules

    def hidden(self, others: HiddenEdges) -> HiddenEdges:
        """The arrises where no profile may run, of these parts and of the others.

        Args:
            others: of the stand without them.
        """
        found: dict[str, Mapping[Arris, str]] = dict(others)
        own = {
            **lip_hidden(self.lips),
            **_bracket_hidden(self.brackets),
            **_cleat_hidden(self.cleats),
        }
        for name, edges in own.items():
            found[name] = {**found.get(name, {}), **edges}
        return found

    def room(self, stock: StockOf, name: str) -> float:
        """The lesser size of an instance across its edges [mm], which a profile must leave some of.

        Args:
            stock: of all others.
            name: of the instance.
        """
        own = {each.name: each.timber.thickness_mm for each in self.brackets}
        for cleats in self.cleats:
            for side, thick in zip(("left", "right"), cleats.thick, strict=True):
                own[cleat_name(cleats.on, side)] = min(thick, cleats.height)
        for lip in self.lips:
            for edge in lip.edges:
                own[lip_name(lip.on, edge)] = min(lip.thickness(edge), lip.height)
        return own[name] if name in own else stock.thickness(name)

    def added(
        self,
        placed: Sequence[Placed],
        surfaces: Sequence[Surface],
        rough: Rough,
        has_uprights: bool,
        is_inch: bool,
    ) -> list[Placed]:
        """The parts with these among them, and with the holes for their screws.

        Args:
            placed: the parts without them.
            surfaces: of the tiers, before lips stand on them.
            rough: allowances.
            has_uprights: whether the tiers lie between uprights.
            is_inch: whether the maker buys bits by the inch.
        """
        by_name = {each.instance: each for each in surfaces}
        strips = [
            strip
            for lip in self.lips
            for strip in place_lips(lip, by_name[lip.on], rough, has_uprights, self.rules)
        ]
        wedges = [place_bracket(each, rough) for each in self.brackets]
        ledges = [
            ledge for each in self.cleats for ledge in place_tier_cleats(each, rough, self.rules)
        ]
        return bored_for([*placed, *strips, *wedges, *ledges], self.brackets, is_inch)

    @property
    def joints(self) -> list[Joint]:
        """Of them with tiers, post and uprights."""
        return [
            *(joint for lip in self.lips for joint in lip_joints(lip)),
            *(joint for bracket in self.brackets for joint in bracket_joints(bracket)),
            *(joint for each in self.cleats for joint in tier_cleat_joints(each, self.rules)),
        ]

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of them."""
        return (*bracket_notes(self.brackets), *tier_cleat_notes(self.cleats))

    def within(self, surface: Surface) -> Surface:
        """What a surface still carries between its lips.

        Args:
            surface: of a tier.
        """
        return within_lips(surface, self.lips)


def read_tier_parts(
    reader: DesignReader,
    given: TierPartsGiven,
    names: Names,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
    has_uprights: bool,
    measured: Mapping[str, float] | None,
) -> TierParts:
    """Lips, brackets and cleats; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the parameters.
        names: of the piece.
        support: what carries the tiers.
        steps: the tiers from the lowest up.
        stock: of every instance.
        has_uprights: whether the tiers lie between uprights.
        measured: thicknesses of instances, by name, where not their stock's [mm]: what lies under a
            tier follows its underside.
    """
    measured = measured or {}
    steps = [
        replace(step, bottom=step.top - measured[step.name]) if step.name in measured else step
        for step in steps
    ]
    tiers = tuple(step.name for step in steps)
    lips = read_lips(reader, given.lips, names, tiers, stock, has_uprights)
    below = below_tiers(support, steps, lips)
    brackets = read_brackets(
        reader, given.brackets, names, support, steps, stock, below, has_uprights
    )  # fmt: skip
    bracketed = {each.on for each in brackets}
    cleats = read_tier_cleats(
        reader, given.tier_cleats, names, support, steps, stock, below, bracketed, measured
    )  # fmt: skip
    bearable = bearable_tiers(reader, support, steps, stock, below, brackets, cleats, measured)
    return TierParts(
        lips=lips, brackets=brackets, cleats=cleats, bearable=bearable, rules=reader.rules
    )


def _bracket_hidden(brackets: Sequence[BracketFigures]) -> Mapping[str, Mapping[Arris, str]]:
    """The arrises of brackets where no profile may run: all but those of its front."""
    return {
        each.name: {
            arris: "it lies against its tier or what it is glued to there, or is sawn on a slope"
            for arris in ALL_ARRISES
            if arris.second is not Face.BACK_EDGE
        }
        for each in brackets
    }


def _cleat_hidden(cleats: Sequence[TierCleatFigures]) -> Mapping[str, Mapping[Arris, str]]:
    """The arrises of cleats where no profile may run: all but the lower one inside."""
    return {
        cleat_name(each.on, side): {
            arris: "it lies against its tier or its upright there, or at an end"
            for arris in ALL_ARRISES
            if arris != Arris(Face.FACE_SIDE, Face.FACE_EDGE)
        }
        for each in cleats
        for side in ("left", "right")
    }
