"""What a maker writes for the sheets to say in words."""

from __future__ import annotations

from furniture.builders.common import Names
from furniture.builders.rules import DesignReader
from furniture.pieces import Note
from furniture.units import counted, said

LONGEST_NOTE = 240
"""Letters of a maker's note: five lines of the column beside a part's title block. Own rule."""


def read_notes(reader: DesignReader, notes: object, names: Names) -> tuple[Note, ...]:
    """The notes as the sheets say them; what is no text or cannot be printed is noted.

    Args:
        reader: keeps the problems.
        notes: text, or a `Note` with the parts that it is about; one or several.
        names: what parts there are.
    """
    found = []
    for index, each in enumerate(reader.several("notes", notes, (str, Note), "'seal it'")):
        where = counted("note", index)
        given = each if isinstance(each, Note) else Note(each)  # type: ignore[arg-type]
        about = reader.several(f"{where} about", given.about, str, "'lid'")
        for name in about:
            if not names.meant_by(name):
                reader.refuse(
                    f"{where} about", said(name), names.listed,
                    "the sheets of those parts say it too", names.remedy(name),
                )  # fmt: skip
        text = reader.text(where, given.text, longest=LONGEST_NOTE)
        found.append(Note(text, tuple(one for name in about for one in names.meant_by(name))))
    return tuple(found)
