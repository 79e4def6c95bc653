"""piece.json's "revision": the verdict on each part as plain data, with the words of the sheet.

against  the folder that was named
letter   that changed sheets carry
parts    [{instance, verdict, from, how, why, turn, off_low_mm, off_high_mm,
         off: [{face, mm, before_mm, after_mm, by}],
         cuts: [{index, work, was, grown: [{face, mm, before_mm, after_mm}]}],
         near: [{index, face, wood_mm, asked_mm}], serves, stays: [{index, off_mm, mates}]}]
         index counts in the new part's "cuts", was in the old one's; from is the old part or
         offcut, null where there is none; an old part that is not needed any more stands by its
         old name, after the new ones; off_low_mm is what that wood reaches beyond the named end,
         the face edge and the back side of the new part, off_high_mm beyond the others
"""

from __future__ import annotations

from typing import Any

from exporters.revision.against import Against
from exporters.revision.in_the_work import NOWHERE, InTheWork
from exporters.revision.words import how_words, why_words
from furniture.job import Say, Verdict
from furniture.pieces import Piece


def revision_record(against: Against, piece: Piece, work: InTheWork = NOWHERE) -> dict[str, Any]:
    """The verdicts as plain data.

    Args:
        against: the earlier packet.
        piece: the new design.
        work: in whose set-ups it is trimmed.
    """
    return {
        "against": against.named,
        "letter": against.letter,
        "parts": [_part(each, piece, work) for each in against.verdicts],
    }


def _part(verdict: Verdict, piece: Piece, work: InTheWork) -> dict[str, Any]:
    place = verdict.place
    return {
        "instance": verdict.instance,
        "verdict": verdict.say.value,
        "from": None if verdict.old is None or verdict.say is Say.NOT_CUT else verdict.old.name,
        "how": "; ".join(how_words(verdict, piece, work)),
        "why": "; ".join(why_words(verdict, piece)),
        "turn": None if place is None else place.turn.value,
        "off_low_mm": None if place is None else [_tidy(each) for each in place.off_low],
        "off_high_mm": None if place is None else [_tidy(each) for each in place.off_high],
        "off": [
            {
                "face": each.face.value,
                "mm": _tidy(each.mm),
                "before_mm": _tidy(each.before_mm),
                "after_mm": _tidy(each.after_mm),
                "by": each.by.value,
            }
            for each in verdict.off
        ],
        "cuts": [
            {
                "index": each.index,
                "work": each.work.value,
                "was": each.was,
                "grown": [
                    {
                        "face": side.face.value,
                        "mm": _tidy(side.mm),
                        "before_mm": _tidy(side.before_mm),
                        "after_mm": _tidy(side.after_mm),
                    }
                    for side in each.grown
                ],
            }
            for each in verdict.cuts
        ],
        "near": [
            {
                "index": each.index,
                "face": each.face.value,
                "wood_mm": _tidy(each.wood_mm),
                "asked_mm": _tidy(each.asked_mm),
            }
            for each in verdict.near
        ],
        "serves": list(verdict.serves),
        "stays": [
            {
                "index": each.index,
                "off_mm": [_tidy(one) for one in each.off_mm],
                "mates": list(each.mates),
                "follow": list(each.follow),
            }
            for each in verdict.stays
        ],
    }


def _tidy(value: float) -> float:
    return round(value, 9) + 0.0
