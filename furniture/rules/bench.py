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
SLED_LENGTH = Rule(
    name="sled_length", value=200.0, unit="mm",
    what="the shortest piece that is clamped to a sled to be ripped: two clamps and the blade "
    "find room along it",
    source=PRACTICE,
)  # fmt: skip
SLED_WIDTH = Rule(
    name="sled_width", value=100.0, unit="mm",
    what="the narrowest such piece: a clamp holds half of it, and keeps a hand's breadth off the "
    "blade",
    source=PRACTICE,
)  # fmt: skip
HAND_ZONE = Rule(
    name="hand_zone", value=150.0, unit="mm", what="hands stay so far from the blade",
    source=PRACTICE,
)  # fmt: skip
SHELF_HEIGHT = Rule(
    name="shelf_height", value=0.5, unit="mm",
    what="how far a shelf's height may be off: beside a square nobody sees less",
)  # fmt: skip
FRAME_OFF = Rule(
    name="frame_off", value=1.0, unit="mm",
    what="how far parts that are made may stand off their drawing where what they frame was "
    "measured: they are then drawn as they stand, beyond it the figures contradict",
    source="own rule: what the errors round a glued frame add up to, and no more",
)  # fmt: skip
GLUE_LINE = Rule(
    name="glue_line", value=0.15, unit="mm", what="the thickest glue line that still holds well",
    source="glue lines of 0.05 to 0.15 mm are best (a wood technologist's column in a trade "
    "journal, read); beyond it a face counts as not glued: own rule",
    kept_by=KeptBy.JOINTS,
    fixed="across a thicker line glue does not hold, whatever is asked of it",
)  # fmt: skip

LEAST_GLUE_LINE = Rule(
    name="least_glue_line", value=0.05, unit="mm",
    what="the thinnest glue line that still holds well",
    source="glue lines of 0.05 to 0.15 mm are best (a wood technologist's column in a trade "
    "journal, read)",
    kept_by=KeptBy.JOINTS,
    fixed="in a thinner line the glue is wiped off, whatever is asked of it",
)  # fmt: skip

THICKNESS_ERROR = Rule(
    name="thickness_error",
    value=0.1,
    unit="mm",
    what="how far off a thickness is",
    source=PRACTICE,
)
POSITION_ERROR = Rule(
    name="position_error",
    value=0.2,
    unit="mm",
    what="how far off a place is that is marked and cut",
    source=PRACTICE,
)
KERF_ERROR = Rule(
    name="kerf_error",
    value=0.1,
    unit="mm",
    what="how far off a kerf is",
    source=PRACTICE,
)
LENGTH_ERROR = Rule(
    name="length_error",
    value=0.3,
    unit="mm",
    what="how far off a length is that is cut to a stop",
    source=PRACTICE,
)
ANGLE_ERROR = Rule(
    name="angle_error",
    value=0.1,
    unit="deg",
    what="how far off the tilt of a blade is",
    source=PRACTICE,
)
FEELER = Rule(
    name="feeler",
    value=0.05,
    unit="mm",
    what="the steps of a feeler gauge",
    source=PRACTICE,
)
CLAMP_MINUTES = Rule(
    name="clamp_minutes",
    value=0.5,
    what="minutes to set one clamp or to draw one band tight",
)
CAUL_THICKNESS = Rule(
    name="caul_thickness",
    value=20.0,
    unit="mm",
    what="thickness of a caul below each head of a clamp",
)

BENCH = (
    RIP_LENGTH, RIP_WIDTH, SLED_LENGTH, SLED_WIDTH, HAND_ZONE, SHELF_HEIGHT, GLUE_LINE,
    LEAST_GLUE_LINE,
    THICKNESS_ERROR, POSITION_ERROR, KERF_ERROR, LENGTH_ERROR, ANGLE_ERROR, FEELER, CLAMP_MINUTES,
    CAUL_THICKNESS,
)  # fmt: skip
