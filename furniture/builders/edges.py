"""Edge profiles as a maker states them, and the edges that lie inside joints."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.builders.common import Names
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader, at_most_known
from furniture.parts.cuts import Profile, ProfileKind
from furniture.parts.edge_names import (
    OUTER_TOP,
    EdgeNames,
    in_order,
    written,
    written_list,
)
from furniture.parts.faces import ALL_ARRISES, Arris, Face
from furniture.parts.part import Placed
from furniture.rules.building import GREATEST_PROFILE, LEAST_PROFILE, PROFILE_LEAVES
from furniture.units import Given, at_most_text, counted, figure_with_unit, parameters, said
from furniture.units.words import listed


@parameters
class EdgeProfile:
    """A round-over or chamfer on some edges of a part or of a group of parts.

    Args:
        on: one part by its own name, such as `tier 2`, or all of a kind, such as `tiers`.
        edges: such as TOP_FRONT; `Arris(Face.FACE_EDGE, Face.FAR_END)` is where two faces meet.
        kind: round-over or chamfer.
        radius: of the round-over, or the chamfer's legs.
    """

    on: str = ""
    edges: Sequence[Arris] = ()
    kind: ProfileKind = ProfileKind.ROUND_OVER
    radius: Given = "3 mm"


HiddenEdges = Mapping[str, Mapping[Arris, str]]
"""For each instance, the arrises where no profile may run, with the reason."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shoulder:
    """Wood beside a joint, which a profile on those arrises must not eat up [mm]."""

    edges: frozenset[Arris]
    room: float


def read_profiles(
    reader: DesignReader,
    profiles: object,
    names: Names,
    hidden: HiddenEdges,
    shoulders: Mapping[str, Shoulder] | None = None,
    *,
    thickness: Callable[[str], float],
    grain: Callable[[str], PanelGrain] = lambda _: PanelGrain.ALONG,
) -> dict[str, tuple[Profile, ...]]:
    """The profile cuts for each instance; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        profiles: several `EdgeProfile`.
        names: of the piece.
        hidden: the edges where none may run.
        shoulders: by instance, edges that lie beside a joint.
        thickness: of an instance [mm]; not-a-number where it is not known.
        grain: of an instance whose edges are named by where they are seen.
    """
    cuts: dict[str, tuple[Profile, ...]] = {}
    like = reader.example("EdgeProfile")
    entries = reader.several("profiles", profiles, EdgeProfile, like)
    for index, profile in enumerate(entries):
        where = counted("profile", index, getattr(profile, "on", None))
        if not isinstance(profile, EdgeProfile):
            why = "it says what to shape"
            reader.refuse(where, said(profile), "an EdgeProfile", why, f"write {like}")
            continue
        reader.names(f"{where} ", profile)
        meant = names.meant_by(profile.on)
        if not meant:
            reader.refuse(
                f"{where} on", said(profile.on), names.listed, "a profile is on a part",
                names.remedy(profile.on),
            )  # fmt: skip
        kind = reader.choice(f"{where} kind", profile.kind, ProfileKind, ProfileKind.ROUND_OVER)
        radius = reader.length(
            f"{where} radius",
            profile.radius,
            at_least=reader.rules[LEAST_PROFILE],
            at_most=min(
                [reader.rules[GREATEST_PROFILE]]
                + [at_most_known(thickness(each) - reader.rules[PROFILE_LEAVES]) for each in meant]
            ),
            why="there are bits of this size, and some flat must be left on both faces",
        )
        edges = _read_edges(reader, where, profile.edges)
        hidden_in = {instance: hidden.get(instance, {}) for instance in meant}
        _refuse_hidden(reader, f"{where} edges", edges, hidden_in, names)
        for instance in meant:
            shoulder = (shoulders or {}).get(instance)
            if shoulder is not None and shoulder.edges.intersection(edges):
                _refuse_wide(reader, f"{where} edges", instance, radius, shoulder.room)
            made = tuple(
                Profile(edge=grain(instance).arris(edge), profile_kind=kind, radius_mm=radius)
                for edge in edges
            )
            cuts[instance] = cuts.get(instance, ()) + made
    return cuts


def _read_edges(reader: DesignReader, where: str, given: object) -> tuple[Arris, ...]:
    entries = reader.several(f"{where} edges", given, Arris, "TOP_FRONT")
    edges = tuple(dict.fromkeys(edge for edge in entries if isinstance(edge, Arris)))
    if len(edges) != len(entries) or (not edges and isinstance(given, (list, tuple))):
        reader.refuse(
            f"{where} edges", said(given), "edges such as TOP_FRONT, each once",
            "a profile runs along stated edges", "write edges=[TOP_FRONT]",
        )  # fmt: skip
    return edges


def _refuse_hidden(
    reader: DesignReader,
    parameter: str,
    edges: Sequence[Arris],
    hidden: HiddenEdges,
    names: Names,
) -> None:
    """Note each edge that lies hidden, once for all the parts that it is hidden on alike."""
    on: dict[tuple[Arris, str, str], list[str]] = {}
    for instance, hidden_edges in hidden.items():
        called = names.edges_of(instance)
        for edge in edges:
            if edge in hidden_edges:
                on.setdefault((edge, written(edge, called), hidden_edges[edge]), []).append(
                    instance
                )
    taken = frozenset().union(*hidden.values())
    for (_, called_so, why), instances in on.items():
        called = names.edges_of(instances[0])
        free = in_order(ALL_ARRISES - taken, called)
        reader.refuse(
            parameter,
            f"{called_so} of {listed(instances)}",
            ", ".join(written(each, called) for each in free) or "none",
            why,
            _without_hidden([each for each in edges if each not in taken], free, called),
        )


def _without_hidden(kept: Sequence[Arris], free: Sequence[Arris], called: EdgeNames) -> str:
    """What to write instead of edges of which some are hidden."""
    if kept:
        return f"write edges={written_list(kept, called)}"
    instead = f", or write edges={written_list(free[:1], called)}" if free else ""
    return f"leave this profile out{instead}"


def _refuse_wide(
    reader: DesignReader, parameter: str, instance: str, radius: float, room: float
) -> None:
    if radius <= room + 1e-6 or math.isnan(radius) or math.isnan(room):
        return
    least = at_most_text(room, reader.shown)
    reader.refuse(
        parameter,
        f"{figure_with_unit(radius, reader.shown)} on the ends of {instance}",
        f"at most {least} there, as its ends stand {least} past the post",
        "a wider profile would run into the mouth of the dado",
        "leave the ends out, take a smaller radius, or widen the tier",
    )


def with_profiles(placed: Placed, profiles: Mapping[str, tuple[Profile, ...]]) -> Placed:
    """The instance with its profiles among its own cuts."""
    cuts = profiles.get(placed.instance, ())
    return replace(placed, part=replace(placed.part, cuts=placed.part.cuts + cuts))


def rail_hidden(flush_allowance: float, has_bottom: bool, has_lid: bool = True) -> dict[Arris, str]:
    """The arrises of a rail where no profile may run, with the reason.

    Args:
        flush_allowance: what is planed off its top after glue-up [mm].
        has_bottom: whether its lower edge holds a bottom.
        has_lid: whether its upper edge holds a lid.
    """
    hidden = {
        arris: "the rail's ends lie in its corners or against an upright part"
        for arris in ALL_ARRISES
        if arris.second.axis == 0
    }
    if has_lid:
        hidden[Arris(Face.BACK_SIDE, Face.BACK_EDGE)] = "the lid's rabbet runs there"
    if has_bottom:
        hidden[Arris(Face.BACK_SIDE, Face.FACE_EDGE)] = "the bottom's rabbet runs there"
    if flush_allowance > 0:
        hidden[OUTER_TOP] = (
            "rail tops are planed flush after glue-up, which would take the profile off: shape "
            "that edge after planing"
        )
    return hidden


def panel_hidden(hidden_face: Face, edges: Sequence[Face], why: str) -> dict[Arris, str]:
    """The arrises of a panel between one of its wide faces and some of its edges."""
    return {Arris(hidden_face, edge): why for edge in edges}
