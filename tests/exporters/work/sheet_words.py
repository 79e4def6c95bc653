"""The words on sheets, for tests of what they say."""

from __future__ import annotations

from collections.abc import Iterable

from exporters.sheets.values import Lettering, Sheet


def words_on(sheets: Iterable[Sheet]) -> str:
    """All texts of the sheets, as one paragraph."""
    return " ".join(
        item.text for sheet in sheets for item in sheet.items if isinstance(item, Lettering)
    )
