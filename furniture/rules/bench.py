"""Rules of the bench: what can be held at the saw, and what errors pass unseen."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, KeptBy, Rule

RIP_LENGTH = Rule(
    name="rip_length", value=300.0, unit="mm",
    what="the shortest piece that is ripped at the saw", source=PRACTICE,
)  # fmt: skip
RIP_WIDTH = Rule(
    name="rip_width", value=50.0, unit="mm",
    what="the narrowest strip that is ripped by hand", source=PRACTICE,
)  # fmt: skip
HAND_ZONE = Rule(
    name="hand_zone", value=150.0, unit="mm", what="hands stay so far from the blade",
    source=PRACTICE,
)  # fmt: skip
SHELF_HEIGHT = Rule(
    name="shelf_height", value=0.5, unit="mm",
    what="how far a shelf's height may be off: beside a square nobody sees less",
)  # fmt: skip
GLUE_LINE = Rule(
    name="glue_line", value=0.15, unit="mm", what="the thickest glue line that still holds well",
    source="glue lines of 0.05 to 0.15 mm are best (a wood technologist's column in a trade "
    "journal, read); beyond it a face counts as not glued: own rule",
    kept_by=KeptBy.JOINTS,
    fixed="joints, statics and the order of assembly agree on one glue line, whatever is asked",
)  # fmt: skip

BENCH = (RIP_LENGTH, RIP_WIDTH, HAND_ZONE, SHELF_HEIGHT, GLUE_LINE)
