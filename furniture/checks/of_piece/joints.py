"""Joints: housed shelves as levers, posts at their weakest dado, and mitred corners."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from furniture.checks.finding import Finding, Show
from furniture.checks.housed_ends import end_finding
from furniture.checks.housing import Housing, Lever
from furniture.checks.housing_findings import droop_finding, housing_findings
from furniture.checks.mitre import CornerRule, Mitre, mitre_finding
from furniture.checks.of_piece.corners import mitres_of
from furniture.checks.of_piece.reading import (
    Held,
    advised,
    axis_towards,
    is_upright,
    shown_by,
    side_of,
    worst_alone,
)
from furniture.checks.of_piece.sections import covered_mm, reach_along, taken_from
from furniture.checks.of_piece.setting import Setting
from furniture.checks.of_piece.supported import Supported, brackets_of, ledges_of
from furniture.checks.post import Post, PostLoad, Waist, post_finding
from furniture.checks.rows.joints import HAND_HOUSED_GLUE, HAND_LEVER, HOUSED_GLUE
from furniture.checks.seasons import difference_across
from furniture.checks.side_by_side import spread
from furniture.checks.strength import Grain
from furniture.joints.joint import GrainRelation
from furniture.parts.cuts import Bite, Channel, Cut, Hole, shapes_of
from furniture.parts.part import Placed
from furniture.parts.vectors import UP, cross
from furniture.pieces import Piece
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import POST_KNOCK
from furniture.rules.staying import LEAST_WOOD
from furniture.rules.wood import HARMLESS_PRESS, SHORT_BOX_HEIGHT, SHORT_BOX_SIDE
from furniture.timber.movement import NoCoefficient
from furniture.units import the_listed
from furniture.units.gravity import GRAVITY_M_S2

HAIR_MM = 0.01
GLUE_CHECKS = (HOUSED_GLUE, HAND_HOUSED_GLUE)
SIDE_GRAIN = (GrainRelation.LONG_TO_LONG, GrainRelation.CROSSING)


def joint_findings_of(
    piece: Piece, supported: Sequence[Supported], setting: Setting, *, is_table_top: bool
) -> tuple[Finding, ...]:
    """Every housed shelf as a lever, its droop, the posts, and the mitred corners: the worst alone.

    A housing droops only where nothing is glued: a clamp closes any other.

    Args:
        piece: the piece as cut
        supported: its level surfaces and what bears them
        setting: where it stands, and the maker's rules
        is_table_top: whether it is judged as a table-top piece
    """
    show, rules = shown_by(piece), setting.rules

    def housed(each: Supported) -> list[Finding]:
        return _housed(piece, each, setting, show)

    found = advised(supported, lambda each: housed(_nothing_put_under(each)), housed)
    corners = (
        mitre_finding(mitre, show, _corner_rule(mitre, rules, is_table_top=is_table_top), rules)
        for mitre in mitres_of(piece)
    )
    return (
        *worst_alone(found, show),
        *post_findings(supported, show, rules),
        *worst_alone(corners),
    )


def _housed(piece: Piece, supported: Supported, setting: Setting, show: Show) -> list[Finding]:
    """What is found of the housings of one shelf."""
    rules = setting.rules
    if not supported.one_side:
        return _ends_in_dados(piece, supported, show, rules) if supported.two_sides else []
    housing = housing_of(supported, rules)
    found = _spoken(housing_findings(housing, load_lever(supported), show, rules), housing)
    found += _hand_findings(supported, show, rules)
    if not _is_glued(housing):
        play = _play_to_swell_mm(supported, setting)
        found.append(droop_finding(housing, show, play, rules))
    return found


def _nothing_put_under(supported: Supported) -> Supported:
    """The same where nothing is advised under it: whether it is taken is tried by building."""
    return replace(supported, bearers=())


def hand_levers_of(
    supported: Sequence[Supported], show: Show, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...]:
    """How a hand on its front edge presses the dado of every shelf that is held from one side.

    Their figures; what is advised against them may lack what is put under a shelf.

    Args:
        supported: the level surfaces and what bears them
        show: puts a length into the piece's unit
        rules: the maker's
    """
    return tuple(
        told
        for each in supported
        if each.one_side
        for told in _hand_findings(_nothing_put_under(each), show, rules)
        if told.check == HAND_LEVER
    )


def _hand_findings(supported: Supported, show: Show, rules: Rules) -> list[Finding]:
    housing = housing_of(supported, rules)
    told = _spoken(housing_findings(housing, hand_lever(supported), show, rules), housing)
    return [each for each in told if each.value is not None]


def _corner_rule(mitre: Mitre, rules: Rules, *, is_table_top: bool) -> CornerRule:
    """How a mitred corner is judged: those of a short box on a table last without keys."""
    is_short = (
        mitre.height_mm < rules[SHORT_BOX_HEIGHT] and mitre.rail_length_mm < rules[SHORT_BOX_SIDE]
    )
    if not (is_table_top and is_short):
        return CornerRule.JUDGED
    return CornerRule.NOTED if mitre.bottom_is_held else CornerRule.MILD


def _play_to_swell_mm(supported: Supported, setting: Setting) -> float:
    """The play [mm] that a housed shelf needs so that its thickness can swell; 0 if not known."""
    held = supported.one_side[0]
    axis = axis_towards(held.into, held.incoming.placement.z_axis)
    shelf, housing = side_of(held.incoming, 2), side_of(held.into, axis, held.housing.thickness_mm)
    try:
        swells = difference_across(shelf, housing, setting.climate).dampest_mm
    except NoCoefficient:
        return 0.0
    return max(0.0, swells - setting.rules[HARMLESS_PRESS])


def _is_glued(housing: Housing) -> bool:
    return housing.side_grain_mm2 + housing.end_grain_mm2 > 0.0


def housing_of(supported: Supported, rules: Rules = USUAL_RULES) -> Housing:
    """The housing of a shelf that is held from one side, strips of one post taken together.

    Args:
        supported: the shelf and what bears it
        rules: the maker's
    """
    held = supported.one_side
    joining = held[0].joining
    faces = [face for each in held for face in each.joining.glued_faces]
    return Housing(
        name=supported.name,
        shelf=supported.shelf.part.timber.species,
        post=held[0].into.part.timber.species,
        width_mm=math.fsum(each.run_mm for each in held),
        depth_mm=held[0].housing.depth_mm,
        shelf_thickness_mm=held[0].housing.thickness_mm,
        clearance_mm=joining.clearance_mm,
        above_mm=_above_mm(supported, held[0], rules),
        projection_mm=supported.projection_mm(held[0]),
        side_grain_mm2=math.fsum(f.area_mm2 for f in faces if f.glue in SIDE_GRAIN),
        end_grain_mm2=math.fsum(f.area_mm2 for f in faces if f.glue not in SIDE_GRAIN),
        post_grain=Grain.ALONG if is_upright(held[0].into) else Grain.ACROSS,
        post_thickness_mm=held[0].into.part.blank.thickness_mm,
        holder=supported.holder_name,
        brackets=the_listed([each.instance for each in supported.brackets]),
        bracket_mm=supported.bracket_reach_mm(rules),
        bearers=supported.bearers,
    )


def load_lever(supported: Supported) -> Lever:
    """All that stands on the shelf, pushed to its edge, and its own weight, as one force.

    Args:
        supported: the shelf and what bears it
    """
    held = supported.one_side[0]
    projection = supported.projection_mm(held)
    share = projection / supported.size_along(held.out)
    parts = [(supported.weight_n * share, projection / 2.0)]
    axis = 0 if abs(held.out[0]) > abs(held.out[1]) else 1
    room = (supported.size_along(held.out), supported.size_along(cross(held.out, UP)))
    for load, back in spread(supported.loads, *room, axis):
        far = projection - back
        half = supported.footprint_along(load, held.out) / 2.0
        reach = max(projection / 2.0, far - half) if back == 0.0 else max(0.0, far - half)
        parts.append((load.mass_kg * GRAVITY_M_S2, reach))
    force = math.fsum(each for each, _ in parts)
    reach = math.fsum(each * arm for each, arm in parts) / force
    names = ", ".join(load.is_called for load in supported.loads)
    return Lever(
        what=f"{names} at its front" if names else "its own weight",
        force_n=force,
        reach_mm=reach,
        own_n=supported.weight_n * share,
    )


def hand_lever(supported: Supported) -> Lever:
    """A hand that leans on the shelf's edge besides what it bears.

    Args:
        supported: the shelf and what bears it
    """
    own = load_lever(supported)
    projection = supported.projection_mm(supported.one_side[0])
    force = own.force_n + supported.hand_n
    return Lever(
        what="a hand on its front edge",
        force_n=force,
        reach_mm=(own.force_n * own.reach_mm + supported.hand_n * projection) / force,
    )


def post_findings(
    supported: Sequence[Supported], show: Show, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...]:
    """The posts and uprights where their dados leave least, under what they bear and a push.

    Args:
        supported: the level surfaces and what bears them
        show: puts a length into the piece's unit
        rules: the maker's
    """
    return worst_alone(post_finding(post, show, rules) for post in posts_of(supported, rules))


def posts_of(supported: Sequence[Supported], rules: Rules = USUAL_RULES) -> tuple[Post, ...]:
    """Every upright that holds shelves, strips of one post as one, with its dados and loads.

    Args:
        supported: the level surfaces and what bears them
        rules: the maker's
    """
    groups: dict[tuple[str, ...], list[tuple[Supported, tuple[Held, ...]]]] = {}
    for each in supported:
        if each.rails:
            continue
        for side in each.sides:
            if is_upright(side[0].into):
                names = tuple(sorted({held.into.instance for held in side}))
                groups.setdefault(names, []).append((each, side))
    return tuple(_post(names, held, supported, rules) for names, held in groups.items())


def _post(
    names: Sequence[str],
    held: Sequence[tuple[Supported, tuple[Held, ...]]],
    supported: Sequence[Supported],
    rules: Rules,
) -> Post:
    parts = {each.into.instance: each.into for _, side in held for each in side}
    first = next(iter(parts.values()))
    top = max(first.placement.to_piece((x, 0.0, 0.0))[2] for x in (0.0, first.part.blank.length_mm))
    return Post(
        name=", ".join(names),
        species=first.part.timber.species,
        width_mm=math.fsum(each.part.blank.width_mm for each in parts.values()),
        thickness_mm=first.part.blank.thickness_mm,
        waists=_waists(tuple(parts.values()), supported),
        loads=tuple(_post_load(each, len(each.sides)) for each, _ in held),
        push_n=rules[POST_KNOCK],
        push_height_mm=top,
    )


def _post_load(supported: Supported, sides: int) -> PostLoad:
    """What a shelf puts on one of the posts that hold it; a shelf between two lies on their faces.

    Its height is its underside's, where it bears.
    """
    height = supported.box[0][2]
    if supported.one_side:
        lever = load_lever(supported)
        return PostLoad(
            what=supported.name,
            height_mm=height,
            force_n=lever.force_n,
            before_face_mm=lever.reach_mm,
        )
    whole = supported.weight_n + math.fsum(load.mass_kg for load in supported.loads) * GRAVITY_M_S2
    return PostLoad(
        what=supported.name, height_mm=height, force_n=whole / max(1, sides), before_face_mm=0.0
    )


def _waists(posts: Sequence[Placed], supported: Sequence[Supported]) -> tuple[Waist, ...]:
    """The post's dados, each named after what lies in it, and its openings, strips taken together.

    Each is a hair below what it bears; at an opening a dado in the same place counts too.
    """
    post = posts[0]
    dados = [
        (cut, trench.depth_mm(post.part.blank))
        for cut in post.part.cuts
        for trench in shapes_of((cut,), post.part.blank, Channel)
        if trench.is_across_grain
    ]
    found, deep = [], []
    for cut, depth in dados:
        for box in taken_from(post, (cut,)):
            low, high = reach_along(box, UP)
            deep.append((low, high, depth))
            inside = [each.name for each in supported if abs(each.box[0][2] - low) < HAIR_MM]
            name = f"the dado of {inside[0]}" if inside else f"the dado {low:.0f} mm up"
            found.append(Waist(name=name, height_mm=low - HAIR_MM, depth_mm=depth))
    across = post.placement.y_axis
    openings = [
        (reach_along(box, UP), reach_along(box, across))
        for each in posts
        for box in taken_from(each, _openings(each))
    ]
    for (low, high), _ in openings:
        beside = [side for (start, end), side in openings if start < high and end > low]
        depth = max((each for start, end, each in deep if start < high and end > low), default=0.0)
        found.append(
            Waist(
                name=f"the opening {low:.0f} mm up",
                height_mm=low - HAIR_MM,
                depth_mm=depth,
                bored_mm=covered_mm(beside),
            )
        )
    return tuple(found)


def _openings(post: Placed) -> list[Cut]:
    """Its bores, slots and notches: all that goes off its width."""
    blank = post.part.blank
    return [cut for cut in post.part.cuts if isinstance(cut.shape(blank), (Hole, Bite))]


def _above_mm(supported: Supported, held: Held, rules: Rules) -> float:
    """The wood of the post over the housing, up to the post's top or its upper edge [mm].

    Wood that breaks in the making is none, and so is the dust of a sum.
    """
    post = held.into
    axis = axis_towards(post, UP)
    size = post.part.blank.size[axis]
    ends = [[0.0, 0.0, 0.0], [0.0, 0.0, 0.0]]
    ends[1][axis] = size
    top = max(post.placement.to_piece((x, y, z))[2] for x, y, z in ends)
    upper = supported.box[0][2] + held.housing.thickness_mm + held.joining.clearance_mm
    return top - upper if top - upper > rules[LEAST_WOOD] else 0.0


def _spoken(findings: Iterable[Finding], housing: Housing) -> list[Finding]:
    """Glue speaks only where there is some."""
    return [each for each in findings if _is_glued(housing) or each.check not in GLUE_CHECKS]


def _ends_in_dados(piece: Piece, supported: Supported, show: Show, rules: Rules) -> list[Finding]:
    """Each end of a shelf between uprights presses on its lower shoulder and what it lies on."""
    whole = supported.weight_n + math.fsum(load.mass_kg for load in supported.loads) * GRAVITY_M_S2
    lever = Lever(
        what="all its loads at one end", force_n=whole, reach_mm=0.0, own_n=supported.weight_n
    )
    found = []
    for side in supported.sides:
        under = brackets_of(piece, supported.shelf, side)
        one = replace(supported, sides=(side,), brackets=under)
        ledges = ledges_of(piece, supported.shelf, under, side[0].out)
        found.append(end_finding(housing_of(one, rules), lever, ledges, show, rules))
    return [max(found, key=lambda each: each.value or 0.0)]
