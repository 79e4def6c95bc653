"""The colours of a STEP file in the order of what they colour.

The writer takes them from a table keyed by addresses, so equal pieces gave unequal files. The
numbers of a STEP file are mere names and its statements stand in any order (ISO 10303-21, from
memory), so the last of them, which say the colours, may be numbered anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

_WIDE = 72
"""Letters on a line, as the writer breaks them."""
_FIRST = re.compile(
    r"^#\d+ = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION\(", re.MULTILINE
)
_STATEMENT = re.compile(r"#(\d+) = ((?:'[^']*'|[^';])*);")
_REFERENCE = re.compile(r"'[^']*'|#(\d+)")
_SPACE = re.compile(r"('[^']*')|\s+")


def in_order(text: str) -> str:
    """The same file with its colours in order; as it is, where they are not what is known here.

    Args:
        text: of a whole STEP file.
    """
    begin = _FIRST.search(text)
    end = text.rfind("ENDSEC;")
    if begin is None or end < begin.start():
        return text
    told = {
        int(match[1]): _SPACE.sub(lambda space: space[1] or "", match[2])
        for match in _STATEMENT.finditer(text, begin.start(), end)
    }
    roots = [number for number, body in told.items() if body.startswith("MECHANICAL_DESIGN")]
    order: dict[int, None] = {}
    for root in sorted(roots, key=lambda each: _coloured(each, told)):
        _reach(root, told, order)
    if set(order) != set(told) or sorted(told) != list(range(min(told), max(told) + 1)):
        return text
    renamed = dict(zip(order, sorted(told), strict=True))
    lines = (f"#{renamed[old]} = {_renamed(told[old], renamed)};" for old in order)
    ordered = "".join(f"{part}\n" for line in lines for part in _broken(line))
    return text[: begin.start()] + ordered + text[end:]


def _coloured(root: int, told: Mapping[int, str]) -> tuple[int, ...]:
    """What a colour is given to: numbers from before the colours, through the styled items."""
    items = [each for each in _references(told[root]) if each in told]
    return tuple(sorted(each for item in items for each in _references(told[item], but=told)))


def _references(body: str, but: Mapping[int, str] | None = None) -> list[int]:
    found = [int(match[1]) for match in _REFERENCE.finditer(body) if match[1]]
    return [each for each in found if but is None or each not in but]


def _reach(number: int, told: Mapping[int, str], order: dict[int, None]) -> None:
    """A statement and, in the order in which they are named, those that it names."""
    if number in told and number not in order:
        order[number] = None
        for each in _references(told[number]):
            _reach(each, told, order)


def _renamed(body: str, names: Mapping[int, int]) -> str:
    def new(match: re.Match[str]) -> str:
        return f"#{names.get(int(match[1]), int(match[1]))}" if match[1] else match[0]

    return _REFERENCE.sub(new, body)


def _broken(line: str) -> Iterator[str]:
    """The line in pieces, broken behind commas, a string never."""
    piece = ""
    for word in re.findall(r"(?:'[^']*'|[^',])*,?", line):
        if piece and len(piece) + len(word) > _WIDE:
            yield piece
            piece = "  "
        piece += word
    yield piece
