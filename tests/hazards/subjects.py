"""Which checks may tell of which danger: the one place where rows and checks meet."""

from __future__ import annotations

from furniture.checks.rows.bending import GLUE_STRETCHED, LEAN
from furniture.checks.rows.joints import (
    ABOVE_DADO,
    END_GRAIN_BUTT,
    HAND_ABOVE_DADO,
    HAND_LEVER,
    LEVER,
    MITRE_GLUE,
    POST_AT_DADO,
)
from furniture.checks.rows.open_lid import FALLING_LID, OPEN_PULL, OPEN_TILT, SHY_LID, SWING
from furniture.checks.rows.proofs import FIT, OVERLAP
from furniture.checks.rows.seasons import GLUED_ACROSS, LOOSE_GAP, SCREWED_ACROSS, SLOT, SWELLING
from furniture.checks.rows.shelves import (
    BENDING,
    HAND_BENDING,
    OVER_EDGE,
    PERSON_BENDING,
    SAG,
)
from furniture.checks.rows.standing import (
    CABLE_PULL,
    CARPET,
    CHILD,
    FEET,
    PERSON_TIPS,
    STEP_TIPS,
    TILT,
    UNEVEN_FLOOR,
    WALL_FIXING,
    WALL_HOLD,
)
from furniture.checks.rows.structure import (
    BEARS,
    END_GRAIN_ALONE,
    HELD,
    LOOSE_PARTS,
    LOOSENED,
    NOT_CHECKED,
    RACKING,
)
from furniture.checks.rows.wood_left import BORE_EDGE, BORE_SHARE, SHORT_GRAIN, WOOD_LEFT

RACKS = (RACKING, LOOSENED, LEAN, BEARS, HELD)
"""It folds or leans: the push is told, or the joints that bear no moment."""
RACKS_OR_LOOSE = (*RACKS, FIT)
"""A panel with play braces nothing: the push that folds it, or the play of its fit."""
CORNER = (MITRE_GLUE, BEARS, RACKING)
JOINT_GIVES = (BEARS, END_GRAIN_ALONE)
ON_END_GRAIN = (END_GRAIN_ALONE, END_GRAIN_BUTT, BEARS, HELD)
HUNG_BY_END_GRAIN = (END_GRAIN_ALONE, END_GRAIN_BUTT, BEARS, HELD)
BREAKS = (BENDING, PERSON_BENDING)
TIPS = (TILT, UNEVEN_FLOOR)
TIPS_OPEN = (OPEN_TILT,)
STRIKES = (SWING,)
TORN_OUT = (OPEN_PULL,)
FALLS_SHUT = (FALLING_LID,)
TIPS_WITH_A_PERSON = (PERSON_TIPS, STEP_TIPS, HELD, *TIPS)
TALL = (*TIPS, WALL_FIXING, CARPET)
INSIDE_THE_PLAN = (FEET, *TIPS)
CHILDREN = (CHILD,)
PULLED = (CABLE_PULL,)
OVER = (OVER_EDGE, TILT, HELD)
SAGS = (SAG,)
LEVERS = (LEVER, HAND_LEVER, BEARS, GLUE_STRETCHED, HELD)
SPLITS = (HAND_BENDING, HAND_ABOVE_DADO, ABOVE_DADO, BENDING, SHORT_GRAIN)
SNAPS = (POST_AT_DADO, WOOD_LEFT)
HUNG = (WALL_HOLD, BEARS, HELD, NOT_CHECKED)
BOTTOM = (HELD, BEARS, LOOSE_PARTS)
BOTTOM_SAGS = (SAG, BENDING, BEARS)
BOTTOM_SHRINKS = (*BOTTOM, LOOSE_GAP, SWELLING, WOOD_LEFT)
MOVES = (GLUED_ACROSS, LOOSE_GAP, SWELLING, SHY_LID)
SLOTS = (SLOT, SCREWED_ACROSS, GLUED_ACROSS, NOT_CHECKED)
NO_WOOD = (WOOD_LEFT,)
BORED = (BORE_EDGE, BORE_SHARE, WOOD_LEFT)
LOOSE_FEET = (END_GRAIN_ALONE, END_GRAIN_BUTT, *RACKS)
UNKNOWN = (NOT_CHECKED, HELD, LOOSE_PARTS)
"""What cannot be modelled must at least be told as not held or not checked."""
OVERLAPS = (OVERLAP,)
