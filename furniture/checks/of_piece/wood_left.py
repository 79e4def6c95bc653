"""What the cuts leave: wood behind dados, beside rabbets, at ends, and round bores."""

from __future__ import annotations

from collections.abc import Iterable

from furniture.checks.finding import Finding, Show
from furniture.checks.left import (
    Cut,
    behind_dado_finding,
    beside_rabbet_finding,
    bore_findings,
    short_grain_finding,
)
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.rows.wood_left import BORE_END
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, Dado, Groove, Rabbet
from furniture.parts.faces import ENDS, WIDE_FACES
from furniture.parts.part import Part
from furniture.pieces import Piece, distinct_parts


def wood_left_findings_of(piece: Piece) -> tuple[Finding, ...]:
    """The wood left after every cut of every distinct part, told where it is least.

    Args:
        piece: the piece as cut
    """
    show = shown_by(piece)
    return worst_alone(
        finding for each in distinct_parts(piece) for finding in _of_part(each.part, show)
    )


def _of_part(part: Part, show: Show) -> Iterable[Finding]:
    trenches = [cut for cut in part.cuts if isinstance(cut, (Dado, Groove))]
    for number, trench in enumerate(trenches, start=1):
        yield behind_dado_finding(
            Cut(
                part=part.name,
                feature=_told(trench.kind, number, len(trenches)),
                thickness_mm=part.blank.across(trench.face),
                depth_mm=trench.depth_mm + _opposite_mm(trench, trenches, part.blank),
            ),
            show,
        )
    dados = [cut for cut in trenches if isinstance(cut, Dado) and cut.face in WIDE_FACES]
    if dados:
        yield _short_grain(part, dados, show)
    for cut in part.cuts:
        if isinstance(cut, Rabbet):
            yield beside_rabbet_finding(
                Cut(
                    part=part.name,
                    feature=f"rabbet along its {cut.edge.value}",
                    thickness_mm=part.blank.thickness_mm,
                    depth_mm=cut.into_thickness_mm,
                ),
                show,
            )
    bores = [cut for cut in part.cuts if isinstance(cut, Bore)]
    for number, bore in enumerate(bores, start=1):
        yield from _of_bore(part, bore, _told("bore", number, len(bores)), show)


def _told(kind: str, number: int, count: int) -> str:
    return kind if count == 1 else f"{kind} {number}"


def _opposite_mm(trench: Dado | Groove, others: Iterable[Dado | Groove], blank: Blank) -> float:
    """How deep the deepest trench from the opposite face goes in the same place [mm]."""
    own = _span(trench, blank)
    found = [0.0]
    for other in others:
        if other.face is not trench.face.opposite:
            continue
        theirs = _span(other, blank)
        if all(
            low < top and start < high
            for (low, high), (start, top) in zip(own, theirs, strict=True)
        ):
            found.append(other.depth_mm)
    return max(found)


def _span(trench: Dado | Groove, blank: Blank) -> tuple[tuple[float, float], ...]:
    """What a trench covers along the grain and across it [mm]; edges count as whole width."""
    if isinstance(trench, Dado):
        along = (trench.lower_shoulder_mm, trench.lower_shoulder_mm + trench.width_mm)
        stops = (trench.stop_from_face_edge_mm, trench.stop_from_back_edge_mm)
        return (along, (stops[0], blank.width_mm - stops[1]))
    run = (trench.stop_from_named_end_mm, blank.length_mm - trench.stop_from_far_end_mm)
    return (run, (trench.offset_mm, trench.offset_mm + trench.width_mm))


def _short_grain(part: Part, dados: Iterable[Dado], show: Show) -> Finding:
    """The dado that leaves least wood to an end."""
    length = part.blank.length_mm
    places = [
        (wood, cut.depth_mm, end)
        for cut in dados
        for wood, end in (
            (cut.lower_shoulder_mm, "named end"),
            (length - cut.lower_shoulder_mm - cut.width_mm, "far end"),
        )
    ]
    wood, depth, end = min(places)
    return short_grain_finding(part.name, f"dado nearest its {end}", wood, depth, show)


def _of_bore(part: Part, bore: Bore, told: str, show: Show) -> Iterable[Finding]:
    """Distances within the face that it enters, and the wood that it stands in across its axis."""
    blank = part.blank
    centre = [value or 0.0 for value in (bore.x_mm, bore.y_mm, bore.z_mm)]
    beside = [
        min(centre[axis], blank.size[axis] - centre[axis])
        for axis in (1, 2)
        if axis != bore.face.axis
    ]
    stands_in = min(blank.size[axis] for axis in range(3) if axis != bore.face.axis)
    to_end = min(centre[0], blank.length_mm - centre[0])
    findings = bore_findings(
        part.name, told, bore.diameter_mm, min(beside), to_end, stands_in, show
    )
    return (each for each in findings if bore.face not in ENDS or each.check != BORE_END)
