"""Words as a DXF TEXT holds them, so that a reader shows what the maker wrote."""

from __future__ import annotations

import re

_SEVERAL = re.compile("%{2,}")


def as_written(text: str) -> str:
    """The text with `%%` and `^` said in the file's own way: they begin codes there.

    Three percent signs show as one, a caret and a space as a caret. Source: DXF reference,
    control codes and special characters, from memory. A caret at the very end is lost all the
    same: readers, ezdxf among them, take the space behind it away first.

    Args:
        text: one line as it is to be read.
    """
    return _SEVERAL.sub(lambda run: "%%%" * len(run[0]), text).replace("^", "^ ")
