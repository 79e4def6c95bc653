"""A piece and what it weighs, put to the checks, subject by subject."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from furniture.checks.finding import Finding
from furniture.checks.of_piece.bending import bending_findings_of
from furniture.checks.of_piece.crowded import crowded_findings_of
from furniture.checks.of_piece.glue import glue_findings_of
from furniture.checks.of_piece.hand import as_one_hand
from furniture.checks.of_piece.joints import hand_levers_of, joint_findings_of
from furniture.checks.of_piece.open_lid import open_lid_findings, shy_lid_findings
from furniture.checks.of_piece.proportion import proportion_findings_of
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.saw import saw_findings_of
from furniture.checks.of_piece.screwed import screwed_findings_of
from furniture.checks.of_piece.seasons import season_findings_of
from furniture.checks.of_piece.setting import HeldBy, Place, Setting, read_setting
from furniture.checks.of_piece.slots import slot_findings_of
from furniture.checks.of_piece.stability import is_table_top_piece, standing_findings
from furniture.checks.of_piece.standing import standing_of
from furniture.checks.of_piece.structure import stood, structure_findings_of
from furniture.checks.of_piece.supported import supported_of
from furniture.checks.of_piece.tolerances import tolerance_findings_of
from furniture.checks.of_piece.wood_left import wood_left_findings_of
from furniture.pieces import Piece, Stance
from furniture.pieces.weighed import Weighed
from furniture.structure import WaysOut

__all__ = [
    "Group",
    "Place",
    "Setting",
    "Subject",
    "findings_by_subject",
    "findings_of",
    "read_setting",
    "standing_of",
]


class Subject(Enum):
    """What a group of findings is about, in the order in which a maker asks."""

    STANDING = "Standing"
    HOLD = "What holds it"
    SHELVES = "Shelves"
    JOINTS = "Joints"
    SEASONS = "Seasons"
    WOOD_LEFT = "Wood left"
    SAW = "At the saw"
    TOOLS = "Tools on hand"
    TOLERANCES = "Sum of errors"
    FIT = "Fit and assembly"
    BOARDS = "Boards"


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The findings on one subject."""

    subject: Subject
    findings: tuple[Finding, ...]


def findings_by_subject(
    piece: Piece,
    weighed: Weighed,
    setting: Setting | None = None,
    ways_out: Sequence[WaysOut] | None = None,
) -> tuple[Group, ...]:
    """Every finding on the piece, subject by subject; a subject that it has nothing of is left out.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
        setting: where it stands; the usual place when left out
        ways_out: what the solids say of its loose parts; when left out, faces alone decide
    """
    where = setting or Setting()
    rules = where.rules
    supported = supported_of(piece, weighed, rules, is_fixed=where.held is HeldBy.WALL)
    stands = piece.stance is Stance.FLOOR
    is_table_top = stands and is_table_top_piece(standing_of(piece, weighed), where)
    statics = stood(piece, weighed, ways_out)
    bent, housed = as_one_hand(
        bending_findings_of(statics.rest, weighed, supported, rules),
        joint_findings_of(piece, supported, where, is_table_top=is_table_top),
        hand_levers_of(supported, shown_by(piece), rules),
        shown_by(piece),
    )
    found = {
        Subject.STANDING: (
            *standing_findings(piece, weighed, where),
            *open_lid_findings(piece, weighed, where, is_table_top=is_table_top),
        ),
        Subject.HOLD: structure_findings_of(statics, rules),
        Subject.SHELVES: (
            *bent,
            *crowded_findings_of(piece, supported),
            *proportion_findings_of(piece, supported, rules),
        ),
        Subject.JOINTS: (
            *housed,
            *glue_findings_of(piece, rules),
        ),
        Subject.SEASONS: (
            *season_findings_of(piece, where),
            *slot_findings_of(piece, where),
            *screwed_findings_of(piece, where),
            *shy_lid_findings(piece, where),
        ),
        Subject.WOOD_LEFT: wood_left_findings_of(piece, rules),
        Subject.SAW: saw_findings_of(piece, rules),
        Subject.TOLERANCES: tolerance_findings_of(piece, rules),
    }
    return tuple(
        Group(subject=subject, findings=findings) for subject, findings in found.items() if findings
    )


def findings_of(
    piece: Piece,
    weighed: Weighed,
    setting: Setting | None = None,
    ways_out: Sequence[WaysOut] | None = None,
) -> tuple[Finding, ...]:
    """Every finding on the piece, in the order of its subjects.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
        setting: where it stands; the usual place when left out
        ways_out: what the solids say of its loose parts; when left out, faces alone decide
    """
    groups = findings_by_subject(piece, weighed, setting, ways_out)
    return tuple(finding for group in groups for finding in group.findings)
