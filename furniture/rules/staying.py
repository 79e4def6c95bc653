"""Rules that are told and stay: definitions, and what is read before a maker's rules."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, Rule

LEAST_WOOD = Rule(
    name="least_wood",
    value=1.0,
    unit="mm",
    what="wood no thicker than this is none: it breaks in the making",
)
LEAST_WIDTH_ALLOWANCE = Rule(
    name="least_width_allowance",
    value=1.5,
    unit="mm",
    what="left on a width at least where its board is not wide enough for the rough width: a "
    "pass of the plane on either edge",
)
CUT_ACROSS = Rule(
    name="cut_across",
    value=0.8,
    what="a cut over more than this share of the width is across it: glue joints of strips "
    "cannot keep off it",
)
LONGEST_BOARD = Rule(
    name="longest_board",
    value=10.0,
    unit="ft",
    what="the longest board that is asked for: what a car carries",
    source=PRACTICE,
)
THINNER = Rule(
    name="thinner",
    value=0.1,
    unit="mm",
    what="a board so little thinner than its stock is used as it is: what a tape makes of one "
    "figure",
)

CARD_PLAY = Rule(
    name="card_play",
    value=0.3,
    unit="mm",
    what="play that a loose part keeps in its tightest season: a sheet of card",
    source=PRACTICE,
)
DOUBTFUL_SHARE = Rule(
    name="doubtful_share",
    value=0.15,
    what="from which difference of two sources on a value of wood is told",
)

SKIM = Rule(
    name="skim",
    value=0.5,
    unit="mm",
    what="the saw takes so much off the sharp line of an end that it trims true",
)
SMALL_PART = Rule(
    name="small_part",
    value=150.0,
    unit="mm",
    what="equal parts that are shorter come off one blank, and each stays on it till the last",
    source=PRACTICE,
)
HOLDING_LENGTH = Rule(
    name="holding_length",
    value=200.0,
    unit="mm",
    what="the last of several small parts leaves so much of its blank in the hand",
    source=PRACTICE,
)
FALLS_FROM = Rule(
    name="falls_from",
    value=0.5,
    what="a way out that leads down by more than this share of it lets a part fall",
    fixed="a definition: what is told as a way down",
)
LIES_ON_WITHIN = Rule(
    name="lies_on_within",
    value=0.1,
    unit="mm",
    what="how near a shelf and its bracket lie that touch",
    fixed="a definition: what is told as touching, which no shop sets",
)
WISHED_SHARE = Rule(
    name="wished_share",
    value=0.5,
    what="the share of a part that a wished zone covers: from half on it reads as that wood",
)
WORTH_A_PASS = Rule(
    name="worth_a_pass",
    value=20_000.0,
    unit="mm2",
    what="an offcut larger by so much is worth one more pass of the saw: two hands",
)

STAYING = (
    LEAST_WOOD, LEAST_WIDTH_ALLOWANCE, CUT_ACROSS, LONGEST_BOARD, THINNER, CARD_PLAY,
    DOUBTFUL_SHARE, SKIM, SMALL_PART, HOLDING_LENGTH, FALLS_FROM, LIES_ON_WITHIN, WISHED_SHARE,
    WORTH_A_PASS,
)  # fmt: skip
