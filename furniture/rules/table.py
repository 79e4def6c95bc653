"""Every rule, by subject."""

from furniture.rules.bearing import BEARING
from furniture.rules.bench import BENCH
from furniture.rules.building import BOXES, STANDS
from furniture.rules.checking import CHECKING, STEADY
from furniture.rules.design import DESIGN
from furniture.rules.hinges import HINGED
from furniture.rules.joinery import JOINERY
from furniture.rules.rule import Rule
from furniture.rules.standing import STANDING
from furniture.rules.staying import STAYING
from furniture.rules.strengths import STRENGTHS
from furniture.rules.tools import TOOLS
from furniture.rules.wood import WOOD

BY_SUBJECT: tuple[tuple[str, tuple[Rule, ...]], ...] = (
    ("Standing", (*STANDING, *STEADY)),
    ("What holds and bears", BEARING),
    ("Shelves, joints, seasons", WOOD),
    ("What is left, and what is advised", CHECKING),
    ("At the bench", BENCH),
    ("Tools, glue and finish", TOOLS),
    ("What a design may be", DESIGN),
    ("Boxes and what all designs share", BOXES),
    ("Hinged lids", HINGED),
    ("Stands", STANDS),
    ("Joints", JOINERY),
    ("What stays as it is", (*STAYING, *STRENGTHS)),
)
ALL_RULES: tuple[Rule, ...] = tuple(rule for _, rules in BY_SUBJECT for rule in rules)
