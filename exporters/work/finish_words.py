"""Sanding and finish in a maker's words: grits, coats, waits, and what goes over what."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator

from exporters.faces import FaceNames, is_outside
from exporters.work.names import counted_woods
from furniture.joints.joint import Role
from furniture.making.amounts import Finishing
from furniture.making.making import Making
from furniture.making.operations import Operation, Stage
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.placement import box_of
from furniture.parts.vectors import DOWN, UP
from furniture.pieces.piece import Piece, placed_named
from furniture.shop.tools.finishes import FinishFacts, Over, goes_over
from furniture.shop.tools.kinds import FinishFamily
from furniture.units import Amounts, listed

CORNERS = "what no brush will reach well in the glued corners"
"""What is finished before the glue where nothing stands round a room."""
THE_SAME = "what was sanded"
"""What the steps after the sanding go over."""
BARE = "what is bare"
"""What is left for the end, when the inside is done."""
EASED = "ease edges"
"""The last that a hand does to bare wood. Common practice, no source."""


class FinishWords:
    """Tells how a piece is sanded and finished, before the glue and at the end."""

    def __init__(self, piece: Piece, making: Making) -> None:
        self._finishing, self._show = making.finishing, Amounts(shown=piece.shown)
        self._copies = making.copies
        self._shut_in = shut_in_words(piece, making)
        self._first = {each.kind: each.key for each in reversed(making.operations)}

    def sanded(self, operation: Operation) -> str:
        """The grits, where they are told first; at the end what a hand takes off besides.

        Args:
            operation: that sands.
        """
        if operation.stage is Stage.INSIDE:
            return sanded_in_words(self._finishing, self._shut_in, self._as_before(operation))
        bare = sanded_in_words(self._finishing, "", self._as_before(operation))
        return f"{bare}, {EASED}"

    def coated(self, operation: Operation) -> str:
        """The coats, where they are told first; at the end what it takes in all.

        Args:
            operation: that coats.
        """
        is_last = operation.stage is not Stage.INSIDE
        as_before = self._as_before(operation)
        return coated_in_words(
            self._finishing, self._show, is_last=is_last, as_before=as_before, copies=self._copies
        )

    def _as_before(self, operation: Operation) -> bool:
        """Whether the same was done to other wood before, so that its figures are told there."""
        return self._first[operation.kind] != operation.key


def shut_in_words(piece: Piece, making: Making) -> str:
    """What the glue shuts in: the insides of what stands round a room, what closes it above and
    below on that side, and all of what lies dry.

    Args:
        piece: that is finished.
        making: of it, with its glue-ups.
    """
    dry = dict.fromkeys(
        name for each in making.operations if each.glue_up for name in each.glue_up.dry
    )
    in_slots = {each.incoming for each in piece.joinings if each.role is Role.LOOSE_TONGUE}
    inside = [
        each.instance
        for each in piece.placed
        if is_outside(piece, each, Face.FACE_SIDE) is not None
        and each.instance not in in_slots | set(dry)
    ]
    told = [f"the inside of {counted_woods(piece, inside)}"] if inside else []
    told += _closing_in_words(piece, dry)
    told += [f"all of {counted_woods(piece, tuple(dry))}"] if dry else []
    return ", ".join(told) or CORNERS


def _closing_in_words(piece: Piece, dry: Collection[str]) -> Iterator[str]:
    """The faces that glued panels turn to one another: the last of them shuts both in."""
    in_rims = [each for each in piece.joinings if each.role is Role.RIM]
    glued = {each.incoming for each in in_rims if each.glue_area_mm2 > 0.0}
    staying = {
        name: placed_named(piece, name)
        for name in dict.fromkeys(each.incoming for each in in_rims)
        if name in glued or name in dry
    }
    heights = {
        name: box_of(placed.part.blank, placed.placement)[0][2]
        for name, placed in staying.items()
        if any(placed.placement.face_towards(UP) is face for face in WIDE_FACES)
    }
    faces = FaceNames(piece=piece)
    for name in heights:
        ways = {UP if high > heights[name] else DOWN
                for other, high in heights.items() if other != name}  # fmt: skip
        for way in (each for each in (UP, DOWN) if name in glued and each in ways):
            face = staying[name].placement.face_towards(way)
            yield f"the {faces.of((name,), face)} of {name}"


def sanded_in_words(finishing: Finishing | None, what: str, as_before: bool = False) -> str:
    """The grits in order.

    Args:
        finishing: of the piece, where it is known.
        what: is sanded; empty where that stands before it.
        as_before: the grits were told with other wood.
    """
    verb = f"sand {what}".strip()
    if finishing is None:
        return verb
    if as_before:
        return f"{verb} as before"
    raised = ", wet it, let it dry, sand once more" if finishing.facts.raises_grain else ""
    return f"{verb}, grits {listed([str(each) for each in finishing.grits])}{raised}"


def coated_in_words(
    finishing: Finishing | None,
    show: Amounts,
    *,
    is_last: bool,
    as_before: bool = False,
    copies: int = 1,
) -> str:
    """The coats with all that is known of them; the label has the last word.

    Args:
        finishing: of the piece, where it is known.
        show: puts amounts into the piece's units.
        is_last: whether it is the whole piece, and not what is shut in after it.
        as_before: the coats were told with other wood.
        copies: of the piece that are finished side by side.
    """
    verb = "finish" if is_last else f"finish {THE_SAME}"
    if finishing is None:
        return verb
    facts = finishing.facts
    between = "" if facts.between_grit is None else f", sanded {facts.between_grit} between"
    coats = f"{finishing.coats} coats of {facts.family.value}"
    told = f"{verb}: {coats}, {facts.recoat_hours:g} h apart{between}"
    if as_before:
        told = f"{verb} as before"
    if not is_last:
        return told
    days = finishing.time.work_days
    return (
        f"{told}: {days} {'days' if days > 1 else 'day'} of work; "
        f"{show.tinful(copies * finishing.litres)} in all for "
        f"{show.surface(copies * finishing.area_mm2)}{of_all(copies)}; nothing stands on it for "
        f"{facts.cured_days:g} days; the label decides"
    )


def used_up_in_words(making: Making, show: Amounts) -> Iterator[str]:
    """How much glue and finish the whole work takes.

    Args:
        making: of a piece.
        show: puts amounts into the piece's units.
    """
    copies = making.copies
    if making.gluing:
        grams = copies * sum(each.grams for each in making.gluing)
        glue = making.gluing[0].glue.family.value
        yield f"{glue}: about {show.spoonful(grams)} over all glue-ups{of_all(copies)}"
    finishing = making.finishing
    if finishing is not None:
        amount = show.tinful(copies * finishing.litres)
        coats = f"{finishing.coats} coats{of_all(copies)}"
        told = f"{finishing.facts.family.value}: about {amount} for {coats}"
        yield f"{told}; {over_in_words(finishing.facts)}"


def of_all(copies: int) -> str:
    """Of how many copies an amount is; nothing of one alone.

    Args:
        copies: that are made side by side.
    """
    if copies < 2:
        return ""
    return " of both" if copies == 2 else f" of all {copies}"


_SAID = {
    Over.CURED: "{} only once cured",
    Over.DEWAXED: "{} only if free of wax",
    Over.NEVER: "never over {}",
}


def over_in_words(facts: FinishFacts) -> str:
    """What it goes over only so or never, should something be on the wood; over all else once dry.

    Args:
        facts: of the finish.
    """
    under: dict[Over, list[str]] = defaultdict(list)
    for family in FinishFamily:
        under[goes_over(facts.family, family)].append(family.value)
    said = [_SAID[each].format(_either(under[each])) for each in _SAID if under[each]]
    return f"over {', '.join((*said, 'never over wax'))}".replace("over never", "never")


def _either(names: list[str]) -> str:
    return listed(names).replace(" and ", " or ")
