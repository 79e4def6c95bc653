"""Published cutting instances, read from a folder that the caller names."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

FAMILIES = (
    "g2opp_decision63",
    "csp1d_bpplib",
    "g2csp_class500",
    "g2csp_A43",
    "g2kp_ngcut12",
    "g2kp_fmt59",
    "defects_afsharian",
)
"""What a maker's request can say: every part wanted off equal boards, or parts by their worth."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A rectangle that no item may overlap; cuts may run through it."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One board."""

    length: int
    width: int
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A size wanted `quantity` times (None: any number), each worth `value`."""

    length: int
    width: int
    quantity: int | None
    value: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Instance:
    """One instance: a panel (bars have width 1), items, and what is published about it."""

    family: str
    name: str
    panel: Panel
    items: tuple[Item, ...]
    best_known: int | None
    bound: int | None
    status: str

    @property
    def pieces(self) -> int:
        """Copies wanted in all; of endless ones as many as a board has room for."""
        return sum(self.copies_of(item) for item in self.items)

    @property
    def is_by_worth(self) -> bool:
        """Whether parts may be left out, and those cut are to be worth most."""
        return self.family.startswith(("g2kp", "defects"))

    def copies_of(self, item: Item) -> int:
        """Copies wanted of an item; of endless ones as many as a board has room for."""
        fit = (self.panel.length // item.length) * (self.panel.width // item.width)
        return fit if item.quantity is None else item.quantity


def instances_of(folder: Path, family: str) -> Iterator[Instance]:
    """The family's instances in the order of its file."""
    data = json.loads((folder / f"{family}.json").read_text(encoding="utf-8"))
    for entry in data["instances"]:
        yield _bars(family, entry) if "capacity" in entry else _boards(family, entry)


def _bars(family: str, entry: dict[str, Any]) -> Instance:
    return Instance(
        family=family,
        name=entry["id"],
        panel=Panel(length=entry["capacity"], width=1),
        items=tuple(
            Item(length=length, width=1, quantity=quantity, value=1)
            for length, quantity in entry["parts"]
        ),
        best_known=entry["best_known"],
        bound=entry["bound"],
        status=entry["status"],
    )


def _boards(family: str, entry: dict[str, Any]) -> Instance:
    board = entry["boards"][0]
    faults = tuple(
        Fault(x=fault["x"], y=fault["y"], length=fault["length"], width=fault["width"])
        for fault in board.get("defects", [])
    )
    return Instance(
        family=family,
        name=entry["id"],
        panel=Panel(length=board["length"], width=board["width"], faults=faults),
        items=tuple(
            Item(
                length=part["length"],
                width=part["width"],
                quantity=part["qty"],
                value=part["value"],
            )
            for part in entry["parts"]
        ),
        best_known=entry["best_known"],
        bound=entry["bound"],
        status=entry["status"],
    )
