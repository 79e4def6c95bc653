"""Whether the order of the work serves, from what each pass finds, bears on and leaves.

Subtraction commutes, so that a replay proves no order; these rules do. Each is told from its
meaning in the shop: common practice, no source, as the reasons in `furniture.making.why` are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from manifold3d import Manifold

from furniture.making.operations import Axis, Operation
from furniture.making.settings import (
    Bored,
    ByHand,
    CutterKind,
    Easing,
    Guide,
    Machine,
    MitreGroove,
    Notched,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.pieces import Piece
from furniture.rules import USUAL_RULES
from furniture.rules.tools import STACK_ERROR
from furniture.shop.cutting.values import Saw
from tests.making.bearing import stands_on, touching_mm
from tests.making.history import Moment, later, moments_of
from tests.making.replay import LEAST_MM3, Making, Replayed

Moments = Sequence[Moment]
_DUST_MM = 1e-9


@dataclass(frozen=True, slots=True)
class Fault:
    """An operation that stands where it cannot, or should not."""

    key: str
    why: str

    def __str__(self) -> str:
        return f"{self.key}: {self.why}"


def faults_of(making: Making, done: Replayed, piece: Piece, saw: Saw) -> list[Fault]:
    """Every fault of order, of bearing and of size in hand."""
    moments = moments_of(making, done)
    found = [fault for rule in RULES for fault in rule(moments)]
    found += _trimmed_last(moments, piece)
    found += _small_in_hand(moments, saw)
    found += _thickness_known(making, moments)
    return found


def _is_to_a_mark(moment: Moment) -> bool:
    """Whether a channel is sawn or routed to a mark, nothing at a stop.

    Across the grain it lies at one; along it, where it ends within the wood, it runs between two.
    """
    operation = moment.operation
    setting = operation.setting
    if not isinstance(setting, Trench) or operation.hold.stop is not None:
        return False
    return setting.along != 0 or min(setting.whole_low_mm, setting.whole_high_mm) > 0.0


def _is_along(moment: Moment) -> bool:
    """Whether it runs along the grain past both ends."""
    setting = moment.operation.setting
    match setting:
        case Trench():
            return setting.along == 0 and setting.whole_low_mm == setting.whole_high_mm == 0.0
        case Slice(off=face) | Skim(face=face) | Surface(face=face) | Parallel(off=face):
            return face in EDGES or (face in WIDE_FACES and not isinstance(setting, Slice))
    return False


def _is_crosscut(moment: Moment) -> bool:
    setting = moment.operation.setting
    return (isinstance(setting, Slice) and setting.off in ENDS) or (
        isinstance(setting, Skim) and setting.face in ENDS
    )


def _in_air(moments: Moments) -> Iterator[Fault]:
    for each in moments:
        if each.step.taken_mm3 < LEAST_MM3:
            yield Fault(each.operation.key, "it takes no wood")


def _on_what_goes(moments: Moments) -> Iterator[Fault]:
    """What is borne on or measured from stays: true faces are made first."""
    for each in moments:
        for face in each.borne_on | each.measured_from:
            if each.surfaces[face].goes_after(each.at):
                yield Fault(each.operation.key, f"its {face.value} is cut away later")


def _on_a_slope(moments: Moments) -> Iterator[Fault]:
    """A sawn point is no bearing but for the next mitre of the same way, at its long point.

    A rule can be hooked on it, so that bores and notches may be marked from there.
    """
    for each in moments:
        setting = each.operation.setting
        is_marked = isinstance(setting, Bored | Notched) or _is_to_a_mark(each)
        for face in each.borne_on if is_marked else each.borne_on | each.measured_from:
            slope = each.slopes.get(face)
            if slope is None:
                continue
            if isinstance(setting, Slice) and face is setting.off and setting.long_face is slope:
                continue
            if isinstance(setting, MitreGroove) and setting.long_face is slope:
                continue
            if isinstance(setting, Easing | ByHand):
                continue
            yield Fault(each.operation.key, f"its {face.value} slopes by then")


def _along_after_slopes(moments: Moments) -> Iterator[Fault]:
    for each in moments:
        if _is_along(each) and any(face in ENDS for face in each.slopes):
            yield Fault(each.operation.key, "a long cut on wood with a mitred end")


def _along_after_length(moments: Moments) -> Iterator[Fault]:
    """Long work while the wood is long: what tears out at the end goes with the waste."""
    short: set[str] = set()
    for each in moments:
        is_shaped = isinstance(each.operation.setting, Trench | Skim | Slice)
        if _is_along(each) and is_shaped and short & set(each.instances):
            yield Fault(each.operation.key, "a long cut on wood that has its length")
        short |= _lengths(each)


def _lengths(moment: Moment) -> set[str]:
    """The instances that get their length there."""
    return {size.instance for size in moment.operation.sizes if size.axis is Axis.LENGTH}


def _width_before_ends(moments: Moments) -> Iterator[Fault]:
    """An end is squared, and work across is laid out, on wood of its final width."""
    for each in moments:
        if each.operation.is_rough:
            continue
        if _is_crosscut(each) or isinstance(each.operation.setting, Trench | Bored | Notched):
            for edge in EDGES:
                if each.surfaces[edge].goes_after(each.at):
                    yield Fault(each.operation.key, "the wood is made narrower later")


def _thickness_before_cuts(moments: Moments) -> Iterator[Fault]:
    for each in moments:
        if isinstance(each.operation.setting, Trench | Bored | Notched | Easing):
            for face in WIDE_FACES:
                if each.surfaces[face].goes_after(each.at):
                    yield Fault(each.operation.key, "the wood is made thinner later")


def _on_eased(moments: Moments) -> Iterator[Fault]:
    """No fence, stop, drill or knife line on a profiled edge; a bit's own bearing rides on it."""
    for each in moments:
        setting = each.operation.setting
        if isinstance(setting, Easing | ByHand):
            continue
        used = each.borne_on | each.measured_from
        for arris in each.eased:
            if {arris.first, arris.second} & used:
                yield Fault(each.operation.key, f"{arris.name} is profiled by then")


def _bored_after_profile(moments: Moments) -> Iterator[Fault]:
    for each in moments:
        if isinstance(each.operation.setting, Bored) and each.eased:
            yield Fault(each.operation.key, "it is bored in wood that has its profile")


def _end_grain_last(moments: Moments) -> Iterator[Fault]:
    """Across the grain first: the long edge takes away what tears out."""
    for each in moments:
        setting = each.operation.setting
        if not isinstance(setting, Easing) or setting.arris.run_axis == 0:
            continue
        if any(arris.run_axis == 0 for arris in each.eased):
            yield Fault(each.operation.key, "end grain is profiled after a long edge")


def _end_bored_after_mitre(moments: Moments) -> Iterator[Fault]:
    for each in moments:
        setting = each.operation.setting
        if (
            isinstance(setting, Bored)
            and setting.face in ENDS
            and setting.face.opposite in each.slopes
        ):
            yield Fault(each.operation.key, "an end is bored when the other one is mitred")


def _by_hand_before_slopes(moments: Moments) -> Iterator[Fault]:
    """What is marked out on the finished part comes when its ends and edges are final."""
    for each in moments:
        if not isinstance(each.operation.setting, ByHand | MitreGroove):
            continue
        for other in later(moments, each):
            setting = other.operation.setting
            is_face = isinstance(setting, Slice | Skim | Surface | Parallel)
            if is_face and not _is_elsewhere(each, other):
                yield Fault(each.operation.key, f"{other.operation.key} comes after it")


def _is_elsewhere(made: Moment, late: Moment) -> bool:
    """Whether a post is trimmed at its top when its foot has been shaped: far from one another."""
    boxes = [(each.step.before - each.step.kept).bounding_box() for each in (made, late)]
    if made.step.wood != late.step.wood:
        return False
    apart = (boxes[1][0] - boxes[0][3], boxes[0][0] - boxes[1][3])
    return max(apart) > FAR_APART_MM


FAR_APART_MM = 50.0
"""Marks are taken from an end that is nearer."""


def _not_in_hand(moments: Moments) -> Iterator[Fault]:
    """What an operation makes, it makes of wood that it has in hand."""
    for each in moments:
        for made in (*each.operation.cuts, *each.operation.begins, *each.operation.sizes):
            if len(each.operation.takes) == 1 and made.instance not in each.instances:
                yield Fault(each.operation.key, f"{made.instance} is not in the wood in hand")


def _keeper_outside(moments: Moments) -> Iterator[Fault]:
    """Along a fence what is kept runs between fence and blade, and what falls off lies free."""
    for each in moments:
        rig, hold, setting = each.operation.rig, each.operation.hold, each.operation.setting
        if rig is None or rig.machine is not Machine.TABLE_SAW or rig.guide is not Guide.FENCE:
            continue
        if each.operation.is_rough:  # to a line, and nothing says which side is held
            continue
        if isinstance(setting, Slice):
            at_fence = setting.off
        elif isinstance(setting, Skim):
            at_fence = setting.face.opposite
        else:
            continue
        if hold.against is not at_fence:
            yield Fault(each.operation.key, "what falls off would run between fence and blade")


def _held_otherwise(moments: Moments) -> Iterator[Fault]:
    """What is measured is what bears: the face over the cutter, an edge fenced, an end stopped."""
    for each in moments:
        rig, hold, setting = each.operation.rig, each.operation.hold, each.operation.setting
        if rig is None or rig.machine is Machine.BENCH or each.operation.is_rough:
            continue
        match setting:
            case Trench():
                down, off = setting.face, setting.off
            case Bored() if rig.machine is Machine.DRILL_PRESS:
                down, off = setting.face.opposite, None
            case Surface():
                down, off = setting.face, None
            case Parallel(off=face):
                down, off = face, None
            case Slice(off=face):
                down, off = hold.down, face
            case _:
                continue
        if hold.down is not down:
            yield Fault(each.operation.key, f"for that its {_name(down)} lies down")
        if off in ENDS and off in each.slopes and hold.stop is None:
            continue  # marked from the long point
        if off is not None and off not in (hold.against, hold.stop):
            yield Fault(each.operation.key, f"nothing bears on its {off.value}")
        if off in ENDS and hold.stop is not off:
            yield Fault(each.operation.key, f"the stop is not at its {_name(off)}")


def _not_as_wide(moments: Moments) -> Iterator[Fault]:
    """One pass is as wide as the channel, or all reach as far; in a rabbet some may be idle."""
    for each in moments:
        rig, setting = each.operation.rig, each.operation.setting
        if rig is None or rig.cutter.kind not in _WIDE or not isinstance(setting, Trench):
            continue
        wide = rig.cutter.size_mm
        if wide is None:
            continue
        if each.operation.near_mm:
            beyond = max(each.operation.near_mm) + (wide if setting.near_mm else 0.0)
            if abs(beyond - setting.width_mm) > _DUST_MM:
                yield Fault(
                    each.operation.key, f"its passes reach {beyond}, {setting.width_mm} told"
                )
            continue
        is_idle = setting.near_mm == 0.0 and wide > setting.width_mm
        if not is_idle and abs(wide - setting.width_mm) > USUAL_RULES[STACK_ERROR] + _DUST_MM:
            yield Fault(each.operation.key, f"{wide} mm is not as wide as {setting.width_mm} mm")


_WIDE = (CutterKind.DADO_HEAD, CutterKind.STRAIGHT_BIT)


def _name(face: Face | None) -> str:
    return "face" if face is None else face.value


def _unsteady(moments: Moments) -> Iterator[Fault]:
    """Its middle stands over what it lies on, and half of its edge touches the fence."""
    for each in moments:
        hold, solid = each.operation.hold, each.step.before
        down = hold.down if hold.down in each.borne_on else None
        if down is not None and not stands_on(solid, down):
            yield Fault(each.operation.key, f"it tips on its {down.value}")
        if hold.against in EDGES and touching_mm(solid, hold.against) < _length(solid) / 2:
            yield Fault(each.operation.key, f"little of its {hold.against.value} is at the fence")


def _length(solid: Manifold) -> float:
    box = solid.bounding_box()
    return float(box[3] - box[0])


def _trapped_mitre(moments: Moments) -> Iterator[Fault]:
    """Under a tilted blade the long face is up; turned end for end, the other edge is fenced.

    A saw leans one way: seen from there a part turned about its thickness shows its other edge,
    and one turned over shows the same edge at its other end.
    """
    first: Face | None = None
    for each in moments:
        rig, hold, setting = each.operation.rig, each.operation.hold, each.operation.setting
        if not _is_crosscut(each) or rig is None or not rig.tilt_deg or hold.against is None:
            continue
        assert isinstance(setting, Slice | Skim)
        if setting.long_face is None or hold.down is not setting.long_face.opposite:
            yield Fault(each.operation.key, "what falls off is trapped below the tilted blade")
            continue
        sawn = setting.off.opposite if isinstance(setting, Slice) else setting.face
        turns = (sawn is Face.NAMED_END) + (setting.long_face is Face.BACK_SIDE)
        as_first = hold.against.opposite if turns % 2 else hold.against
        first = first or as_first
        if as_first is not first:
            yield Fault(each.operation.key, "from that edge the blade leans the other way")


def worked_at(moment: Moment) -> frozenset[Face]:
    """The faces that a pass is measured from or cut into, an end where wood is left whole too."""
    setting, faces = moment.operation.setting, set(moment.measured_from)
    if isinstance(setting, Trench):
        low, high = (Face.NAMED_END, Face.FAR_END) if setting.along == 0 else EDGES
        faces |= {setting.face}
        faces |= {low} if setting.whole_low_mm else set()
        faces |= {high} if setting.whole_high_mm else set()
    if isinstance(setting, Bored):
        faces |= {setting.face}
    if isinstance(setting, Notched):
        faces |= {setting.edge}
    return frozenset(faces)


def _trimmed_last(moments: Moments, piece: Piece) -> Iterator[Fault]:
    """An end that stays long until the joints fit is sawn when all else is done to the part.

    What is cut at that very end or measured from it cannot come before; profiles come last of all.
    """
    late = {each.instance for each in piece.placed if each.part.trimmed_last is not None}
    ends = {each.instance: each.part.trimmed_last for each in piece.placed}
    for each in moments:
        names = _lengths(each) & late
        for other in later(moments, each):
            if isinstance(other.operation.setting, Easing):
                continue
            if any(ends[name] not in worked_at(other) for name in names & set(other.instances)):
                yield Fault(other.operation.key, "the part was trimmed to length before it")


def _thickness_known(making: Making, moments: Moments) -> Iterator[Fault]:
    """Nothing is cut to a depth or a width before the thickness is there or is read."""
    known: dict[str, int] = {}
    for at, each in enumerate(making.operations):
        for size in each.sizes:
            if size.axis is Axis.THICKNESS:
                known[size.instance] = at
    for moment in moments:
        if isinstance(moment.operation.setting, Trench | Bored | Notched | Easing | ByHand):
            for name in moment.instances:
                if known.get(name, -1) > moment.at:
                    yield Fault(moment.operation.key, f"the thickness of {name} comes later")


def _small_in_hand(moments: Moments, saw: Saw) -> Iterator[Fault]:
    """No machine takes wood that is smaller than the shop allows; what is kept is held."""
    for each in moments:
        why = _too_small(each.operation, each, saw)
        if why is not None:
            yield Fault(each.operation.key, why)


def _too_small(operation: Operation, moment: Moment, saw: Saw) -> str | None:
    rig = operation.rig
    if rig is None:
        return None
    box = moment.step.before.bounding_box()
    length, width = box[3] - box[0], box[4] - box[1]
    along_fence = rig.machine is Machine.TABLE_SAW and rig.guide is Guide.FENCE
    if rig.machine in (Machine.JOINTER, Machine.PLANER) or along_fence:
        if length < saw.shortest_rip_mm:
            return f"{length:.1f} mm is too short for the {rig.machine.value}"
        if along_fence and rig.cutter.kind is CutterKind.BLADE and width < saw.narrowest_rip_mm:
            return f"{width:.1f} mm is too narrow to rip"
    elif rig.machine is Machine.TABLE_SAW and max(length, width) < saw.shortest_crosscut_mm:
        return f"{length:.1f} x {width:.1f} mm is too small to crosscut"
    return None


RULES: tuple[Callable[[Moments], Iterator[Fault]], ...] = (
    _in_air,
    _on_what_goes,
    _on_a_slope,
    _along_after_slopes,
    _along_after_length,
    _width_before_ends,
    _thickness_before_cuts,
    _on_eased,
    _bored_after_profile,
    _end_grain_last,
    _end_bored_after_mitre,
    _by_hand_before_slopes,
    _not_in_hand,
    _keeper_outside,
    _held_otherwise,
    _not_as_wide,
    _unsteady,
    _trapped_mitre,
)
"""What is asked of every order, whatever the piece."""
