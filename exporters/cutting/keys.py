"""Keys that stand for names on a crowded drawing, in the order of the lists that give the names."""

from __future__ import annotations


def part_key(index: int) -> str:
    """What stands for a part: P1, P2 ..."""
    return f"P{index + 1}"


def zone_key(index: int) -> str:
    """What stands for a zone: Z1, Z2 ..."""
    return f"Z{index + 1}"
