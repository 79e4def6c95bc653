"""What the planner is asked to cut: one part for all copies, or blanks, that ask for the same."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.parts.part import Part
from furniture.pieces import Piece, distinct_parts
from furniture.rules import Rules
from furniture.rules.staying import LEAST_WIDTH_ALLOWANCE, WISHED_SHARE
from furniture.shop.boards.copies import Copy, LotBlank, Stretch
from furniture.shop.boards.joints_off_cuts import bands_of_cuts
from furniture.shop.boards.lots import Lot, off_their_boards, pieces_of
from furniture.shop.boards.reading_wishes import Strips, Wish
from furniture.shop.cutting import values as cutting


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDemands:
    """What is asked of the parts beside their sizes.

    Args:
        wish_of: of the instances that have one of their own.
        matched: instances whose grain belongs with that of others of their copy.
        strips: how parts are glued up.
        keys: of boards and parts, by the stock's name.
        usual_price: of a wish that names none [money].
        rules: the maker's.
    """

    wish_of: Mapping[str, Wish]
    matched: Container[str]
    strips: Strips
    keys: Mapping[str, str]
    usual_price: float
    rules: Rules


CopiesOf = dict[str, tuple[Copy, ...]]
"""What each copy of a planner's part becomes, by the part's name."""


def cut_parts(
    lots: Sequence[Lot], demands: PartDemands, blanks: Sequence[LotBlank] = ()
) -> tuple[tuple[cutting.CutPart, ...], CopiesOf]:
    """The planner's parts, and what their copies become by each part's name.

    Copies share a part unless their wishes differ; one whose grain belongs with the others of its
    copy is its own, or the planner would take those of two copies for one set.

    Args:
        blanks: common blanks; every other instance is cut by itself.
    """
    parts: list[cutting.CutPart] = []
    copies: CopiesOf = {}
    pieces = pieces_of(lots)
    taken = frozenset(name for blank in blanks for name in blank.instances) | off_their_boards(lots)
    for piece in pieces:
        named = piece if len(pieces) > 1 else None
        parts += _common_parts([b for b in blanks if b.lot.piece is piece], named, demands, copies)
        for distinct in distinct_parts(piece):
            groups: dict[tuple[str, Wish], list[str]] = {}
            named_by_all: dict[str, str] = {}
            for lot in (each for each in lots if each.piece is piece):
                own = {lot.called(name): name for name in distinct.instances}
                mark = lot.mark if any(name in demands.matched for name in own) else ""
                named_by_all |= own
                for name in (each for each in own if each not in taken):
                    groups.setdefault((mark, demands.wish_of.get(name, Wish())), []).append(name)
            for (mark, wish), names in groups.items():
                alike = [each for each in groups if each[0] == mark]
                name = _name(distinct.part.name, named, mark)
                if (len(groups) > 1 and not mark) or len(alike) > 1 or name in copies:
                    name = _name_of_some(names, name, copies)
                copies[name] = tuple(
                    _lone(each, named_by_all[each], distinct.part) for each in names
                )
                parts.append(_part(distinct.part, name, len(names), wish, demands))
    return tuple(parts), copies


def _lone(called: str, name: str, part: Part) -> Copy:
    stretch = Stretch(
        instance=called, name=name, part=part.id, at_mm=0.0, length_mm=part.blank.length_mm
    )
    return Copy(name=called, stretches=(stretch,))


def _common_parts(
    blanks: Sequence[LotBlank], piece: Piece | None, demands: PartDemands, copies: CopiesOf
) -> list[cutting.CutPart]:
    """A part for all copies of a common blank that ask for the same; `copies` learns of them."""
    groups: dict[tuple[str, tuple[str, ...], cutting.CutPart], list[LotBlank]] = {}
    for blank in blanks:
        mark = blank.lot.mark if any(n in demands.matched for n in blank.instances) else ""
        asked = common_part(blank, demands)
        groups.setdefault((mark, blank.common.instances, asked), []).append(blank)
    parts = []
    for (mark, _, asked), alike in groups.items():
        name = _name(asked.name, piece, mark)
        if name in copies:
            name = f"{name}: {', '.join(alike[0].instances)}"
        own = [each for each in groups if each[0] == mark and each[2].name == asked.name]
        copies[name] = tuple(_shared(each, is_only=len(own) == 1) for each in alike)
        parts.append(replace(asked, name=name, quantity=len(alike)))
    return parts


def _shared(blank: LotBlank, *, is_only: bool) -> Copy:
    """What a common blank becomes; where others have its name, its instances tell them apart."""
    name = blank.common.name
    if not is_only:
        name = f"{name}: {', '.join(blank.common.instances)}"
    return Copy(
        name=blank.lot.called(name),
        stretches=tuple(
            Stretch(
                instance=blank.lot.called(each.instance),
                name=each.instance,
                part=each.part.id,
                at_mm=each.at_mm,
                length_mm=each.part.blank.length_mm,
            )
            for each in blank.common.members
        ),
        common=blank.common,
    )


def common_part(blank: LotBlank, demands: PartDemands) -> cutting.CutPart:
    """A common blank for the planner: it puts up with what all its members put up with."""
    common = blank.common
    wishes = [demands.wish_of.get(name, Wish()) for name in blank.instances]
    return cutting.CutPart(
        name=common.name,
        quantity=1,
        length_mm=common.blank.length_mm,
        width_mm=common.blank.width_mm,
        thickness_mm=common.blank.thickness_mm,
        species=demands.keys[common.timber.name],
        length_allowance_mm=common.rough_length_mm - common.blank.length_mm,
        width_allowance_mm=common.rough.width_mm,
        least_width_allowance_mm=demands.rules[LEAST_WIDTH_ALLOWANCE],
        show_face_tolerates=frozenset.intersection(*(each.show for each in wishes)),
        hidden_face_tolerates=frozenset.intersection(*(each.hidden for each in wishes)),
    )


def _name(name: str, piece: Piece | None, mark: str) -> str:
    before = mark or ("" if piece is None else piece.name)
    return f"{before}: {name}" if before else name


def _name_of_some(names: Sequence[str], name: str, taken: Container[str]) -> str:
    """What the planner calls some of the instances of a part."""
    several = ", ".join(names)
    return f"{several} ({name})" if several in taken else several


def _part(
    part: Part, name: str, quantity: int, wish: Wish, demands: PartDemands
) -> cutting.CutPart:
    return cutting.CutPart(
        name=name,
        quantity=quantity,
        length_mm=part.blank.length_mm,
        width_mm=part.blank.width_mm,
        thickness_mm=part.blank.thickness_mm,
        species=demands.keys[part.timber.name],
        length_allowance_mm=part.rough.length_mm,
        width_allowance_mm=part.rough.width_mm,
        least_width_allowance_mm=demands.rules[LEAST_WIDTH_ALLOWANCE],
        show_face_tolerates=wish.show,
        hidden_face_tolerates=wish.hidden,
        grain=wish.grain,
        wants=wish.wants,
        wished_share=demands.rules[WISHED_SHARE],
        want_price=demands.usual_price if wish.want_price is None else wish.want_price,
        worth=wish.worth,
        glue_up=cutting.GlueUp(
            jointing_allowance_mm=demands.strips.jointing_mm,
            keep_clear_mm=bands_of_cuts(part, demands.strips.off_cuts_mm, demands.rules),
            narrowest_strip_mm=demands.strips.narrowest_strip_mm,
        ),
    )
