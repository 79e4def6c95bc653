"""What of a sheet's words is the design's: figures, and names of parts, wood, faces and cuts.

A newer version of these drawings may say the same in other words; a sheet has changed where what it
is about has, so only that is compared.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from exporters.faces import MARKED, FaceNames
from furniture.job import Old
from furniture.joints.joint import Role
from furniture.parts.cuts import Cut
from furniture.parts.faces import Face
from furniture.pieces import Piece

_NUMBER = r"\d+(?:[.,]\d+)?(?:[ -]\d+/\d+|/\d+)?"
"""`104.4`, `3/4`, `9 19/64`."""

Substance = Counter[str]


class Vocabulary:
    """The figures and names of a design, told apart from the words between them."""

    def __init__(self, old: Old, piece: Piece) -> None:
        names = {
            name for part in old.parts for name in (part.name, part.wood.stock, part.wood.species)
        }
        called = FaceNames(piece=piece)
        for each in piece.placed:
            timber = each.part.timber
            names |= {each.instance, each.part.name, timber.name, timber.species.name}
            names |= {each for cut in each.part.cuts for each in (cut.kind, cut.name)}
            names |= {called.of((each.instance,), face) for face in Face}
        names |= {cut.kind for part in old.parts for cut in part.cuts}
        names |= {each.kind for each in piece.joinings} | {each.value for each in Role}
        names |= (
            {each.value for each in Face}
            | set(MARKED.values())
            | {kind.kind for kind in _named_kinds()}
        )
        longest = sorted((re.escape(each) for each in names if each), key=len, reverse=True)
        self._pattern = re.compile(
            "|".join([*(rf"(?<!\w){each}(?!\w)" for each in longest), _NUMBER])
        )

    def of(self, text: str) -> Substance:
        """What of a text is the design's.

        Args:
            text: of a sheet.
        """
        return Counter(self._pattern.findall(text))

    def changed(self, was: Iterable[str], now: Iterable[str]) -> Counter[str]:
        """The texts that say something else now; one that only has other words is none, unless a
        figure or a name is gone from the sheet and no other text has come with one.

        Args:
            was: every text of the earlier sheet.
            now: every text of this one.
        """
        before, after = Counter(was), Counter(now)
        lost = list((before - after).elements())
        left = [self.of(text) for text in lost]
        gained = after - before
        found: Counter[str] = Counter()
        for text in gained.elements():
            told = self.of(text)
            if told in left:
                left.remove(told)
            elif told:
                found[text] += 1
        return found or gained

    def is_same(self, was: Iterable[str], now: Iterable[str]) -> bool:
        """Whether two sheets are about the same, figure by figure and name by name.

        Args:
            was: every text of the earlier sheet.
            now: every text of this one.
        """
        return self._all(was) == self._all(now)

    def _all(self, texts: Iterable[str]) -> Substance:
        found: Substance = Counter()
        for text in texts:
            found += self.of(text)
        return found


def _named_kinds() -> list[type[Cut]]:
    return [kind for kind in Cut.__subclasses__() if isinstance(vars(kind).get("kind"), str)]
