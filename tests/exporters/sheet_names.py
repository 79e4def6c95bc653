"""What a sheet calls the faces of a part, and which faces those are."""

from __future__ import annotations

import re

from shapely.geometry import LineString, Point

from tests.exporters.sheet_values import Line, ReadText

FACE_NAME = r"(?!seen on )(?:[a-z0-9]+ )*(?:face|side)|underside"
"""A face's name alone: `seen on the inside face` heads another look at it."""

_PAIRS = (("outside face", "inside face"), ("top face", "underside"), ("front face", "back face"),
          ("right face", "left face"), ("face side", "other side"))  # fmt: skip
_OTHER_SIDE = {one: other for pair in _PAIRS for one, other in (pair, pair[::-1])}


def names_of(texts: list[ReadText], leaders: list[Line], least: float) -> dict[str, str]:
    """What the sheet calls each face, and what it is: by where it stands round the main view.

    Ends stand left and right of it, edges below and above; it is headed by the face that it shows,
    and the other wide face is the one that is named beside.
    """
    headings = [t for t in texts if t.halign == 1 and not t.is_turned and t.layer == "text"
                and re.fullmatch(FACE_NAME, t.words)]  # fmt: skip
    (main,) = headings
    named = [_pointed(name, leaders, least) for name in _whole_names(texts)]
    ends = sorted((t for t in named if re.search(r" end(:|$)", t[0])), key=lambda t: t[1])
    edges = sorted((t for t in named if t[0].endswith(" edge")), key=lambda t: t[2])
    assert (len(ends), len(edges)) == (2, 2), (ends, edges)
    names = {main.words: "face side", ends[0][0].split(":")[0]: "named end",
             ends[1][0].split(":")[0]: "far end",
             edges[0][0]: "face edge", edges[1][0]: "back edge"}  # fmt: skip
    for other in {words for words, _, _ in named if re.fullmatch(FACE_NAME, words)} - set(names):
        names[other] = "back side"
    # Where nothing is drawn on the other wide face it is named in words alone.
    if main.words in _OTHER_SIDE and "back side" not in names.values():
        names[_OTHER_SIDE[main.words]] = "back side"
    assert len(names) <= 6, names
    return names


def _whole_names(texts: list[ReadText]) -> list[tuple[str, float, float]]:
    """Names of faces with their places; one that is set in several lines is joined."""
    lines = sorted((t for t in texts if t.layer == "face name"), key=lambda t: (t.is_turned, -t.y))
    blocks: list[list[ReadText]] = []
    for text in lines:
        for block in blocks:
            last = block[-1]
            dx, dy = text.x - last.x, last.y - text.y
            along, across = (dy, dx) if text.is_turned else (dx, dy)
            if (
                text.is_turned == last.is_turned
                and abs(along) < 1e-6
                and 0 < across < 1.7 * text.height
            ):
                block.append(text)
                break
        else:
            blocks.append([text])
    return [(" ".join(t.words for t in block), block[0].x, block[0].y) for block in blocks]


def _pointed(
    name: tuple[str, float, float], leaders: list[Line], least: float
) -> tuple[str, float, float]:
    """A name where its leader points; where it stands if it has none."""
    words, x, y = name
    level = y + least / 2
    text = LineString([(x, level), (x + 0.75 * least * len(words), level)])
    for start, end in leaders:
        is_level = abs(start[1] - level) + abs(end[1] - level) < 0.02 * least
        if is_level and Point(start).distance(text) < 2 * least:
            return (words, *next(b for a, b in leaders if a == end and b != start))
    return name


def in_our_terms(words: str, names: dict[str, str]) -> str:
    """Words with every name of a face replaced by the term for it."""
    if not names:
        return words
    longest = sorted(names, key=len, reverse=True)
    pattern = r"\b(" + "|".join(re.escape(name) for name in longest) + r")\b"
    return re.sub(pattern, lambda found: names[found[1]], words)
