"""What a part is sawn from: a rough blank of its own, or its place in a strip."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

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
    """What parts are sawn from.

    Args:
        size: rough length and width of it, in words.
        strip: what the strip is called that they come off; none where each has a blank of its own.
        places: of theirs in the strip, from 1, in order.
        count: of all in it.
    """

    size: str
    strip: str | None = None
    places: tuple[int, ...] = ()
    count: int = 0

    @property
    def in_full(self) -> str:
        """With the places in a strip."""
        if self.strip is None:
            return f"rough {self.size}"
        which = f"{listed([str(each) for each in self.places])} of {self.count} along it"
        if len(self.places) == self.count:
            which = f"all {self.count}"
        return f"off {self.strip}, rough {self.size}: {which}"

    @property
    def in_short(self) -> str:
        """As a table has it."""
        return self.size if self.strip is None else f"off {self.strip}"


def together(every: Sequence[Sawn]) -> Sawn | None:
    """What several parts are sawn from, where that is one strip or a blank of one size; else none.

    Args:
        every: of each part.
    """
    first = every[0]
    if any((each.strip, each.size) != (first.strip, first.size) for each in every):
        return None
    return replace(first, places=tuple(sorted(at for each in every for at in each.places)))


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
        return Sawn(size=_size(lengths, shown))
    first = found[0]
    return Sawn(
        size=_size(first.size, shown),
        strip=first.strip,
        places=tuple(sorted(each.place for each in found)),
        count=first.count,
    )


def _size(lengths: Iterable[float], shown: Shown) -> str:
    # a rough size is no fit: that it is rounded needs no mark
    return " x ".join(without_mark(figure(length, shown)) for length in lengths)
