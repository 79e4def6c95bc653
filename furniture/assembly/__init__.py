"""Proof of assembly: an order and a straight way home for every part, or why there is none."""

from furniture.assembly.of_piece import (
    assembly_of,
    assembly_record,
    bodies_of,
    scene_of,
    step_in_words,
)
from furniture.assembly.planner import plan_of
from furniture.assembly.values import AssemblyPlan, NoOrder, Step

__all__ = [
    "AssemblyPlan",
    "NoOrder",
    "Step",
    "assembly_of",
    "assembly_record",
    "bodies_of",
    "plan_of",
    "scene_of",
    "step_in_words",
]
