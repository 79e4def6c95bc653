"""The one table of grades: which checks can fail, when, and which only caution.

A check fails where, by statics, strength or geometry, the piece as stated falls, breaks, bursts or
cannot be put together. It cautions where a rule of comfort or of the trade is broken, where the
figure is an estimate, where the force is our own choice and passes, and where the limit comes from
a standard that was not written for such a piece.
"""

from __future__ import annotations

from dataclasses import dataclass

TOUCH_N = 5.0
"""A push at the top at which the piece is said to fail [N]. Own rule: a sleeve in passing, half a
kilogram; a piece that goes over at less cannot be left standing free."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """When a check fails, or nothing where it never does, and what a caution means."""

    fails_when: str | None
    cautions_when: str


def _only_cautions(when: str) -> Grade:
    return Grade(fails_when=None, cautions_when=when)


_STEADY = Grade(
    fails_when="the loads that stay stress the wood beyond its mean strength",
    cautions_when="beyond the working stress, which is that strength over the stated divisor; "
    "always where the section counted on is a cautious bound",
)
_HAND = _only_cautions("a hand's force is our own choice, and it passes")
_VOLUNTARY = _only_cautions("the test it is borrowed from was not written for such pieces")
_ESTIMATE = _only_cautions("the trade has no accepted formula: it is an estimate")
_PRACTICE = _only_cautions("a rule of the trade without a source is broken")
_WOOD_LEFT = Grade(
    fails_when="no wood is left", cautions_when="less is left than the trade's rule asks"
)
_PROOF = Grade(fails_when="the solids show it", cautions_when="never")

GRADES: dict[str, Grade] = {
    "tilt before it tips": Grade(
        fails_when="it falls over on a level floor, empty or with stated loads",
        cautions_when="under 10 degrees: a rule for table-top equipment, voluntary here",
    ),
    "tilt left on an uneven floor": Grade(
        fails_when="it falls over once one corner is low by the stated 2 mm",
        cautions_when="under 10 degrees: voluntary",
    ),
    "push at the top": Grade(
        fails_when=f"a touch of {TOUCH_N:g} N or less tips it (own rule), and it is higher than "
        "its base is deep",
        cautions_when="a knock of 10 N tips it (own rule)",
    ),
    "push of 13 % of the weight": _VOLUNTARY,
    "pull on the cable": _only_cautions("a foot in the cable draws with 20 N (own rule)"),
    "hand leaning on a front edge": _HAND,
    "press of half the weight": _VOLUNTARY,
    "hand push (voluntary)": _VOLUNTARY,
    "child on a front edge (voluntary)": _VOLUNTARY,
    "tilt on carpet (voluntary)": _VOLUNTARY,
    "sliding against tipping": _only_cautions("never: it is told, not judged"),
    "scope of the furniture tip-over rule": _only_cautions("never: it is told, not judged"),
    "hold on the wall": _only_cautions("always: what the wall bears is not known here"),
    "hold of the strap": _only_cautions("always: what the wall bears is not known here"),
    "sag that shows": _only_cautions("the eye sees it; nothing breaks"),
    "sag by the strict rule": _only_cautions("a careful eye sees it; nothing breaks"),
    "bending stress of a shelf": _STEADY,
    "shear stress of a shelf": _STEADY,
    "bending stress with a hand on a shelf": _HAND,
    "shear stress with a hand on a shelf": _HAND,
    "shelf as a lever in its dado": _ESTIMATE,
    "shelf as a lever in its dado, a hand on its edge": _HAND,
    "wood above a dado": _STEADY,
    "wood above a dado, a hand on its edge": _HAND,
    "glue of a housed shelf": _ESTIMATE,
    "glue of a housed shelf, a hand on its edge": _HAND,
    "droop of a loose housing": _only_cautions("the eye sees it until the glue has set"),
    "post behind its weakest dado": _STEADY,
    "post at its weakest opening": _STEADY,
    "glue of a mitred corner": _ESTIMATE,
    "butt at an end grain": _ESTIMATE,
    "gap of a loose part": Grade(
        fails_when="in the dampest season it outgrows its opening and presses the frame apart",
        cautions_when="less than a sheet of card's play is left in that season",
    ),
    "glued across the grain": Grade(
        fails_when="the two would part ways by more than 2 mm, where wood or glue cracks "
        "(common practice, no source)",
        cautions_when="by more than 1 mm (common practice, no source)",
    ),
    "swelling in a housing": _PRACTICE,
    "slot for a screw": _PRACTICE,
    "wood behind a dado": _WOOD_LEFT,
    "wood beside a rabbet": _WOOD_LEFT,
    "short grain at an end": _WOOD_LEFT,
    "bore from the edge": _PRACTICE,
    "bore from the end": _PRACTICE,
    "bore in the thickness": _PRACTICE,
    "short rip at the saw": _PRACTICE,
    "narrow rip at the saw": _PRACTICE,
    "short cross-cut at the saw": _PRACTICE,
    "sum of errors over the dadoes": _PRACTICE,
    "sum of errors round a mitred box": _PRACTICE,
    "load over its edge": _only_cautions("its footprint is larger than what it stands on"),
    "loads side by side": _only_cautions("they do not all fit on their surface beside each other"),
    "parts overlap": _PROOF,
    "joints touch where they should": _PROOF,
    "every cut takes wood": _PROOF,
    "joints leave each other's wood": _PROOF,
    "goes together": Grade(
        fails_when="no order of straight moves puts it together", cautions_when="never"
    ),
}
"""Every check by its name. DEVELOPERS.md and the tests read the rule here."""
