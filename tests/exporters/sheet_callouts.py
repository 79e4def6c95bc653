"""The words about cuts on a part sheet, in our terms, and where their leaders point."""

from __future__ import annotations

import re
from typing import Any

from shapely.geometry import LineString, Point

from tests.exporters.sheet_names import in_our_terms
from tests.exporters.sheet_values import ReadCallout, ReadText, leaders_of


def callouts_of(
    space: Any, texts: list[ReadText], least: float, names: dict[str, str]
) -> list[ReadCallout]:
    """Blocks of words that name a cut, with the tips of their leaders or their letters."""
    plain = [t for t in texts if t.layer == "text" and t.halign == 0 and not t.is_turned]
    leaders = leaders_of(space)
    letters = [t for t in texts if len(t.words) == 1 and t.words.islower() and t.halign == 1]
    found = []
    landed = [t for t in plain if _is_landed(t, leaders, least)]
    for first in plain:
        if first not in landed and _continues(first, plain):
            continue  # a line may break before the name of a cut
        further = [t for t in plain if t not in landed]
        words = in_our_terms(" ".join(text.words for text in _block(first, further)), names)
        # a part's title may begin so too, as `mitred box` and `rabbet filler` do
        if not re.match(r"([a-z]: )?(\d+ )?(dado|groove|rabbet|mitre|flat mitre|bevel|hole|slot|"
                        r"key slot|spline groove|notch|finger notch|round-over|chamfer|"
                        r"mortise|tenon|gain)(e?s)?"
                        r"(:|,| dia| [R(]*\d| stopped| along)",
                        words):  # fmt: skip
            continue
        tag = re.match(r"([a-z]): (.*)", words)
        if tag:
            targets = [(t.x, t.y) for t in letters if t.words == tag[1]]
            found.append(ReadCallout(words=tag[2], targets=targets))
        else:
            found.append(ReadCallout(words=words, targets=[_tip(first, leaders, least)]))
    return found


def made_flush_of(texts: list[ReadText], names: dict[str, str]) -> list[ReadCallout]:
    """What a note says of ends that are drawn square and made flush when they are glued in."""
    plain = [t for t in texts if t.layer == "text" and t.halign == 0 and not t.is_turned]
    words = " ".join(
        text.words for text in sorted(plain, key=lambda text: (round(text.x, 3), -text.y))
    )
    note = re.search(r"square ends, as drawn; .*? made flush: (.*?)\.(?= [A-Z]|$)", words)
    if note is None:
        return []
    said = [each.partition(" at ") for each in in_our_terms(note[1], names).split("; ")]
    return [ReadCallout(words=f"flush {angle}: {place}", targets=[]) for angle, _, place in said]


def _continues(text: ReadText, plain: list[ReadText]) -> bool:
    """Whether it is a further line of the words above it."""
    return any(
        abs(above.x - text.x) < 1e-6 and 0 < above.y - text.y < 1.7 * above.height
        for above in plain
    )


def _block(first: ReadText, plain: list[ReadText]) -> list[ReadText]:
    block = [first]
    while True:
        last = block[-1]
        under = [
            t for t in plain if abs(t.x - last.x) < 1e-6 and 0 < last.y - t.y < 1.7 * last.height
        ]
        if not under:
            return block
        block.append(under[0])


def _is_landed(
    text: ReadText,
    leaders: list[tuple[tuple[float, float], tuple[float, float]]],
    least: float,
) -> bool:
    """Whether a leader lands beside a line, so that words of their own begin there."""
    level, near = text.y + text.height / 2, 0.4 * least
    wide = (text.x - near, text.x + 1.2 * text.height * len(text.words))
    return any(
        abs(start[1] - level) < 0.02 * least
        and abs(end[1] - level) < 0.02 * least
        and any(wide[0] <= x <= wide[1] for x in (start[0], end[0]))
        for start, end in leaders
    )


def _tip(
    first: ReadText, leaders: list[tuple[tuple[float, float], tuple[float, float]]], least: float
) -> tuple[float, float]:
    """The far end of the leader whose landing starts beside the first line of the words."""
    level = first.y + first.height / 2
    landings = [
        (start, end)
        for start, end in leaders
        if abs(start[1] - level) < 0.02 * least and abs(end[1] - level) < 0.02 * least
    ]
    landing = min(landings, key=lambda line: Point(line[0]).distance(LineString(
        [(first.x, level), (first.x + 0.75 * least * len(first.words), level)]
    )))  # fmt: skip
    return next(end for start, end in leaders if start == landing[1] and end != landing[0])
