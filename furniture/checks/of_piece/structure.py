"""The statics of the whole piece put to its checks: held, borne, racking, and what is not known."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from furniture.checks.finding import Finding, Verdict, not_checked, without_figure
from furniture.checks.of_piece.loose import loose_findings
from furniture.checks.of_piece.racking import racking_findings
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.rows.structure import BEARS, END_GRAIN_ALONE, HELD, NOT_CHECKED
from furniture.joints.joint import Joining, Role
from furniture.parts.vectors import Vector, dot
from furniture.parts.ways import PIECE_WAYS
from furniture.pieces import Piece
from furniture.pieces.in_rows import named_in, woods_in_words
from furniture.pieces.weighed import Weighed
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.bearing import FAILS_AT_SHARE, TRIFLE
from furniture.structure import (
    Frame,
    Held,
    Hold,
    State,
    Statics,
    WaysOut,
    held_in,
    rest_of,
    statics_of,
)
from furniture.structure.capacity import is_known
from furniture.structure.frame import masses_weighed, without_unknown
from furniture.structure.rigid import MOST, Motion
from furniture.units import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """A piece put to its statics: the `whole`, and the `rest` that stays when loose parts drop out.

    `supported` are the statics of the rest.
    """

    piece: Piece
    whole: Statics
    rest: Piece
    supported: Statics


def stood(piece: Piece, weighed: Weighed, ways_out: Sequence[WaysOut] | None = None) -> Stood:
    """The statics of a piece and of what stays of it.

    Args:
        piece: the piece as cut
        weighed: its mass
        ways_out: what the solids say of its loose parts; None where they were not looked at
    """
    masses = masses_weighed(piece, weighed)
    whole = statics_of(piece, masses, ways_out)
    rest, left = rest_of(piece, whole.holdings, ways_out)
    supported = whole if rest is piece else statics_of(rest, masses, left)
    return Stood(piece=piece, whole=whole, rest=rest, supported=supported)


def structure_findings_of(found: Stood, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """What holds each part; what the joints of the rest bear and at which push it folds.

    Args:
        found: the statics of a piece
        rules: the maker's
    """
    piece, rest, supported = found.piece, found.rest, found.supported
    racking = racking_findings(rest, supported.frame, shown_by(piece), rules)
    return (
        *_unknown(found, racking, rules),
        _held(piece, found.whole),
        *loose_findings(found.whole.holdings, piece.joinings, piece.shown),
        *_of_joints(
            tuple(_bears(rest, supported.held)),
            tuple(_end_grain(rest, supported.frame, supported.held)),
        ),
        *racking,
    )


def _unknown(found: Stood, racking: Sequence[Finding], rules: Rules) -> Iterable[Finding]:
    """Joints that do not state their hold and woods of unknown strength, told once.

    Nothing is told where nothing hangs on them: the rest bears all of its loads, and is braced as
    well, when they are left out, and nothing drops out for want of them.
    """
    paths: dict[str, list[str]] = {}
    piece = found.piece
    stays = {each.instance for each in found.rest.placed}
    drops = False
    for joining in piece.joinings:
        missing = _missing(joining)
        if missing:
            paths.setdefault(missing, []).append(f"{joining.incoming} in {joining.into}")
            drops = drops or not stays.issuperset((joining.incoming, joining.into))
    for placed in piece.placed:
        species = placed.part.timber.species
        if not is_known(species):
            missing = f"no strength is known for {species.name}, so its glue is taken to hold"
            paths.setdefault(missing, []).append(placed.instance)
    if not paths or (not drops and _bears_without_unknown(found, racking, rules)):
        return
    told = [
        f"{names[0]}{f' and {len(names) - 1} more' if names[1:] else ''}: {missing}"
        for missing, names in paths.items()
    ]
    subjects = list(dict.fromkeys(name for names in paths.values() for name in names))
    yield not_checked(
        NOT_CHECKED,
        subjects[0] if len(subjects) == 1 else f"{subjects[0]} and {len(subjects) - 1} more",
        "; ".join(told),
        advice="work out what it bears by hand, or give the wood's strengths",
    )


def _missing(joining: Joining) -> str:
    """What a joint leaves unsaid of its hold, in words; empty where it says all."""
    if joining.unstated:
        return joining.unstated
    if any(each.pull_n is None for each in joining.fasteners):
        return "no figure is known for what fasteners bear in its wood"
    if not joining.faces and not joining.fasteners:
        return "its joint states no face and no fastener"
    return ""


def _bears_without_unknown(found: Stood, racking: Sequence[Finding], rules: Rules) -> bool:
    piece, supported = found.rest, found.supported
    known = without_unknown(supported.frame)
    if any(joining.unstated for joining in piece.joinings):
        return False
    if not all(held_in(known, each.case).factor >= 1.0 for each in supported.held):
        return False
    without = racking_findings(piece, known, shown_by(piece), rules)
    return [each.verdict for each in without] == [each.verdict for each in racking]


def _held(piece: Piece, statics: Statics) -> Finding:
    """Every part that comes out, told once with the first case in which it does."""
    frame, held = statics.frame, statics.held
    lost = [each for each in held if not each.is_held]
    if not lost:
        captured = [each for each in held if each.is_captured]
        if captured:
            return without_figure(
                HELD, Verdict.NOTE, f"{captured[0].case.told}: caught with play",
                subject=_names(piece, frame, _motion(captured[0])),
            )  # fmt: skip
        free = [each.instance for each in statics.holdings if each.hold is Hold.FREE]
        told = f"every part is held in all of {len(held)} cases, such as {held[-1].case.told}"
        if free:
            told = f"{told}; loose, only lying there: {listed(free)}"
        return without_figure(HELD, Verdict.OK, told)
    first = lost[0]
    motion = _motion(first)
    subject = _names(piece, frame, motion)
    return without_figure(
        HELD,
        Verdict.FAIL,
        f"{first.case.told}: nothing stops it, it goes {_way(motion.way)}",
        subject=subject,
        advice=_to_hold(piece, frame.names[motion.moving[0]]),
    )


def _motion(held: Held) -> Motion:
    assert held.motion is not None, "it is asked only of what moves"
    return held.motion


def _to_hold(piece: Piece, instance: str) -> str:
    roles = {each.role for each in piece.joinings if each.incoming == instance}
    if Role.RIM in roles:
        return f"pin {instance} at its ends or glue it: loose in its rabbets it drops out"
    return f"give {instance} a joint that bears it: a dado, dowels, pins or screws"


def _way(way: Vector) -> str:
    if way == (0.0, 0.0, 0.0):
        return "round"
    return max(PIECE_WAYS, key=lambda each: dot(each[0], way))[1]


def _names(piece: Piece, frame: Frame, motion: Motion) -> str:
    return woods_in_words(named_in(piece, (frame.names[one] for one in sorted(motion.moving))))


def _bears(piece: Piece, held: Sequence[Held]) -> Iterable[Finding]:
    """The least factor of all cases, and which joint gives there."""
    kept = [each for each in held if each.is_held]
    if not kept:
        return
    worst = min(kept, key=lambda each: each.factor)
    if worst.factor >= MOST:
        return
    giving = [piece.joinings[index] for index in worst.gives]
    yield Finding(
        check=BEARS,
        subject=_joints(giving) or "the whole piece",
        value=worst.factor,
        limits=BEARS.limits(fails=piece.rules[FAILS_AT_SHARE]),
        basis=f"{worst.case.told}: the least multiple of its loads that still holds, of "
        f"{len(kept)} cases; glue at half a laboratory's strength, pins at a sixth (own rules)",
        advice=_to_bear(giving),
    )


def _of_joints(bears: tuple[Finding, ...], end_grain: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """What its joints bear, and that end-grain glue alone holds them: one fact where both caution.

    The figure speaks, and says what it hangs on.
    """
    if not (_cautions(bears) and _cautions(end_grain)):
        return (*bears, *end_grain)
    (figure,), (alone,) = bears, end_grain
    told = f"{figure.basis}; {alone.subject}: {alone.check.name}"
    return replace(figure, basis=told), alone.at_most(Verdict.NOTE)


def _cautions(findings: tuple[Finding, ...]) -> bool:
    return any(each.verdict is Verdict.CAUTION for each in findings)


def _to_bear(giving: Sequence[Joining]) -> str:
    if any(each.fasteners for each in giving[:1]):
        return "take more or longer fasteners there, or load it less"
    return "give that joint dowels or a dado, or load it less"


def _joints(joinings: Sequence[Joining]) -> str:
    names = dict.fromkeys(each.incoming for each in joinings[:2])
    return " and ".join(names)


def _end_grain(piece: Piece, frame: Frame, held: Sequence[Held]) -> Iterable[Finding]:
    """Parts that come out once glue on end grain counts for nothing.

    A pad that weighs next to nothing and bears nothing may drop off: only what carries is told.
    """
    found: dict[str, str] = {}
    whole = sum(mass.mass_kg for mass in frame.masses)
    for each in held:
        if not each.is_held:
            continue
        bare = held_in(frame, each.case, State.NO_END_GRAIN)
        if bare.is_held:
            continue
        moving = _motion(bare).moving
        if sum(frame.masses[index].mass_kg for index in moving) < piece.rules[TRIFLE] * whole:
            continue
        for index in moving:
            found.setdefault(frame.names[index], each.case.told)
    if not found:
        return
    case = next(iter(found.values()))
    persons = any(each.kind.is_person for each in piece.loads)
    yield without_figure(
        END_GRAIN_ALONE,
        Verdict.FAIL if persons else Verdict.CAUTION,
        f"{case}: without glue on end grain nothing else holds it there",
        subject=woods_in_words(named_in(piece, (name for name in frame.names if name in found))),
        advice="put dowels, screws or a dado there",
    )
