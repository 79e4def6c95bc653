"""Findings of stability: tilt, pushes, pulls and presses, with what to change."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy, longer, said
from furniture.checks.ballast import Room
from furniture.checks.check import NO_LIMITS, Check, Limits
from furniture.checks.finding import Finding, Show, Tipping, Verdict, Way
from furniture.checks.ground import Demand, Ground
from furniture.checks.remedies import ways_to_stand
from furniture.checks.rows.standing import SLIDING, TILT, WEIGHT_SHARE_PUSH
from furniture.checks.stability import (
    Body,
    Leaning,
    Load,
    Surface,
    combined,
    empty_leaning,
    sliding_force_n,
    tipping_press_n,
    tipping_push_n,
    worst_leaning,
    worst_pushed,
)
from furniture.checks.support import Edge, Point, support_edges
from furniture.pieces import DrawnOut
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import (
    BARE_FRICTION,
    LEAST_BARE_FRICTION,
    PAD_FRICTION,
    WEIGHT_PUSH,
    WEIGHT_PUSH_HEIGHT,
    WEIGHT_PUSH_MOST,
)
from furniture.rules.design import MOST_INWARD
from furniture.rules.standing import TABLE_TOP_TILT, TILT_ASKED
from furniture.units.gravity import GRAVITY_M_S2

DEFERENCE = "guidance only: local codes and a test of the finished piece decide"


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltLimits:
    """The tilt [deg] that a piece should bear, and the one under which its fall is only noted.

    `source` says where each of the two comes from.
    """

    cautions_deg: float
    notes_deg: float | None
    source: str

    def limits(self, check: Check) -> Limits:
        """The limits of one of the checks of tilt."""
        return check.limits(cautions=self.cautions_deg, notes=self.notes_deg)


def tilt_asked(is_table_top: bool, rules: Rules = USUAL_RULES) -> TiltLimits:
    """The tilt that a table-top piece, or any other, should bear.

    Args:
        is_table_top: whether it is judged as a table-top piece
        rules: the maker's
    """
    if is_table_top:
        return TiltLimits(
            cautions_deg=rules[TABLE_TOP_TILT], notes_deg=rules[TILT_ASKED],
            source=f"under {rules[TABLE_TOP_TILT]:g}° cautions ({TABLE_TOP_TILT.source}; taken "
            f"here for what is light and low or stands on a table), under {rules[TILT_ASKED]:g}° "
            f"is noted ({TILT_ASKED.source})",
        )  # fmt: skip
    return TiltLimits(
        cautions_deg=rules[TILT_ASKED], notes_deg=None,
        source=f"under {rules[TILT_ASKED]:g}° cautions ({TILT_ASKED.source}; written for "
        "equipment, taken here as a voluntary measure)",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A piece as it stands: what it weighs, what it stands on, what may stand on it.

    `room` is where ballast would lie, `base_kg` the mass of the base itself, `drawn_out` what of a
    builder draws it out. `friction` is what the maker states of the floor, `fixing_n` what a fixing
    to the wall at its top must bear, None where nobody would fix it. `rules` are the maker's.
    """

    piece: Body
    contacts_mm: tuple[Point, ...]
    top_mm: float
    loads: tuple[Load, ...] = ()
    surfaces: tuple[Surface, ...] = ()
    room: Room | None = None
    base_kg: float = 0.0
    drawn_out: tuple[DrawnOut, ...] | None = None
    friction: float = 0.0
    fixing_n: float | None = None
    rules: Rules = USUAL_RULES

    def edges(self) -> tuple[Edge, ...]:
        """The edges of its support polygon."""
        return support_edges(self.contacts_mm)

    def ground(self) -> Ground:
        """What remedies are worked out on."""
        return Ground(
            piece=self.piece,
            edges=self.edges(),
            top_mm=self.top_mm,
            front_mm=min(y for _, y in self.contacts_mm),
            room=self.room,
            base_kg=self.base_kg,
            drawn_out=self.drawn_out,
            fixing_n=self.fixing_n,
            rules=self.rules,
        )

    def most_friction(self) -> float:
        """The friction [-] that a push can lean on at most before the piece slides.

        **Source:** own rule: soft pads under a piece that could fall; bare wood under one that is
        lower than its base is deep, which a push lifts at one side and does not throw over; a
        higher friction where the maker states it.
        """
        usual = self.rules[BARE_FRICTION] if self.ground().is_squat else self.rules[PAD_FRICTION]
        return max(usual, self.friction)

    def to_do(self, loads: Sequence[Load], demand: Demand, show: Show) -> Advised:
        """What to change so that every edge holds, in words and as remedies.

        Args:
            loads: the loads of the case; none for the empty case
            demand: what is asked of every edge
            show: puts amounts into the piece's unit
        """
        remedies, wall = ways_to_stand(self.ground(), loads, demand, show)
        return said(remedies, wall), remedies


Advised = tuple[str, tuple[Remedy, ...]]
"""An advice in words and its remedies."""
NOTHING_TO_DO: Advised = ("", ())


def tilt_findings(standing: Standing, asked: TiltLimits, show: Show) -> tuple[Finding, ...]:
    """For every edge the tilt at which it falls, empty and with the worst subset of its loads.

    Args:
        standing: the piece as it stands
        asked: the tilt that such a piece should bear
        show: puts a length into the piece's unit

    **Source:** statics, tan(angle) = inside / height; limits: the rules' own sources.
    """
    edges = standing.edges()
    findings: list[Finding] = []
    for edge in edges:
        findings.append(
            _tilt_finding(standing, empty_leaning(standing.piece, edge), (), asked, show)
        )
        if standing.loads:
            leaning = worst_leaning(standing.piece, standing.loads, edge)
            findings.append(_tilt_finding(standing, leaning, standing.loads, asked, show))
    return tuple(findings)


def weight_share_findings(standing: Standing, show: Show) -> tuple[Finding, ...]:
    """For every edge the push, in proportion to the weight, that tips it: the force alternative.

    The push acts as high as it can, at the top or at 1.5 m. A piece that bears the tilt need not
    bear it, so its figure is only noted.

    Args:
        standing: the piece as it stands
        show: puts a length into the piece's unit

    **Source:** IEC 62368-1 (2018), static stability: 13 % of the weight, at most 250 N, up to
    1.5 m above the floor.
    """
    edges = standing.edges()
    height = min(standing.top_mm, standing.rules[WEIGHT_PUSH_HEIGHT])
    return tuple(_weight_share_finding(standing, edge, height, show) for edge in edges)


def push_findings(
    standing: Standing, height_mm: float, check: Check, show: Show, cautions_n: float | None
) -> tuple[Finding, ...]:
    """For every edge the horizontal force at a height that just tips it.

    Serves for a push at the top and for a pull on a cable at the height of its opening. What it
    does not caution about is noted, and what slides before it tips is in order.

    Args:
        standing: the piece as it stands
        height_mm: where the force acts above the floor [mm]
        check: the row of this force, such as that of a push at the top
        show: puts a length into the piece's unit
        cautions_n: the force that should not tip it [N]; None where the figure is only noted

    **Source:** statics, force = righting moment / height; the stated force is the maker's choice.
    """
    is_squat, friction = standing.ground().is_squat, standing.most_friction()
    slides = sliding_force_n(standing.piece.mass_kg, friction)
    low = ", and is lower than its base is deep, so a push does not throw it over"
    sliding = (
        f"; it slides before that at {show.force(slides)}, with a friction of {friction:g} at most"
        f"{low if is_squat else ''}"
    )
    findings: list[Finding] = []
    for edge in standing.edges():
        force = tipping_push_n(standing.piece, standing.loads, edge, height_mm)
        slides_first = force > slides
        limits = NO_LIMITS if slides_first else check.limits(cautions=cautions_n)
        verdict = check.verdict(force, limits)
        demand = Demand(moment_nmm=(cautions_n or 0.0) * height_mm)
        advice, remedies = _advice(standing, standing.loads, demand, verdict, show)
        mild = Verdict.OK if slides_first else Verdict.NOTE
        findings.append(
            Finding(
                check=check,
                subject=f"{edge.name} edge",
                value=force,
                limits=limits,
                stated=mild if verdict is Verdict.OK else None,
                tipping=Tipping(ways=ways_of(edge), slides_first=slides_first),
                basis=f"horizontal force {show(height_mm)} above the floor that just tips it "
                f"over its {edge.name} edge, loads absent or at their worst"
                f"{sliding if slides_first else ''}; {DEFERENCE}",
                advice=advice,
                remedies=remedies,
            )
        )
    return tuple(findings)


def press_findings(
    standing: Standing, press_n: float, check: Check, show: Show
) -> tuple[Finding, ...]:
    """For each surface the downward force at an end of its front edge that just tips the piece.

    Args:
        standing: the piece as it stands, with its surfaces
        press_n: the force that it should bear, such as a hand that leans on it [N]
        check: the row of this force, such as that of a hand on a front edge
        show: puts a length into the piece's unit

    **Source:** statics, force = righting moment / arm, and the arm is greatest at an end; the
    stated force is the maker's choice.
    """
    edges = standing.edges()
    return tuple(
        _press_finding(standing, edges, surface, press_n, check, show)
        for surface in standing.surfaces
    )


def sliding_finding(standing: Standing, friction: float, height_mm: float, show: Show) -> Finding:
    """Whether a growing push at a height slides the empty piece before it tips it.

    Args:
        standing: the piece as it stands
        friction: coefficient of friction on the floor [-]
        height_mm: where the push acts [mm]
        show: puts a length into the piece's unit

    **Source:** statics, Coulomb friction: it slides first where friction < inside / height.
    """
    edges = standing.edges()
    tips = {edge: tipping_push_n(standing.piece, (), edge, height_mm) for edge in edges}
    edge = min(edges, key=lambda each: tips[each])
    least, most, pads = (
        standing.rules[each] for each in (LEAST_BARE_FRICTION, BARE_FRICTION, PAD_FRICTION)
    )
    slides = sliding_force_n(standing.piece.mass_kg, friction)
    first = "slides" if slides < tips[edge] else "tips"
    level = tips[edge] / slides * height_mm if slides > 0.0 else height_mm
    return Finding(
        check=SLIDING,
        subject=f"push at {show(height_mm)} towards the {edge.name}",
        value=tips[edge],
        limits=SLIDING.limits(notes=slides),
        tipping=Tipping(ways=ways_of(edge), slides_first=slides < tips[edge]),
        basis=f"the empty piece {first} first: it tips at {show.force(tips[edge])} and slides at "
        f"{show.force(slides)} with a friction of {friction:g}; friction varies widely (bare wood "
        f"{least:g} to {most:g}, soft pads up to {pads:g}, from "
        "memory), so sliding is never counted as safety",
        advice=""
        if first == "slides"
        else f"a push below {show(level)} slides it, one above tips it",
    )


def _tilt_finding(
    standing: Standing,
    leaning: Leaning,
    loads: Sequence[Load],
    asked: TiltLimits,
    show: Show,
) -> Finding:
    edge = leaning.edge
    limits = asked.limits(TILT)
    verdict = TILT.verdict(leaning.angle_deg, limits)
    demand = Demand(slope=math.tan(math.radians(asked.cautions_deg)))
    advice, remedies = _advice(standing, loads, demand, verdict, show)
    return Finding(
        check=TILT,
        subject=f"{edge.name} edge, {'loaded' if loads else 'empty'}",
        value=leaning.angle_deg,
        limits=limits,
        tipping=Tipping(ways=ways_of(edge), is_loaded=bool(loads)),
        basis=f"{_who(leaning, loads)}: centre of mass {show(leaning.inside_mm)} inside the "
        f"{edge.name} edge and {show(leaning.height_mm)} above the floor, "
        f"{show.mass(leaning.mass_kg)} in all; {asked.source}; {DEFERENCE}",
        advice=advice,
        remedies=remedies,
    )


def _weight_share_finding(standing: Standing, edge: Edge, height_mm: float, show: Show) -> Finding:
    leaning = worst_pushed(standing.piece, standing.loads, edge, height_mm)
    weight = leaning.mass_kg * GRAVITY_M_S2
    force = max(0.0, weight * leaning.inside_mm / height_mm)
    limit = min(standing.rules[WEIGHT_PUSH] * weight, standing.rules[WEIGHT_PUSH_MOST])
    limits = WEIGHT_SHARE_PUSH.limits(notes=limit)
    return Finding(
        check=WEIGHT_SHARE_PUSH,
        subject=f"{edge.name} edge",
        value=force,
        limits=limits,
        tipping=Tipping(ways=ways_of(edge)),
        basis=f"{_who(leaning, standing.loads)}: horizontal force {show(height_mm)} above the "
        f"floor that just tips it, on a floor where it cannot slide; IEC 62368-1 (2018), static "
        f"stability: one of this and the 10 degree tilt is enough; {DEFERENCE}",
    )


def _press_finding(
    standing: Standing,
    edges: Sequence[Edge],
    surface: Surface,
    press_n: float,
    check: Check,
    show: Show,
) -> Finding:
    ends = ((surface.x0_mm, surface.y0_mm), (surface.x1_mm, surface.y0_mm))
    forces = [
        (force, edge, at)
        for at in ends
        for edge in edges
        if (force := tipping_press_n(standing.piece, standing.loads, edge, at)) is not None
    ]
    subject = f"front edge of {surface.name}"
    if not forces:
        return Finding(
            check=check,
            subject=subject,
            value=None,
            limits=check.limits(cautions=press_n),
            stated=Verdict.OK,
            basis="the edge lies over the base: no downward force there tips the piece",
            advice="",
        )
    force, edge, at = min(forces, key=lambda each: each[0])
    arm = -edge.inside_mm(at)
    limits = check.limits(cautions=press_n)
    verdict = check.verdict(force, limits)
    advice, remedies = NOTHING_TO_DO
    if verdict is not Verdict.OK:
        hand = Body(mass_kg=press_n / GRAVITY_M_S2, centre_mm=(*at, surface.top_mm))
        pressed = replace(standing, piece=combined((standing.piece, hand)))
        remedies, wall = ways_to_stand(pressed.ground(), standing.loads, Demand(), show)
        size = (surface.x1_mm - surface.x0_mm, surface.y1_mm - surface.y0_mm)
        own = size[0] if abs(edge.outward[0]) > abs(edge.outward[1]) else size[1]
        words = f"bring {surface.name} in by {{}} at its {edge.name}"
        drawn_in = longer(
            Change.INWARD,
            words,
            arm * (1.0 - force / press_n),
            show,
            standing.rules[MOST_INWARD] * own,
        )
        remedies = (*drawn_in, *remedies)
        advice = said(remedies, wall)
    return Finding(
        check=check,
        subject=subject,
        value=force,
        limits=limits,
        tipping=Tipping(ways=ways_of(edge)),
        basis=f"downward force at an end of the edge, {show(arm)} outside the base's "
        f"{edge.name} edge, loads absent or at their worst; {DEFERENCE}",
        advice=advice,
        remedies=remedies,
    )


_WAYS = {"back": Way.BACKWARD, "front": Way.FORWARD, "left": Way.LEFT, "right": Way.RIGHT}


def ways_of(edge: Edge) -> tuple[Way, ...]:
    """The ways in which a piece goes over an edge: one, or two where the edge runs askew."""
    return tuple(_WAYS[side] for side in edge.sides)


def _who(leaning: Leaning, loads: Sequence[Load]) -> str:
    if leaning.loads:
        off = [each.name for each in loads if each.name not in leaning.loads]
        taken = f" and {', '.join(off)} taken away" if off else ""
        return f"worst with {', '.join(leaning.loads)} at the worst place{taken}"
    return "worst when empty" if loads else "empty"


def _advice(
    standing: Standing, loads: Sequence[Load], demand: Demand, verdict: Verdict, show: Show
) -> Advised:
    is_amiss = verdict in (Verdict.CAUTION, Verdict.FAIL)
    return NOTHING_TO_DO if not is_amiss else standing.to_do(loads, demand, show)
