"""What the planner is asked to cut: one part for all copies that ask for the same."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from furniture.parts.part import Part
from furniture.pieces import Piece, distinct_parts
from furniture.rules.staying import LEAST_WIDTH_ALLOWANCE
from furniture.shop.boards.joints_off_cuts import bands_of_cuts
from furniture.shop.boards.lots import Lot, pieces_of
from furniture.shop.boards.reading_wishes import Strips, Wish
from furniture.shop.cutting import values as cutting


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """What is asked of the parts beside their sizes.

    Args:
        wish_of: of the instances that have one of their own.
        matched: instances whose grain belongs with that of others of their copy.
        strips: how parts are glued up.
        keys: of boards and parts, by the stock's name.
        usual_price: of a wish that names none [money].
    """

    wish_of: Mapping[str, Wish]
    matched: Container[str]
    strips: Strips
    keys: Mapping[str, str]
    usual_price: float


def cut_parts(
    lots: Sequence[Lot], asking: Asking
) -> tuple[tuple[cutting.CutPart, ...], dict[str, tuple[str, ...]]]:
    """The planner's parts, and the instances of each by its name.

    Copies share a part unless their wishes differ; one whose grain belongs with the others of its
    copy is its own, or the planner would take those of two copies for one set.

    Args:
        lots: all copies.
        asking: what is asked of them.
    """
    parts: list[cutting.CutPart] = []
    instances: dict[str, tuple[str, ...]] = {}
    pieces = pieces_of(lots)
    for piece in pieces:
        copies = [lot for lot in lots if lot.piece is piece]
        for distinct in distinct_parts(piece):
            groups: dict[tuple[str, Wish], list[str]] = {}
            for lot in copies:
                own = [lot.called(name) for name in distinct.instances]
                mark = lot.mark if any(name in asking.matched for name in own) else ""
                for name in own:
                    groups.setdefault((mark, asking.wish_of.get(name, Wish())), []).append(name)
            for (mark, wish), names in groups.items():
                alike = [each for each in groups if each[0] == mark]
                name = _name(distinct.part, piece if len(pieces) > 1 else None, mark)
                if (len(groups) > 1 and not mark) or len(alike) > 1 or name in instances:
                    name = _name_of_some(names, name, instances)
                instances[name] = tuple(names)
                parts.append(_part(distinct.part, name, len(names), wish, asking))
    return tuple(parts), instances


def _name(part: Part, piece: Piece | None, mark: str) -> str:
    before = mark or ("" if piece is None else piece.name)
    return f"{before}: {part.name}" if before else part.name


def _name_of_some(names: Sequence[str], name: str, taken: Container[str]) -> str:
    """What the planner calls some of the instances of a part."""
    several = ", ".join(names)
    return f"{several} ({name})" if several in taken else several


def _part(part: Part, name: str, quantity: int, wish: Wish, asking: Asking) -> cutting.CutPart:
    return cutting.CutPart(
        name=name,
        quantity=quantity,
        length=part.blank.length_mm,
        width=part.blank.width_mm,
        thickness=part.blank.thickness_mm,
        species=asking.keys[part.timber.name],
        length_allowance=part.rough.length_mm,
        width_allowance=part.rough.width_mm,
        least_width_allowance=LEAST_WIDTH_ALLOWANCE.value,
        show_face_tolerates=wish.show,
        hidden_face_tolerates=wish.hidden,
        grain=wish.grain,
        wants=wish.wants,
        want_price=asking.usual_price if wish.want_price is None else wish.want_price,
        worth=wish.worth,
        glue_up=cutting.GlueUp(
            jointing_allowance=asking.strips.jointing,
            keep_clear=bands_of_cuts(part, asking.strips.off_cuts),
            narrowest_strip=asking.strips.narrowest,
        ),
    )
