"""Every check as a row of one table, by subject: what readers and tests go by."""

from furniture.checks.check import Check
from furniture.checks.rows.bench import BENCH
from furniture.checks.rows.bending import BENT
from furniture.checks.rows.joints import JOINTS
from furniture.checks.rows.open_lid import OPEN_LID
from furniture.checks.rows.proofs import PROOFS
from furniture.checks.rows.seasons import SEASONS
from furniture.checks.rows.shelves import SHELVES
from furniture.checks.rows.standing import STANDING
from furniture.checks.rows.structure import STRUCTURE
from furniture.checks.rows.wood_left import WOOD_LEFT_CHECKS

ALL_CHECKS: tuple[Check, ...] = (
    *STANDING, *OPEN_LID, *STRUCTURE, *BENT, *SHELVES, *JOINTS, *SEASONS, *WOOD_LEFT_CHECKS,
    *BENCH, *PROOFS,
)  # fmt: skip
