"""A shop with its figures read: every problem is noted, none stops the reading."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from furniture.rules import ShopRules
from furniture.rules.joinery import SLIP_PLAY
from furniture.shop.boards.reading_wishes import read_lengths, read_saw
from furniture.shop.tools.finishes import USUAL_FINISHES
from furniture.shop.tools.given import (
    BandClamp,
    Clamps,
    DadoHead,
    Drills,
    Finishing,
    Glue,
    Jointer,
    Planer,
    Router,
    Shop,
)
from furniture.shop.tools.glues import USUAL_GLUES, GlueFacts
from furniture.shop.tools.kinds import ClampKind, FinishFamily, GlueFamily
from furniture.shop.tools.usual import (
    USUAL_BAND,
    USUAL_CHIPPERS,
    USUAL_CLAMPS,
    USUAL_DRILLS,
    USUAL_FORCE,
    USUAL_HEAD,
    USUAL_JOINTER,
    USUAL_PLANER,
    USUAL_PRESS,
    USUAL_ROUND_OVER,
    USUAL_ROUTER,
    USUAL_SHIMS,
    USUAL_STRAIGHT,
    USUAL_THROAT,
)
from furniture.shop.tools.values import (
    Band,
    Bed,
    ClampLot,
    DrillBits,
    FinishOnHand,
    Head,
    RouterBits,
    ShopRead,
)
from furniture.units import Reader, Shown, said

LEAST_SLIP_MM, MOST_SLIP_MM = 0.02, 0.5
"""The play that a slip fit may be measured with [mm]: else the unit is mistaken. Own rule."""
_Kind = TypeVar("_Kind")
_MOST_LISTED = 12
_MOST_SETS = 1000
_LONGEST_MINUTES = 10_000.0


def read_shop(reader: Reader, shop: object) -> ShopRead:
    """The shop with its figures in mm, N and minutes; problems are noted with the reader.

    A figure that cannot be read is not-a-number, and a tool that cannot be read is none: nothing is
    to be reckoned from it before `reader.raise_if_any()`.

    What is left out is as usual in the reader's unit.
    """
    given = _one_of(reader, "shop", shop, Shop, "Shop()") or Shop()
    head = _or_none(reader, "shop.dado_head", given.dado_head, DadoHead)
    router = _or_none(reader, "shop.router", given.router, Router)
    jointer = _or_none(reader, "shop.jointer", given.jointer, Jointer)
    planer = _or_none(reader, "shop.planer", given.planer, Planer)
    band = _or_none(reader, "shop.band_clamp", given.band_clamp, BandClamp)
    finish = _or_none(reader, "shop.finish", given.finish, Finishing)
    drills = _one_of(reader, "shop.drills", given.drills, Drills, "Drills()") or Drills()
    glue = _one_of(reader, "shop.glue", given.glue, Glue, "Glue()") or Glue()
    if given.slip_play is not None:  # the rules carry it to the joints
        reader.length(
            "shop.slip_play", given.slip_play, at_least=LEAST_SLIP_MM,
            at_most=MOST_SLIP_MM, why="less is a press fit, more holds no shelf upright",
        )  # fmt: skip
    return ShopRead(
        saw=read_saw(reader, given.saw),
        head=None if head is None else _head(reader, "shop.dado_head.", head),
        bits=None if router is None else _bits(reader, "shop.router.", router),
        drills=_drills(reader, "shop.drills.", drills),
        jointer=None
        if jointer is None
        else Bed(**read_lengths(reader, "shop.jointer.", jointer, _BED, USUAL_JOINTER)),
        planer=None
        if planer is None
        else Bed(**read_lengths(reader, "shop.planer.", planer, _BED, USUAL_PLANER)),
        clamps=_clamps(reader, "shop.clamps", given.clamps),
        band=None if band is None else _band(reader, "shop.band_clamp.", band),
        glue=_glue(reader, "shop.glue.", glue),
        finish=None if finish is None else _finish(reader, "shop.finish.", finish),
    )


def usual_or(shop: object, shown: Shown) -> ShopRead:
    """The shop as given, or the usual one where there is none.

    Args:
        shop: a `Shop`, or None.
        shown: in whose unit what is left out has its usual figures.

    Raises:
        DesignError: with every problem of the shop.
    """
    reader = Reader(shown)
    read = read_shop(reader, Shop() if shop is None else shop)
    reader.raise_if_any()
    return read


def _one_of(
    reader: Reader, where: str, given: object, kind: type[_Kind], written: str
) -> _Kind | None:
    """What was given where it is of its kind, with its misspelt names noted; else None, noted."""
    if isinstance(given, kind):
        reader.names(f"{where}.", given)
        return given
    reader.refuse(
        where, said(given), written, "it says what is on hand", f"write {written} or leave it out"
    )
    return None


def _or_none(reader: Reader, where: str, given: object, kind: type[_Kind]) -> _Kind | None:
    """The same for what a shop may do without."""
    if given is None:
        return None
    return _one_of(reader, where, given, kind, f"{kind.__name__}()")


def _usual(reader: Reader, either: tuple[_Kind, _Kind]) -> _Kind:
    """What is usual in the unit that the piece is shown in."""
    return either[1] if reader.shown.is_inch else either[0]


def _lengths(
    reader: Reader, where: str, given: object, usual: tuple[Sequence[str], Sequence[str]],
    limits: tuple[float, float], why: str,
) -> tuple[float, ...]:  # fmt: skip
    """Several lengths [mm]; a lone one is one, an empty list none."""
    written = _usual(reader, usual) if given is None else given
    is_list = isinstance(written, (list, tuple))
    entries: Sequence[object] = written if is_list else (written,)  # type: ignore[assignment]
    return tuple(
        reader.length(
            f"{where} {index + 1}" if is_list else where, each, at_least=limits[0],
            at_most=limits[1], why=why,
        )
        for index, each in enumerate(entries)
    )  # fmt: skip


def _count(reader: Reader, where: str, given: object, most: int, why: str) -> int:
    """A whole number from 1 to `most`; 1 where it is none, noted."""
    return reader.whole(where, given, 1, most, 1, why) or 1


def _yes(reader: Reader, where: str, given: object, why: str) -> bool:
    if isinstance(given, bool):
        return given
    reader.refuse(where, said(given), "True or False", why, "write True or False")
    return True


_HEAD = {
    "outer": (1.0, 10.0, "an outer cutter is as thick as its teeth are wide"),
    "diameter": (80.0, 260.0, "it has to clear the saw's table insert"),
    "deepest": (5.0, 100.0, "the head rises so far above the table"),
    "cuts_wider": (-0.5, 0.5, "a test cut is that near to what stands on the arbor"),
}
_ROUTER = {
    "chamfer": (0.0, 40.0, "the widest chamfer that the bit cuts"),
    "deepest": (5.0, 120.0, "straight bits cut so deep"),
    "base": (60.0, 400.0, "across the base that bears on the wood"),
    "reach": (50.0, 1000.0, "the table's fence moves so far from the bit"),
    "edge_guide": (0.0, 1000.0, "the guide is set so far from the middle of the bit"),
    "each_pass": (0.5, 30.0, "deeper, the bit burns or breaks, and pulls the router along"),
}
_PRESS = {
    "throat": (50.0, 1000.0, "from the drill's middle to the column"),
    "tallest": (50.0, 1500.0, "so tall a piece stands under the drill"),
    "travel": (20.0, 300.0, "the drill comes down so far"),
}
_BED = {
    "widest": (50.0, 1000.0, "its knives are so long"),
    "shortest": (50.0, 2000.0, "a shorter piece tips into the knives"),
    "thinnest": (1.0, 50.0, "a thinner piece shatters"),
}
_CLAMP = {"throat": (10.0, 600.0, "from its bar to the middle of its heads")}
_BAND = {"reach": (200.0, 20_000.0, "it goes round so much")}
"""What lengths of a tool may be [mm], and why."""


def _head(reader: Reader, where: str, given: DadoHead) -> Head:
    single = read_lengths(reader, where, given, _HEAD, USUAL_HEAD)
    why = "both outer cutters are always on, and the arbor ends somewhere"
    arbor = (2.0 * single["outer_mm"], 40.0, why)
    read = Head(
        chippers_mm=_lengths(reader, f"{where}chippers", given.chippers, USUAL_CHIPPERS,
                             (0.5, 10.0), "a chipper is as thick as its teeth are wide"),
        shims_mm=_lengths(reader, f"{where}shims", given.shims, USUAL_SHIMS,
                          (0.02, 2.0), "a shim is thinner than any chipper"),
        **single,
        **read_lengths(reader, where, given, {"widest": arbor}, USUAL_HEAD),
    )  # fmt: skip
    for name, what in (("chippers", read.chippers_mm), ("shims", read.shims_mm)):
        if len(what) > _MOST_LISTED:
            reader.refuse(
                f"{where}{name}", f"{len(what)} of them", f"at most {_MOST_LISTED}",
                "no arbor takes more, and every choice of them is tried",
                f"list the {_MOST_LISTED} that you use",
            )  # fmt: skip
    return read


def _bits(reader: Reader, where: str, given: Router) -> RouterBits:
    return RouterBits(
        straight_mm=_lengths(reader, f"{where}straight", given.straight, USUAL_STRAIGHT,
                             (1.0, 60.0), "a straight bit's diameter"),
        round_over_mm=_lengths(reader, f"{where}round_over", given.round_over, USUAL_ROUND_OVER,
                               (0.5, 50.0), "a round-over bit's radius"),
        **read_lengths(reader, where, given, _ROUTER, USUAL_ROUTER),
        has_table=_yes(reader, f"{where}table", given.table,
                       "it says whether the router hangs under a table"),
    )  # fmt: skip


def _drills(reader: Reader, where: str, given: Drills) -> DrillBits:
    return DrillBits(
        diameters_mm=_lengths(reader, f"{where}diameters", given.diameters, USUAL_DRILLS,
                              (0.3, 80.0), "a drill's diameter"),
        **read_lengths(reader, where, given, _PRESS, USUAL_PRESS),
        has_press=_yes(reader, f"{where}press", given.press, "it says whether there is one"),
        has_jig=_yes(reader, f"{where}jig", given.jig, "it says whether there is one"),
    )  # fmt: skip


def _clamps(reader: Reader, where: str, given: object) -> tuple[ClampLot, ...]:
    usual = tuple(
        Clamps(kind=kind, opening=_usual(reader, opening), count=count)
        for kind, opening, count in USUAL_CLAMPS
    )
    example = "Clamps(kind=ClampKind.LIGHT_BAR, opening='900 mm')"
    entries = usual if given is None else reader.several(where, given, Clamps, example)
    found = []
    for index, each in enumerate(entries):
        at = f"{where} {index + 1}"
        one = _one_of(reader, at, each, Clamps, example)
        if one is None:
            continue
        kind = reader.choice(f"{at} kind", one.kind, ClampKind, ClampKind.LIGHT_BAR)
        force = USUAL_FORCE[kind] if one.force is None else one.force
        found.append(
            ClampLot(
                kind=kind,
                force_n=reader.force(f"{at} force", force),
                opening_mm=reader.length(f"{at} opening", one.opening, at_least=20.0,
                                         at_most=5000.0, why="its jaws open so far"),
                **read_lengths(reader, f"{at} ", one, _CLAMP, {"throat": USUAL_THROAT[kind]}),
                count=_count(reader, f"{at} count", one.count, _MOST_SETS, "so many there are"),
            )
        )  # fmt: skip
    return tuple(found)


def _band(reader: Reader, where: str, given: BandClamp) -> Band:
    tension = _usual(reader, USUAL_BAND["tension"]) if given.tension is None else given.tension
    return Band(
        tension_n=reader.force(f"{where}tension", tension),
        **read_lengths(reader, where, given, _BAND, USUAL_BAND),
        count=_count(reader, f"{where}count", given.count, _MOST_SETS, "so many there are"),
    )  # fmt: skip


def _glue(reader: Reader, where: str, given: Glue) -> GlueFacts:
    family = reader.choice(f"{where}family", given.family, GlueFamily, GlueFamily.PVA_YELLOW)
    usual = USUAL_GLUES[family]
    read = replace(
        usual,
        open_minutes=_minutes(reader, f"{where}open_minutes", given.open_minutes,
                              usual.open_minutes),
        assembly_minutes=_minutes(reader, f"{where}assembly_minutes", given.assembly_minutes,
                                  usual.assembly_minutes),
        clamp_minutes=_minutes(reader, f"{where}clamp_minutes", given.clamp_minutes,
                               usual.clamp_minutes),
    )  # fmt: skip
    open_minutes, assembly = read.open_minutes, read.assembly_minutes
    if open_minutes is not None and assembly is not None and open_minutes > assembly:
        reader.refuse(
            f"{where}assembly_minutes", f"{assembly:g}", f"at least {open_minutes:g}",
            "it counts from the first spread, as the open time does, and ends later",
            f"make it {open_minutes:g} or what the label says",
        )  # fmt: skip
    return read


def _minutes(reader: Reader, where: str, given: object, usual: float | None) -> float | None:
    """A number of minutes, or the usual; not-a-number where it is none, noted."""
    if given is None:
        return usual
    is_number = isinstance(given, (int, float)) and not isinstance(given, bool)
    if is_number and 0.0 < float(given) <= _LONGEST_MINUTES:  # type: ignore[arg-type]
        return float(given)  # type: ignore[arg-type]
    reader.refuse(
        where, said(given), f"a number of minutes up to {_LONGEST_MINUTES:g}",
        "the label gives a time", f"write {usual:g}" if usual else "leave it out",
    )  # fmt: skip
    return math.nan


def _finish(reader: Reader, where: str, given: Finishing) -> FinishOnHand:
    family = reader.choice(f"{where}family", given.family, FinishFamily, FinishFamily.OIL_VARNISH)
    facts = USUAL_FINISHES[family]
    if given.coats is None:
        return FinishOnHand(facts=facts, coats=facts.coats)
    why = "so many coats are put on; without any write finish=None"
    return FinishOnHand(facts=facts, coats=_count(reader, f"{where}coats", given.coats, 20, why))


def rules_of_shop(shop: object, rules: ShopRules | None) -> ShopRules | None:
    """The shop's own limits, with what was measured there and its joints go by.

    Args:
        shop: a `Shop`, or None.
        rules: that the maker hands on; what they say themselves stands.
    """
    if not isinstance(shop, Shop) or shop.slip_play is None:
        return rules
    if rules is not None and not isinstance(rules, ShopRules):
        return rules  # refused where rules are read
    given = {} if rules is None else rules.given
    return ShopRules(**{SLIP_PLAY.name: shop.slip_play, **given})
