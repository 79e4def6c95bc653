"""Spans with uneven sections: the true wood that is left, loads spread or at points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from furniture.checks.beams import Support
from furniture.checks.sections import Rectangle, bending_stress_mpa, shear_stress_mpa


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """A force [N] at one place of a span [mm from its held or left end]."""

    at_mm: float
    force_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EvenLoad:
    """A force [N] spread evenly over a stretch of a span [mm from its held or left end]."""

    from_mm: float
    to_mm: float
    force_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a span with one section; a place in no stretch has the whole section."""

    from_mm: float
    to_mm: float
    section: Rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A beam that rests on both ends or is held at its left end, with its loads and its cuts."""

    support: Support
    length_mm: float
    section: Rectangle
    points: tuple[PointLoad, ...] = ()
    evens: tuple[EvenLoad, ...] = ()
    cuts: tuple[Stretch, ...] = ()

    def __post_init__(self) -> None:
        if self.support is Support.FIXED:
            raise ValueError("a beam held at both ends is not found by statics alone: see beams")
        if self.length_mm <= 0.0:
            raise ValueError(f"a span of {self.length_mm} mm")

    @property
    def load_n(self) -> float:
        """The whole load [N]."""
        points = sum(load.force_n for load in self.points)
        return points + sum(load.force_n for load in self.evens)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stress:
    """A greatest stress [MPa], where it is and in which section."""

    stress_mpa: float
    at_mm: float
    section: Rectangle


def thicker(span: Span, by_mm: float, own: EvenLoad | None = None) -> Span:
    """The same span of thicker wood, its cuts as deep as before, its own weight grown with it.

    Args:
        span: the span
        by_mm: how much thicker [mm]
        own: which of its loads is its own weight

    **Source:** own rule, as told.
    """
    whole = span.section
    growth = 1.0 + by_mm / whole.thickness_mm

    def grown(section: Rectangle) -> Rectangle:
        return replace(section, thickness_mm=section.thickness_mm + by_mm)

    evens = tuple(
        replace(load, force_n=load.force_n * growth) if load == own else load for load in span.evens
    )
    cuts = tuple(replace(cut, section=grown(cut.section)) for cut in span.cuts)
    return replace(span, section=grown(whole), evens=evens, cuts=cuts)


def drawn_in(span: Span, by_mm: float, own: EvenLoad | None = None) -> Span:
    """The same span made shorter: a projection at its free end, else between its supports.

    What stands on it moves in with its end or its middle, and its own weight shrinks.

    Args:
        span: the span
        by_mm: how much shorter [mm], less than its length
        own: which of its loads is its own weight

    **Source:** own rule, as told.
    """
    length = span.length_mm - by_mm
    shift = by_mm if span.support is Support.CANTILEVER else by_mm / 2.0
    rest = tuple(_moved(load, shift, length) for load in span.evens if load != own)
    if own is not None and own in span.evens:
        rest = (replace(own, to_mm=length, force_n=own.force_n * length / span.length_mm), *rest)
    points = tuple(
        replace(load, at_mm=min(length, max(0.0, load.at_mm - shift))) for load in span.points
    )
    cuts = tuple(
        replace(cut, from_mm=min(cut.from_mm, length), to_mm=min(cut.to_mm, length))
        for cut in span.cuts
    )
    return replace(span, length_mm=length, evens=rest, points=points, cuts=cuts)


def beyond_bracket(span: Span, reach_mm: float) -> Span:
    """What projects past a bracket under a projecting shelf, held at the bracket's end.

    Args:
        span: a span held at one end
        reach_mm: how far the bracket reaches from there [mm], less than the length

    **Source:** own rule: the shelf bends about the end of what bears it.
    """
    length = span.length_mm - reach_mm
    evens = []
    for load in span.evens:
        start = max(load.from_mm, reach_mm)
        if start < load.to_mm:
            share = (load.to_mm - start) / (load.to_mm - load.from_mm)
            evens.append(
                EvenLoad(
                    from_mm=start - reach_mm,
                    to_mm=load.to_mm - reach_mm,
                    force_n=load.force_n * share,
                )
            )
    points = tuple(
        replace(load, at_mm=load.at_mm - reach_mm) for load in span.points if load.at_mm > reach_mm
    )
    cuts = tuple(
        replace(cut, from_mm=max(0.0, cut.from_mm - reach_mm), to_mm=cut.to_mm - reach_mm)
        for cut in span.cuts
        if cut.to_mm > reach_mm
    )
    return replace(span, length_mm=length, evens=tuple(evens), points=points, cuts=cuts)


def _moved(load: EvenLoad, shift_mm: float, length_mm: float) -> EvenLoad:
    size = min(load.to_mm - load.from_mm, length_mm)
    start = min(max(0.0, load.from_mm - shift_mm), length_mm - size)
    return replace(load, from_mm=start, to_mm=start + size)


def section_at(span: Span, x_mm: float) -> Rectangle:
    """The section at a place; where several cuts meet, the one with least wood.

    Args:
        span: the span
        x_mm: distance from the held or left end [mm]

    **Source:** own rule: the section with the least modulus governs where cuts meet.
    """
    here = [cut.section for cut in span.cuts if cut.from_mm <= x_mm <= cut.to_mm]
    return min((span.section, *here), key=lambda section: section.modulus_mm3)


def left_reaction_n(span: Span) -> float:
    """The force [N] at the left or held end.

    Args:
        span: the span

    **Source:** statics.
    """
    if span.support is Support.CANTILEVER:
        return span.load_n
    return sum(force * (1.0 - at / span.length_mm) for at, force in _resultants(span))


def moment_nmm(span: Span, x_mm: float) -> float:
    """The bending moment [N mm] at a place; sagging is positive, hogging negative.

    Args:
        span: the span
        x_mm: distance from the held or left end [mm]

    **Source:** statics.
    """
    if span.support is Support.CANTILEVER:
        return -sum(force * (at - x_mm) for at, force in _parts_beyond(span, x_mm))
    beyond = sum(force * (at - x_mm) for at, force in _parts_beyond(span, x_mm))
    right = span.load_n - left_reaction_n(span)
    return right * (span.length_mm - x_mm) - beyond


def shear_n(span: Span, x_mm: float) -> float:
    """The shear force [N] just right of a place.

    Args:
        span: the span
        x_mm: distance from the held or left end [mm]

    **Source:** statics.
    """
    beyond = sum(force for _, force in _parts_beyond(span, x_mm))
    if span.support is Support.CANTILEVER:
        return beyond
    return beyond - (span.load_n - left_reaction_n(span))


def deflection_at_mm(span: Span, x_mm: float, stiffness_gpa: float) -> float:
    """The deflection [mm] at a place, through all changes of section.

    Args:
        span: the span
        x_mm: distance from the held or left end [mm]
        stiffness_gpa: modulus of elasticity as printed, shear included [GPa]

    **Source:** virtual work, integral of M m/(E I); Simpson's rule is exact between breaks.
    """
    probe = Span(
        support=span.support,
        length_mm=span.length_mm,
        section=span.section,
        points=(PointLoad(at_mm=x_mm, force_n=1.0),),
    )
    total = 0.0
    for low, high in pairwise(_breaks(span, (x_mm,))):
        middle = (low + high) / 2.0
        products = [moment_nmm(span, x) * moment_nmm(probe, x) for x in (low, middle, high)]
        area = (high - low) / 6.0 * (products[0] + 4.0 * products[1] + products[2])
        total += area / (stiffness_gpa * 1000.0 * section_at(span, middle).second_moment_mm4)
    return total


def greatest_deflection_mm(span: Span, stiffness_gpa: float) -> float:
    """The greatest deflection [mm]: at the free end, or found to a hundredth of the span.

    Args:
        span: the span
        stiffness_gpa: modulus of elasticity as printed, shear included [GPa]

    **Source:** virtual work, as `deflection_at_mm`.
    """
    if span.support is Support.CANTILEVER:
        return deflection_at_mm(span, span.length_mm, stiffness_gpa)
    places = (span.length_mm * step / 100.0 for step in range(1, 100))
    return max(deflection_at_mm(span, x, stiffness_gpa) for x in places)


def greatest_bending(span: Span) -> Stress:
    """The greatest bending stress, looked for in every stretch with the wood that is left there.

    Args:
        span: the span

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-13; statics.
    """
    found: list[Stress] = []
    for low, high in pairwise(_breaks(span, ())):
        section = section_at(span, (low + high) / 2.0)
        for x in (low, *_vertex(span, low, high), high):
            stress = bending_stress_mpa(moment_nmm(span, x), section)
            found.append(Stress(stress_mpa=stress, at_mm=x, section=section))
    return max(found, key=lambda each: each.stress_mpa)


def greatest_shear(span: Span) -> Stress:
    """The greatest shear stress, looked for in every stretch with the wood that is left there.

    Args:
        span: the span

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-14; statics.
    """
    found: list[Stress] = []
    for low, high in pairwise(_breaks(span, ())):
        section = section_at(span, (low + high) / 2.0)
        hair = (high - low) * 1e-9
        for x in (low, high - hair):
            stress = shear_stress_mpa(shear_n(span, x), section)
            found.append(Stress(stress_mpa=stress, at_mm=x, section=section))
    return max(found, key=lambda each: each.stress_mpa)


def _resultants(span: Span) -> list[tuple[float, float]]:
    return _parts_beyond(span, -1.0)


def _parts_beyond(span: Span, x_mm: float) -> list[tuple[float, float]]:
    """Places and forces of all that lies right of a place, spread loads as their resultants."""
    parts = [(load.at_mm, load.force_n) for load in span.points if load.at_mm > x_mm]
    for load in span.evens:
        start = max(load.from_mm, x_mm)
        if start < load.to_mm:
            share = (load.to_mm - start) / (load.to_mm - load.from_mm)
            parts.append(((start + load.to_mm) / 2.0, load.force_n * share))
    return parts


def _breaks(span: Span, more: Sequence[float]) -> list[float]:
    """Every place where a load, a section or a probe changes, in order, both ends included."""
    places = {0.0, span.length_mm, *more}
    places.update(load.at_mm for load in span.points)
    for load in span.evens:
        places.update((load.from_mm, load.to_mm))
    for cut in span.cuts:
        places.update((cut.from_mm, cut.to_mm))
    return sorted(place for place in places if 0.0 <= place <= span.length_mm)


def _vertex(span: Span, low: float, high: float) -> tuple[float, ...]:
    """Where the moment, a parabola between breaks, has its peak; nothing if it has none inside."""
    middle = (low + high) / 2.0
    first, centre, last = (moment_nmm(span, x) for x in (low, middle, high))
    curvature = first - 2.0 * centre + last
    if abs(curvature) < 1e-12:
        return ()
    place = middle - (last - first) / (2.0 * curvature) * (high - low) / 2.0
    return (place,) if low < place < high else ()
