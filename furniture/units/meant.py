"""Whether a value not read yet is one of a choice, so that what hangs on it is read along."""

from __future__ import annotations

from enum import Enum


def is_meant(given: object, member: Enum) -> bool:
    """Whether a choice is given, as itself or as its text; anything odd is not.

    Args:
        given: as a script has it.
        member: of the choice.
    """
    return given is member or (isinstance(given, str) and given == member.value)
