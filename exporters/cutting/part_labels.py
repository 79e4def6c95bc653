"""Names on a board's drawing: parts with their grain, offcuts worth keeping."""

from __future__ import annotations

from exporters.cutting.draft import Draft, zone_boxes
from exporters.cutting.hatching import closed
from exporters.cutting.room import box_at, is_clear, place_in
from exporters.cutting.words import size
from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.fractions_set import set_figure, set_overhang, set_width
from exporters.sheets.lettering import DESCENT_SHARE, text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Anchor, Lettering
from furniture.shop.cutting.plan import (
    Placement,
)

_LINE_SHARE = 1.5


def add_part(draft: Draft, key: int, placement: Placement) -> None:
    """The part's outline, its key and name, and which way its grain runs."""
    task = draft.task
    box = draft.box(placement.place)
    corners = [
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)
    ]  # fmt: skip
    draft.items.append(closed(corners, LineClass.PART))
    name = f"{key} {task.outcome.name_of(placement)}"
    height = task.style.text_height_mm
    shy_of = zone_boxes(draft)
    widest = max(box.width - 2.0, 1.0)
    for lines in (*_ways(name, height, widest), (str(key),)):
        for arrow in (True, False):
            wide = max(text_width(line, height) for line in lines)
            high = height * (1 + (len(lines) - 1) * _LINE_SHARE + DESCENT_SHARE)
            grain = min(14.0, max(7.0, 0.5 * box.width)) if arrow else 0.0
            need = (max(wide, grain), high + (3.0 if arrow else 0.0))
            found = place_in(box, *need, draft.taken, shy_of)
            if found is not None:
                _part_label(draft, lines, found, grain)
                return
    _turned_label(draft, key, name, box)


def _ways(name: str, height: float, widest: float) -> list[tuple[str, ...]]:
    """The name in one line, then broken into narrower ones, those that fit the width."""
    ways = [(name,), wrapped(name, height, widest)]
    return [
        lines
        for lines in dict.fromkeys(ways)
        if lines and all(text_width(line, height) <= widest for line in lines)
    ]


def _part_label(draft: Draft, lines: tuple[str, ...], box: Box2, grain: float) -> None:
    style = draft.task.style
    height = style.text_height_mm
    draft.occupy(box)
    x = box.centre[0]
    for index, line in enumerate(lines):
        y = box.top - height - index * height * _LINE_SHARE
        draft.items.append(Lettering(text=line, at=(x, y), height=height, anchor=Anchor.CENTRE))
    if grain:
        y = box.bottom + style.arrow_width_mm
        left, right = (x - grain / 2, y), (x + grain / 2, y)
        draft.items += [
            stroke(left, right, LineClass.GRAIN),
            arrowhead(left, (-1.0, 0.0), style, LineClass.GRAIN),
            arrowhead(right, (1.0, 0.0), style, LineClass.GRAIN),
        ]


def _turned_label(draft: Draft, key: int, name: str, box: Box2) -> None:
    """The name or the key read from the right, where a part is too short for it; else outside."""
    height = draft.task.style.text_height_mm
    for text in (name, str(key)):
        wide = text_width(text, height)
        found = place_in(box, height * (1 + DESCENT_SHARE), wide, draft.taken)
        if found is None:
            continue
        draft.occupy(found)
        at = (found.left + height, found.centre[1])
        draft.items.append(
            Lettering(text=text, at=at, height=height, anchor=Anchor.CENTRE, is_turned=True)
        )
        return
    wide = text_width(str(key), height)
    for reach in range(40):  # under the board, with a leader
        centre = (box.centre[0] + 0.8 * reach, -2.5 - height)
        label = box_at(centre, wide, height)
        if is_clear(label, draft.taken):
            draft.occupy(label)
            start = (centre[0], label.top + 0.6)
            draft.items.append(stroke(start, (box.centre[0], box.bottom), LineClass.LEADER))
            draft.items.append(
                Lettering(
                    text=str(key), at=(centre[0], label.bottom), height=height,
                    anchor=Anchor.CENTRE,
                )
            )  # fmt: skip
            return


def offcut_key(index: int) -> str:
    """The letter of an offcut worth keeping: a, b, c ..."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    return letters[index] if index < len(letters) else f"a{offcut_key(index - len(letters))}"


def add_offcuts(draft: Draft) -> None:
    task, shown = draft.task, draft.task.outcome.job.shown
    height = task.style.text_height_mm
    usable = [each for each in task.plan.offcuts if each.is_usable]
    for index, offcut in enumerate(usable):
        key = offcut_key(index)
        full = f"{key}: keep {size(shown, offcut.place.length, offcut.place.width)}"
        for text in (full, key):
            extra = set_overhang(text, height)
            wide, high = set_width(text, height), height * (1 + DESCENT_SHARE) + 2 * extra
            found = place_in(draft.box(offcut.place), wide, high, draft.taken, zone_boxes(draft))
            if found is not None:
                draft.occupy(found)
                middle = (found.centre[0], found.top - extra - height / 2)
                draft.items += set_figure(text, middle, height, False)
                break
