"""What a part is sawn from: a rough blank of its own, or its place in a strip."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from furniture.making.making import Making
from furniture.making.workpieces import Wood
from furniture.parts.part import Part
from furniture.units import Shown, figure, listed
from furniture.units.showing import without_mark


@dataclass(frozen=True, slots=True, kw_only=True)
class InStrip:
    """An instance's place in a strip that several parts come off.

    Args:
        strip: what the strip is called.
        size: its rough length and width [mm].
        place: of the instance, from 1.
        count: of all in it.
    """

    strip: str
    size: tuple[float, float]
    place: int
    count: int


def strips_of(making: Making) -> Mapping[str, InStrip]:
    """The place of every instance that comes off a strip.

    Args:
        making: of the piece.
    """
    return {
        name: InStrip(
            strip=each.id,
            size=(each.high[0] - each.low[0], each.high[1] - each.low[1]),
            place=place,
            count=len(each.instances),
        )
        for each in making.workpieces
        if each.what is Wood.COMMON_BLANK
        for place, name in enumerate(each.instances, start=1)
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """What a part is sawn from, in full and as short as a table has it."""

    in_full: str
    in_short: str


def sawn_from(
    part: Part, instances: Sequence[str], strips: Mapping[str, InStrip], shown: Shown
) -> Sawn:
    """What the instances of a part are sawn from.

    Args:
        part: the part.
        instances: of it, and of its mirror image where one drawing is of both.
        strips: the places of those that come off one.
        shown: how lengths are shown.
    """
    found = [strips[name] for name in instances if name in strips]
    if len(found) < len(instances) or len({each.strip for each in found}) != 1:
        blank, rough = part.blank, part.rough
        lengths = (blank.length_mm + rough.length_mm, blank.width_mm + rough.width_mm)
        text = _size(lengths, shown)
        return Sawn(in_full=f"rough {text}", in_short=text)
    first = found[0]
    which = _places((each.place for each in found), first.count)
    return Sawn(
        in_full=f"off {first.strip}, rough {_size(first.size, shown)}: {which}",
        in_short=f"off {first.strip}",
    )


def _size(lengths: Iterable[float], shown: Shown) -> str:
    # a rough size is no fit: that it is rounded needs no mark
    return " x ".join(without_mark(figure(length, shown)) for length in lengths)


def _places(places: Iterable[int], count: int) -> str:
    listed_places = sorted(places)
    if len(listed_places) == count:
        return f"all {count}"
    return f"{listed([str(each) for each in listed_places])} of {count} along it"
