"""The proofs of fit and of assembly as findings, beside the checks."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.assembly.doubts import fit_doubts, joint_advice
from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Verdict, without_figure
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.rows.proofs import (
    CLASHES,
    CONTACTS,
    CUTS_TAKE_WOOD,
    GOES_TOGETHER,
    OVERLAP,
)
from furniture.parts.ways import axis_in_words, way_in_words
from furniture.pieces import Piece
from furniture.solids.apart import way_apart
from furniture.solids.proof import LEAST_OVERLAP_MM3, Interference, interferences
from furniture.solids.proof_clashes import Clash, clashing_joints
from furniture.solids.proof_contacts import untrue_contacts
from furniture.solids.proof_cuts import wasted_cuts
from furniture.units import Amounts

_STANDS_OFF = "a part between them, or a cut that took the face away, spoils the joint"
_WASTED = "leave the cut out, or place it where wood is"


def fit_findings(piece: Piece) -> tuple[Finding, ...]:
    """One finding for each proof of fit that holds, and one for every fault of one that does not.

    Doubtful fits and what the joints advise follow.

    **Source:** own rule: the solids decide; the least overlap counted is 0.01 mm3.
    """
    pairs = len(piece.placed) * (len(piece.placed) - 1) // 2
    contacts = sum(len(joining.faces) for joining in piece.joinings)
    overlaps, show = interferences(piece), shown_by(piece)
    clear = f"none of the {pairs} pairs overlap"
    return (
        *(
            Finding(
                check=OVERLAP,
                subject=f"{each.first} and {each.second}",
                value=each.volume_mm3,
                limits=OVERLAP.limits(fails=LEAST_OVERLAP_MM3),
                basis=each.in_words,
                advice=_freed(piece, each, show),
            )
            for each in overlaps
        ),
        *(() if overlaps else (without_figure(OVERLAP, Verdict.OK, clear),)),
        *_faults(
            CONTACTS,
            [(each.in_words, _STANDS_OFF) for each in untrue_contacts(piece)],
            f"all {contacts} stated faces touch or stand off by their clearance",
        ),
        *_faults(
            CUTS_TAKE_WOOD,
            [(each.in_words, _WASTED) for each in wasted_cuts(piece)],
            "each cut takes what its figures say from its part",
        ),
        *_faults(
            CLASHES,
            [(each.in_words, _shifted(each, show)) for each in clashing_joints(piece)],
            "no two cuts of a part claim the same wood but by design",
        ),
        *fit_doubts(piece),
        *joint_advice(piece),
    )


def assembly_finding(result: AssemblyPlan | NoOrder) -> Finding:
    """Whether the piece goes together, in how many moves, or which parts lock each other.

    Args:
        result: the proof of assembly.

    **Source:** own rule: straight moves, one part or sub-assembly at a time.
    """
    if isinstance(result, NoOrder):
        return without_figure(
            GOES_TOGETHER,
            Verdict.FAIL,
            result.reason,
            subject=", ".join(result.stuck),
            advice="open one of their joints on the side that a part has to come from",
        )
    in_two = sum(step.before is not None for step in result.steps)
    how = f"in {len(result.steps)} straight moves"
    if in_two:
        how += f", {in_two} of two legs"
    return without_figure(GOES_TOGETHER, Verdict.OK, f"{how}, in the order given")


def _freed(piece: Piece, overlap: Interference, show: Amounts) -> str:
    """What frees two parts of each other, and by how much."""
    found = way_apart(piece, overlap)
    by = show(show.up(found.by_mm))
    if found.moves is not None:
        part, way = found.moves
        return f"move {part} {by} {way_in_words(way)}, or give their joint its cut"
    return (
        f"make one of the two {by} less {axis_in_words(found.way)}: neither has room to be moved "
        "by it; or give their joint its cut"
    )


def _shifted(clash: Clash, show: Amounts) -> str:
    if clash.apart is None:
        return "leave one of the two out: the part has no room for both"
    where = ("along", "across")[clash.apart.axis]
    return f"move one of the two {show(show.up(clash.apart.by_mm))} {where} the part"


def _faults(check: Check, faults: Sequence[tuple[str, str]], held: str) -> tuple[Finding, ...]:
    if not faults:
        return (without_figure(check, Verdict.OK, held),)
    return tuple(without_figure(check, Verdict.FAIL, words, advice=how) for words, how in faults)
