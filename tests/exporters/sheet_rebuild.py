"""Rebuilds a part from what `sheet_reader` read, with plain boxes, cylinders and wedges.

Independent of the project's cuts: the words are parsed here and the shapes are made here.
"""

from __future__ import annotations

import re
from typing import Any

import cadquery as cq

from tests.exporters.sheet_bores import bores, slots
from tests.exporters.sheet_housings import dados, grooves
from tests.exporters.sheet_in_mitres import in_mitres
from tests.exporters.sheet_notches import finger_notches
from tests.exporters.sheet_slopes import profiles, slopes
from tests.exporters.sheet_steps import notches, rabbets
from tests.exporters.sheet_tenons import gains, mortises, tenons
from tests.exporters.sheet_values import ReadCallout, ReadSheet
from tests.exporters.sheet_wood import Wood


def rebuilt_as(model: Any, *sheets: ReadSheet) -> Any:
    """The solid that a part's sheets describe; of an opposite hand, the mirror image that lies as
    the part does.

    Half turns bring a mirror image to any axis: the maker turns it by the names of its faces.
    """
    # a share of a part may stand on an earlier sheet than the one that tells its sizes
    solid = rebuilt(*sorted(sheets, key=lambda each: each.views["face side"].span(True) is None))
    if not sheets[0].is_mirrored:
        return solid
    middle = solid.BoundingBox().center
    base = (middle.x, middle.y, middle.z)
    images = [solid.mirror(plane, base) for plane in ("XY", "XZ", "YZ")]
    images.append(images[0].rotate(middle, middle + cq.Vector(0, 0, 1), 180))
    return max(images, key=lambda image: image.intersect(model).Volume())


def rebuilt(first: ReadSheet, *others: ReadSheet) -> Any:
    """The solid that a part's sheet describes, or the sheets that it is shared out over."""
    sheet = first
    face = sheet.views["face side"]
    length, width = face.span(True), face.span(False)
    thickness = None
    for name, view in sheet.views.items():
        if name != "face side":
            told = view.span(name in ("section", "named end", "far end"))
            thickness = max(thickness or 0.0, told or 0.0)  # a view may tell a rabbet alone
    assert length, "the length is missing"
    assert width, "the width is missing"
    assert thickness, "the thickness is missing"
    wood = Wood(length, width, thickness)
    solid = cq.Workplane().box(*wood.size, centered=False)
    for each in (first, *others):
        for tool in (*rabbets(each, wood), *notches(each, wood)):
            solid = solid.cut(tool)
        for callout in (*each.callouts, *each.later):
            for tool in _tools(callout, each, wood):
                solid = solid.cut(tool)
    return solid.val()


def _tools(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    if re.match(r"(?:\d+ )?notch|rabbet", words):
        return []  # dimension lines tell them, and these words what those cannot
    for pattern, make in (
        (r"(?:\d+ )?dado", dados),
        (r"(?:\d+ )?groove", grooves),
        (r"(?:flat )?mitre|bevel|flush", slopes),
        (r"(?:\d+ )?(?:key slot|spline groove)", in_mitres),
        (r"(?:\d+ )?hole", bores),
        (r"(?:\d+ )?slot", slots),
        (r"(?:\d+ )?finger notch", finger_notches),
        (r"round-over|chamfer", profiles),
        (r"(?:\d+ )?mortise", mortises),
        (r"(?:\d+ )?gain", gains),
        (r"(?:\d+ )?tenon", tenons),
    ):
        if re.match(pattern, words):
            return make(callout, sheet, wood)
    raise AssertionError(f"not understood: {words}")
