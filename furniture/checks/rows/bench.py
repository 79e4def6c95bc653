"""The checks of the work at the bench: what the saw asks, and how errors add up."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Kind, Level
from furniture.rules import PRACTICE

SHORT_RIP = Check(
    name="short rip at the saw",
    unit="mm",
    sense=Sense.AT_LEAST,
    kind=Kind.BENCH,
    cautions=Level(when="too short to hold between fence and blade"),
    says="Short to rip: {subject}, {value} long; {limit} can be held safely.",
    source=PRACTICE,
)
NARROW_RIP = Check(
    name="narrow rip at the saw",
    unit="mm",
    sense=Sense.AT_LEAST,
    kind=Kind.BENCH,
    cautions=Level(when="too narrow for a hand beside the blade"),
    says="Narrow to rip: {subject}, {value} wide; {limit} can be held safely.",
    source=PRACTICE,
)
SHORT_CROSSCUT = Check(
    name="short crosscut at the saw",
    unit="mm",
    sense=Sense.AT_LEAST,
    kind=Kind.BENCH,
    cautions=Level(when="hands come too near to the blade"),
    says="Short to crosscut: {subject}, {value} long; hands stay {limit} from the blade.",
    source=PRACTICE,
)
DADO_ERRORS = Check(
    name="sum of errors over the dados",
    unit="mm",
    sense=Sense.AT_MOST,
    kind=Kind.BENCH,
    cautions=Level(when="small errors add up to more than passes unseen"),
    says="Small errors may put the {subject} off by {value}; {limit} passes unseen.",
)
MITRE_ERRORS = Check(
    name="sum of errors round a mitred box",
    unit="mm",
    sense=Sense.AT_MOST,
    kind=Kind.BENCH,
    cautions=Level(when="small errors open the last corner wider than glue bridges"),
    says="Small errors at eight cuts may open the {subject} by {value}; glue bridges {limit}.",
)

TOOL_ON_HAND = Check(
    name="cuts that no tool on hand makes",
    sense=Sense.AT_MOST,
    kind=Kind.BENCH,
    cautions=Level(when="a machine would make it, but the tool for it is wanting", at=0.0),
    says="No tool on hand: {subject}, {value} in all.",
)

CLAMP_ROOM = Check(
    name="joints that no clamp presses",
    sense=Sense.AT_MOST,
    kind=Kind.BENCH,
    cautions=Level(when="no clamp's head has room or wood to bear on, so tape or weights hold it",
                   at=0.0),
    says="No room for a clamp: {subject}, {value} in all.",
)  # fmt: skip

BENCH = (
    SHORT_RIP, NARROW_RIP, SHORT_CROSSCUT, DADO_ERRORS, MITRE_ERRORS, TOOL_ON_HAND, CLAMP_ROOM,
)  # fmt: skip
