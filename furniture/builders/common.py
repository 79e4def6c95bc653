"""Names, stocks and rough allowances: what every builder reads the same way."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from furniture.builders.panel_grain import PanelGrain, read_own_grain
from furniture.builders.rules import DesignReader
from furniture.parts.edge_names import BY_FACES, LYING, RAIL, EdgeNames
from furniture.parts.part import Rough
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import said, word_remedy

_USUAL_ROUGH = {"length": ("15 mm", "5/8 in"), "width": ("4 mm", "3/16 in")}
"""Left on a blank until it is cut to size, in either unit. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The instance names of a piece and its groups: what other parameters may refer to.

    `level` are the instances that lie flat, so that water stands on them; `rails` stand round a
    box, face side out.
    """

    instances: tuple[str, ...]
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    level: tuple[str, ...] = ()
    rails: tuple[str, ...] = ()

    def meant_by(self, name: object) -> tuple[str, ...]:
        """The instances that a name means; none when it means nothing."""
        if not isinstance(name, str):
            return ()
        if name in self.groups:
            return self.groups[name]
        return (name,) if name in self.instances else ()

    @property
    def lying(self) -> dict[str, tuple[str, ...]]:
        """What each name of level parts means, groups of them first."""
        groups = {name: of for name, of in self.groups.items() if of and set(of) <= set(self.level)}
        return {**groups, **{name: (name,) for name in self.level}}

    def edges_of(self, instance: str) -> EdgeNames:
        """What a script calls the edges of an instance."""
        if instance in self.level:
            return LYING
        return RAIL if instance in self.rails else BY_FACES

    def remedy(self, name: object) -> str:
        """The change to propose for a name that means nothing."""
        return word_remedy(name, [*self.groups, *self.instances])

    @property
    def listed(self) -> str:
        """All names, for messages."""
        return ", ".join(dict.fromkeys([*self.groups, *self.instances]))

    def and_strips(self, groups: Mapping[str, tuple[str, ...]], rails: tuple[str, ...]) -> Names:
        """The names with those of small parts that stand on the others, or under them.

        Args:
            groups: what they are called all together, and the instances; none where there are none.
            rails: those of them whose edges are named as a rail's are.
        """
        kept = {name: of for name, of in groups.items() if of}
        more = tuple(each for of in kept.values() for each in of)
        return Names(
            instances=(*self.instances, *more), groups={**self.groups, **kept}, level=self.level,
            rails=(*self.rails, *rails),
        )  # fmt: skip


def read_rough(reader: DesignReader, length: object, width: object) -> Rough:
    """The rough allowances, the usual ones of its unit where none are given; problems are noted
    with the reader."""
    length, width = (
        _USUAL_ROUGH[what][reader.shown.is_inch] if given is None else given
        for what, given in (("length", length), ("width", width))
    )
    why = "what is left on a blank until it is cut to size"
    return Rough(
        length_mm=reader.length("rough_length", length, at_least=0.0, at_most=100.0, why=why),
        width_mm=reader.length("rough_width", width, at_least=0.0, at_most=50.0, why=why),
    )


class StockOf:
    """Which timber each instance is cut from, the usual one or its own, and how its grain lies.

    `given_as` names the parameter that gives each instance its usual stock; `own_grain` is what was
    written of level parts whose grain does not run from left to right.
    """

    def __init__(
        self,
        reader: DesignReader,
        usual: Mapping[str, Timber | None],
        own: object,
        names: Names,
        given_as: Mapping[str, str],
        own_grain: object,
    ) -> None:
        self._usual = usual
        self._grain = read_own_grain(reader, own_grain, names.lying)
        self._given_as = dict(given_as)
        self._own: dict[str, Timber | None] = {}
        if not isinstance(own, Mapping):
            reader.refuse(
                "own_stock", f"a {type(own).__name__}", "names with a Stock each",
                "any part may name its own",
                f"write {{{names.instances[-1]!r}: {reader.example('Stock')}}}",
            )  # fmt: skip
            return
        for name, stock in own.items():
            meant = names.meant_by(str(name))
            if not meant:
                reader.refuse(
                    f"own_stock[{name!r}]", said(name), names.listed,
                    "it names one part, or all of a kind", names.remedy(name),
                )  # fmt: skip
            timber = read_stock(reader, f"own_stock[{name!r}]", stock)
            for instance in meant:
                self._own[instance] = timber
                self._given_as[instance] = f"own_stock[{name!r}]"

    def timber(self, instance: str) -> Timber | None:
        """The timber of an instance; none when its stock could not be read."""
        return self._own[instance] if instance in self._own else self._usual.get(instance)

    def parameter(self, instance: str) -> str:
        """The parameter that gave an instance's stock."""
        return self._given_as[instance]

    def is_own(self, instance: str) -> bool:
        """Whether an instance has a stock of its own."""
        return instance in self._own

    def own_or(self, instance: str, usual: Timber | None) -> Timber | None:
        """The timber of a small part: its own where one is given, else the usual one."""
        return self._own.get(instance, usual)

    def grain(self, instance: str) -> PanelGrain:
        """Which way the grain of a level instance runs."""
        return self._grain.get(instance, PanelGrain.ALONG)

    def thickness(self, instance: str) -> float:
        """Its measured thickness [mm]; not-a-number when its stock could not be read."""
        timber = self.timber(instance)
        return math.nan if timber is None else timber.thickness_mm


def read_usual(
    reader: DesignReader,
    given: Mapping[str, Stock | None],
    instead: Mapping[str, str] = MappingProxyType({}),
) -> dict[str, Timber | None]:
    """The usual stocks by parameter name; `instead` says what may be written for want of one."""
    return {
        name: read_stock(reader, name, stock, instead.get(name, ""))
        for name, stock in given.items()
    }
