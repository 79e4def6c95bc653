"""A part: a blank of one stock and the cuts made in it, in order; and a part in its place."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace

from furniture.errors import Problem
from furniture.parts.blank import Blank
from furniture.parts.cuts import Channel, Cut, problems_of, record_of, shapes_of
from furniture.parts.cuts.cut import RecordValue
from furniture.parts.faces import Face
from furniture.parts.placement import Placement
from furniture.timber.stock import Timber
from furniture.units import Shown, millimetres

LONGEST_SLUG = 56
"""Letters of a name in a file name. Own rule: a file name has 255 bytes, and a letter up to 4."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """What is left on a blank until it is cut to size, on its length and width [mm]."""

    length_mm: float = 0.0
    width_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part as it leaves the bench, in its own frame.

    `trimmed_last` is the end that stays long until the joints fit, when the builder knows of one.
    """

    name: str
    blank: Blank
    timber: Timber
    cuts: tuple[Cut, ...] = ()
    rough: Rough = Rough()
    trimmed_last: Face | None = None

    @property
    def id(self) -> str:
        """What tables, records and file names know the part by; in a piece no other part has it."""
        return slug_of(self.name)


@dataclass(frozen=True, slots=True)
class Kin:
    """What an instance is among its like: `left side rail` is a `rail`, `tier 3` the third `tier`.

    Args:
        noun: what each of them is called.
        number: in their row; None where they are told apart otherwise.
    """

    noun: str
    number: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One instance of a part in the piece; `kin` where its builder knows of others like it."""

    instance: str
    part: Part
    placement: Placement
    kin: Kin | None = None

    @property
    def noun(self) -> str:
        """What it and its like are called; its own name where it is the only one."""
        return self.instance if self.kin is None else self.kin.noun


def kin_written(name: str) -> Kin | None:
    """What a maker's own name says: `slat 3` is the third `slat`. Only for what a maker writes.

    Args:
        name: words, a space and a whole number as one counts, from 1 on; else it says nothing.
    """
    found = re.fullmatch(r"(.*\S) ([1-9][0-9]{0,3})", name)
    return None if found is None else Kin(found[1], int(found[2]))


def slug_of(name: str) -> str:
    """A name in lower case, anything but letters and figures turned into single hyphens.

    It is cut to `LONGEST_SLUG` letters. Letters with a mark are the same however they are encoded.
    """
    plain = unicodedata.normalize("NFC", name.lower())
    words = "".join(letter if letter.isalnum() else " " for letter in plain).split()
    return "-".join(words)[:LONGEST_SLUG].rstrip("-")


def misfits_of(part: Part, shown: Shown | None = None) -> tuple[Problem, ...]:
    """Every number of the part's cuts that its blank cannot take, in the piece's unit."""
    return tuple(
        problem
        for cut in part.cuts
        for problem in problems_of(cut, part.blank, part.name, shown or millimetres())
    )


def trenches_across(part: Part) -> tuple[Channel, ...]:
    """The trenches across the grain of a wide face, with a shoulder on both sides: housings."""
    return tuple(
        channel for channel in shapes_of(part.cuts, part.blank, Channel) if channel.is_across_grain
    )


def turned(part: Part, axis: int) -> Part:
    """The same part described after half a turn about its own axis 0, 1 or 2."""
    last = part.trimmed_last
    if last is not None and last.axis != axis:
        last = last.opposite
    cuts = tuple(cut.turned_about(axis, part.blank) for cut in part.cuts)
    return replace(part, cuts=cuts, trimmed_last=last)


def turned_placement(placement: Placement, axis: int, blank: Blank) -> Placement:
    """Where the frame stands when the part is described after half a turn about `axis`."""
    corner = [0.0 if other == axis else blank.size[other] for other in range(3)]
    origin = placement.to_piece((corner[0], corner[1], corner[2]))
    signs = [1.0 if other == axis else -1.0 for other in range(2)]
    x_axis = placement.direction_to_piece((signs[0], 0.0, 0.0))
    y_axis = placement.direction_to_piece((0.0, signs[1], 0.0))
    return Placement(origin=origin, x_axis=x_axis, y_axis=y_axis)


def work_key(part: Part) -> tuple[object, ...]:
    """A key that two parts share when they are the same wood cut the same way, names aside."""
    cuts = sorted(
        repr([(key, _rounded(value)) for key, value in record_of(cut).items()]) for cut in part.cuts
    )
    sizes = tuple(_rounded(size) for size in part.blank.size)
    return (part.timber, part.rough, part.trimmed_last, sizes, tuple(cuts))


def _rounded(value: RecordValue) -> RecordValue:
    return round(value, 6) + 0.0 if isinstance(value, float) else value
