"""Variants as a command line gives them: `base_width=360 mm`, `tiers.rise=140 mm`."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

from exporters.compare.variants import CompareError
from exporters.designs import Design
from furniture.pieces import Piece

AS_IT_IS = "as it is"
_NEXT = re.compile(r"\s*[,;]\s*(?=[A-Za-z_][\w.]*\s*=)")
"""Between two changes; a value may itself hold a comma."""


def variants_given(design: Design | Piece, asked: Sequence[str]) -> dict[str, Design | Piece]:
    """The design as it is, and one for each text with its changes, called by that text.

    Args:
        design: that is varied.
        asked: changes as `parameter=value`, several with commas between them; a parameter of a
            parameter with a dot. A bare whole number is a count.

    Raises:
        CompareError: a text is no change, or names no parameter.
    """
    found: dict[str, Design | Piece] = {AS_IT_IS: design}
    for text in asked:
        changed: Any = design
        for change in _NEXT.split(text.strip()):
            name, is_there, value = (each.strip() for each in change.partition("="))
            if not is_there or not name or not value:
                raise CompareError(f'--with {text!r}: write it as "parameter=value"')
            changed = _changed(changed, name.split("."), _read(value), name)
        found[" ".join(text.split())] = changed
    return found


def _read(value: str) -> str | int | bool:
    if value in ("True", "False"):
        return value == "True"
    return int(value) if value.isdecimal() else value


def _changed(of: Any, names: Sequence[str], value: str | int | bool, said: str) -> Any:
    is_one = is_dataclass(of) and not isinstance(of, Piece)
    known = [each.name for each in fields(of) if each.name[0] != "_"] if is_one else []
    first, *rest = names
    if first not in known:
        near = difflib.get_close_matches(first, known, n=1)
        is_meant = f"did you mean {near[0]}? " if near else ""
        raise CompareError(
            f"--with {said}: there is no parameter {first}; {is_meant}"
            f"{type(of).__name__} has {', '.join(known) or 'none to change here'}"
        )
    if rest:
        value = _changed(getattr(of, first), rest, value, said)
    return replace(of, **{first: value})
