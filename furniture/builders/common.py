"""Names, stocks and rough allowances: what every builder reads the same way."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from furniture.builders.rules import DesignReader
from furniture.parts.part import Rough
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import said, word_remedy

ROUGH_LENGTH, ROUGH_WIDTH = "15 mm", "4 mm"
"""Left on a blank until it is cut to size. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The instance names of a piece and its groups: what other parameters may refer to.

    `level` are the instances that lie flat, so that water stands on them.
    """

    instances: tuple[str, ...]
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    level: tuple[str, ...] = ()

    def meant_by(self, name: object) -> tuple[str, ...]:
        """The instances that a name means; none when it means nothing."""
        if not isinstance(name, str):
            return ()
        if name in self.groups:
            return self.groups[name]
        return (name,) if name in self.instances else ()

    def remedy(self, name: object) -> str:
        """The change to propose for a name that means nothing."""
        return word_remedy(name, [*self.groups, *self.instances])

    @property
    def listed(self) -> str:
        """All names, for messages."""
        return ", ".join([*self.groups, *self.instances])


def read_rough(reader: DesignReader, length: object, width: object) -> Rough:
    """The rough allowances; problems are noted with the reader."""
    why = "what is left on a blank until it is cut to size"
    return Rough(
        length_mm=reader.length("rough_length", length, at_least=0.0, at_most=100.0, why=why),
        width_mm=reader.length("rough_width", width, at_least=0.0, at_most=50.0, why=why),
    )


class StockOf:
    """Which timber each instance is cut from: the usual one, or its own.

    `given_as` names the parameter that gives each instance its usual stock.
    """

    def __init__(
        self,
        reader: DesignReader,
        usual: Mapping[str, Timber | None],
        own: object,
        names: Names,
        given_as: Mapping[str, str],
    ) -> None:
        self._usual = usual
        self._given_as = dict(given_as)
        self._own: dict[str, Timber | None] = {}
        if not isinstance(own, Mapping):
            reader.refuse(
                "own_stock", said(own), "names with a Stock each", "any part may name its own",
                "write {'tier 1': Stock(...)}",
            )  # fmt: skip
            return
        for name, stock in own.items():
            meant = names.meant_by(str(name))
            if not meant:
                reader.refuse(
                    f"own_stock[{name!r}]", said(name), names.listed, "it names a part or a group",
                    names.remedy(name),
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

    def thickness(self, instance: str) -> float:
        """Its measured thickness [mm]; not-a-number when its stock could not be read."""
        timber = self.timber(instance)
        return math.nan if timber is None else timber.thickness_mm


def read_usual(reader: DesignReader, given: Mapping[str, Stock | None]) -> dict[str, Timber | None]:
    """The usual stocks by parameter name."""
    return {name: read_stock(reader, name, stock) for name, stock in given.items()}
