"""Rules of shelves, joints and seasons: sag, stress, levers, glue and gaps."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, Rule

VISIBLE_SAG = Rule(
    name="visible_sag", value=1.0 / 384.0,
    what="a sag as a share of the span that the eye sees; a projection counts twice",
    source="a magazine's book on bookcases: 1/32 in a foot",
)  # fmt: skip
STRICT_SAG = Rule(
    name="strict_sag", value=1.0 / 600.0, what="a sag as a share of the span to aim at",
    source="a magazine's book on bookcases: 0.02 in a foot",
)  # fmt: skip
PERSON_SAG = Rule(
    name="person_sag", value=1.0 / 150.0,
    what="a sag as a share of the span under a person",
)  # fmt: skip
SAG_JUDGED_FROM = Rule(
    name="sag_judged_from", value=500.0, unit="mm",
    what="a shorter span is only judged by a sag that nobody overlooks",
)  # fmt: skip
PLAIN_SAG = Rule(
    name="plain_sag", value=1.0 / 100.0,
    what="a sag as a share of the span that nobody overlooks, however short it is",
)  # fmt: skip
SAG_TOLD_FROM = Rule(
    name="sag_told_from", value=400.0, unit="mm", what="the sag of a shorter span is not told"
)
BREAKING_RESERVE = Rule(
    name="breaking_reserve", value=1.5,
    what="stated loads fail beyond the mean strength over this",
)  # fmt: skip
SHORT_TIME = Rule(
    name="short_time", value=1.25,
    what="so many times what wood bears for good it bears under a load that comes and goes",
    source="ASTM D245, normal duration, from memory: what the divisor takes for a load that stays",
)  # fmt: skip
LEVER_CAUTION = Rule(
    name="lever_caution", value=1.5,
    what="a shelf's lever in its dado cautions beyond so many times the estimate",
)  # fmt: skip
LEVER_FAILS = Rule(
    name="lever_fails", value=3.0,
    what="stated loads fail beyond so many times the estimate, a hand cautions: an estimate may be "
    "off by two",
)  # fmt: skip
DROOP_SHARE = Rule(
    name="droop_share", value=0.01,
    what="what the eye takes as level, as a share of a projection that no glue holds",
)  # fmt: skip
BOX_KNOCK = Rule(
    name="box_knock", value=100.0, unit="N", what="a hand that pushes a box side in its middle"
)
SHORT_BOX_KNOCK = Rule(
    name="short_box_knock", value=40.0, unit="N",
    what="the same on a short box on a table whose bottom nothing holds",
)  # fmt: skip
SHORT_BOX_HEIGHT = Rule(
    name="short_box_height", value=120.0, unit="mm", what="the rails of a short box are lower"
)
SHORT_BOX_SIDE = Rule(
    name="short_box_side", value=350.0, unit="mm",
    what="and shorter: such boxes last without keys",
    source="own rule, after a woodworking magazine of 2015 on boxes with a glued bottom",
)  # fmt: skip
GLUED_TOLD = Rule(
    name="glued_told", value=1.0, unit="mm",
    what="from here on it is noted that parts glued across the grain part ways", source=PRACTICE,
)  # fmt: skip
GLUED_CAUTION = Rule(
    name="glued_caution", value=1.5, unit="mm",
    what="beyond this it cautions", source=PRACTICE,
)  # fmt: skip
GLUED_FAILS = Rule(
    name="glued_fails", value=3.0, unit="mm",
    what="beyond this wood or glue cracks", source=PRACTICE,
)  # fmt: skip
GAP_PLAY = Rule(
    name="gap_play", value=0.2, unit="mm",
    what="the play that a loose part keeps in the dampest season", source=PRACTICE,
)  # fmt: skip
GAP_PRESS = Rule(
    name="gap_press", value=0.3, unit="mm",
    what="a loose part that outgrows its opening by more fails",
)  # fmt: skip
HARMLESS_PRESS = Rule(
    name="harmless_press", value=0.1, unit="mm",
    what="a shelf that swells so much more than its dado does no harm", source=PRACTICE,
)  # fmt: skip
SCREW_PLAY = Rule(
    name="screw_play", value=0.5, unit="mm",
    what="the play of a screw in its plain hole", source=PRACTICE,
)  # fmt: skip
SCREWED_CAUTION = Rule(
    name="screwed_caution", value=1.0, unit="mm",
    what="parts that part ways by so much more than the play of their screws bend or split",
)  # fmt: skip

WOOD = (
    VISIBLE_SAG, STRICT_SAG, PERSON_SAG, SAG_JUDGED_FROM, PLAIN_SAG, SAG_TOLD_FROM,
    BREAKING_RESERVE, SHORT_TIME,
    LEVER_CAUTION, LEVER_FAILS, DROOP_SHARE, BOX_KNOCK, SHORT_BOX_KNOCK, SHORT_BOX_HEIGHT,
    SHORT_BOX_SIDE, GLUED_TOLD, GLUED_CAUTION, GLUED_FAILS, GAP_PLAY, GAP_PRESS, HARMLESS_PRESS,
    SCREW_PLAY, SCREWED_CAUTION,
)  # fmt: skip
