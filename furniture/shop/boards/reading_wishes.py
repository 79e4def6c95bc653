"""Wishes with their figures read: what each instance tolerates, the saw, the glue-up."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TypeVar

from furniture.shop.boards.names import Names, read_names
from furniture.shop.boards.prices import Purse
from furniture.shop.boards.wishes import (
    CLEAR,
    HIDDEN_TOLERATES,
    USUAL_SAW,
    USUAL_STRIPS,
    CuttingWishes,
    GluedUp,
    PartWish,
    SawSetUp,
)
from furniture.shop.cutting import values as cutting
from furniture.units import Reader, counted, said
from furniture.units.words import number_meant

_Kind = TypeVar("_Kind", bound=Enum)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What one instance tolerates and wants; `want_price` none takes the usual price [money].

    worth: what leaving it out costs [money]; None where it must have a place.
    """

    show: frozenset[cutting.ZoneKind] = frozenset(CLEAR)
    hidden: frozenset[cutting.ZoneKind] = frozenset(HIDDEN_TOLERATES)
    grain: cutting.GrainRule = cutting.GrainRule.ALONG
    wants: cutting.ZoneKind | None = None
    want_price: float | None = None
    worth: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """How parts are glued up of strips."""

    jointing_mm: float = 1.5
    narrowest_strip_mm: float = 40.0
    off_cuts_mm: float = 6.0


def several(given: object) -> Sequence[object]:
    """What was given as several things, a lone one as one."""
    return given if isinstance(given, (list, tuple, set, frozenset)) else (given,)  # type: ignore[return-value]


def read_part_wishes(
    reader: Reader, where: str, given_parts: object, names: Names, purse: Purse
) -> dict[str, Wish]:
    """The wish of every instance that has one of its own; the last that names it counts."""
    found: dict[str, Wish] = {}
    for index, given in enumerate(several(given_parts)):
        at = where + counted("part wish", index, getattr(given, "on", None))
        if not isinstance(given, PartWish):
            reader.refuse(
                at, said(given), "a PartWish", "it says what parts tolerate",
                "write PartWish(on=...) as help(PartWish) shows",
            )  # fmt: skip
            continue
        reader.names(f"{at} ", given)
        wish = Wish(
            show=_kinds(reader, f"{at} show_face", given.show_face, CLEAR),
            hidden=_kinds(reader, f"{at} hidden_face", given.hidden_face, HIDDEN_TOLERATES),
            grain=reader.choice(
                f"{at} grain", given.grain, cutting.GrainRule, cutting.GrainRule.ALONG
            ),
            wants=None
            if given.wants is None
            else reader.choice(
                f"{at} wants", given.wants, cutting.ZoneKind, cutting.ZoneKind.FIGURE
            ),
            want_price=None
            if given.want_price is None
            else purse.price(f"{at} want_price", given.want_price),
            worth=None if given.worth is None else purse.price(f"{at} worth", given.worth),
        )
        for instance in read_names(reader, f"{at} on", given.on, names):
            found[instance] = wish
    return found


def _kinds(
    reader: Reader, parameter: str, given: object, usual: Iterable[cutting.ZoneKind]
) -> frozenset[cutting.ZoneKind]:
    if given is None:
        return frozenset(usual)
    return frozenset(
        reader.choice(parameter, kind, cutting.ZoneKind, cutting.ZoneKind.SAPWOOD)
        for kind in several(given)
    )


def read_saw(reader: Reader, given: object) -> cutting.Saw:
    """The saw; problems are noted with the reader."""
    if not isinstance(given, SawSetUp):
        reader.refuse(
            "shop.saw", said(given), "a SawSetUp", "every cut takes its kerf",
            "write SawSetUp(kerf='3.2 mm')",
        )  # fmt: skip
        return cutting.Saw()
    reader.names("shop.saw.", given)
    limits = {
        "kerf": (0.0, 10.0, "a saw takes its kerf, and no more than 10 mm"),
        "end_trim": (0.0, 300.0, "what is trimmed off each end"),
        "edge_trim": (0.0, 50.0, "what is trimmed off each edge"),
        "planing_loss": (0.0, 25.0, "what the planer takes off a rough board"),
        "shortest_rip": (0.0, 2000.0, "the shortest piece that is held safely against the fence"),
        "narrowest_rip": (0.0, 500.0, "the narrowest piece that keeps hands off the blade"),
        "shortest_crosscut": (0.0, 2000.0, "the shortest piece that is held safely"),
        "usable_length": (1.0, 3000.0, "the least offcut worth keeping"),
        "usable_width": (1.0, 1000.0, "the least offcut worth keeping"),
        "off_faults": (0.0, 50.0, "how far parts keep from knots, checks and holes"),
    }
    read = read_lengths(reader, "shop.saw.", given, limits, USUAL_SAW)
    most_planed = None
    if given.most_planed is not None:
        most_planed = reader.length(
            "shop.saw.most_planed", given.most_planed, at_least=0.0, at_most=100.0,
            why="what a planer takes off a board that is thicker than the part",
        )  # fmt: skip
        most_planed = None if math.isnan(most_planed) else most_planed
    return cutting.Saw(**read, most_planed_mm=most_planed)


def read_lengths(
    reader: Reader,
    where: str,
    given: object,
    limits: Mapping[str, tuple[float, float, str]],
    usual: Mapping[str, tuple[str, str]],
) -> dict[str, float]:
    """Lengths [mm], each by its name with `_mm`: as given, else as usual in the reader's unit.

    Args:
        where: what stands before their names in messages.
        given: has them by their names; None is as usual.
        limits: the least and the most [mm], and why.
        usual: in millimetres and in inches.
    """
    read = {}
    for name, (low, high, why) in limits.items():
        own = getattr(given, name)
        text = usual[name][reader.shown.is_inch] if own is None else own
        read[f"{name}_mm"] = reader.length(where + name, text, at_least=low, at_most=high, why=why)
    return read


def read_strips(reader: Reader, given: object) -> Strips:
    """How parts are glued up; problems are noted with the reader."""
    if not isinstance(given, GluedUp):
        reader.refuse(
            "wishes.glue_up", said(given), "a GluedUp", "a part wider than any board is glued up",
            "write GluedUp()",
        )  # fmt: skip
        return Strips()
    reader.names("wishes.glue_up.", given)
    limits = {
        "jointing": (0.0, 20.0, "what jointing takes off an edge"),
        "narrowest_strip": (10.0, 300.0, "narrow strips look like slats"),
        "off_cuts": (0.0, 50.0, "a joint beside a cut breaks out"),
    }
    return Strips(**read_lengths(reader, "wishes.glue_up.", given, limits, USUAL_STRIPS))


MOST_SECONDS, MOST_ROUNDS = 3600.0, 12
"""The longest search that may be asked for. Own rule."""
_FIGURES = (("seconds", 0.01, MOST_SECONDS), ("rounds", 1, MOST_ROUNDS), ("seed", 0, 2**31))


def read_limits(reader: Reader, wishes: CuttingWishes) -> cutting.Limits:
    """How long to look; problems are noted with the reader."""
    stages = reader.choice("wishes.stages", wishes.stages, cutting.Stages, cutting.Stages.THREE)
    figures = {}
    for name, low, high in _FIGURES:
        value = getattr(wishes, name)
        is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
        is_right = is_number and math.isfinite(value) and low <= value <= high
        if name != "seconds":
            is_right = is_right and float(value).is_integer()
        if not is_right:
            kind = "a number" if name == "seconds" else "a whole number"
            meant = number_meant(value) if isinstance(value, str) else None
            meant = meant if meant is not None and low <= meant <= high else None
            reader.refuse(
                f"wishes.{name}", said(value), f"{kind} from {low:g} to {high:g}",
                "the search has to end",
                f"make it {getattr(CuttingWishes(), name) if meant is None else meant:g}",
            )  # fmt: skip
            value = getattr(CuttingWishes(), name)
        figures[name] = value
    return cutting.Limits(
        stages=stages,
        seconds=float(figures["seconds"]),
        rounds=int(figures["rounds"]),
        seed=int(figures["seed"]),
    )
