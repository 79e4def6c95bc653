"""The space at which a line is not broken, and what becomes of it."""

NO_BREAK = "\u00a0"
"""In a text that is broken into lines."""


def with_spaces(line: str) -> str:
    """The line as it stands on paper, with plain spaces alone."""
    return line.replace(NO_BREAK, " ")
