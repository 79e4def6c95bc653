"""Notes the problems of a design, and reads what is no figure: names, text, choices, lists."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import Enum
from typing import TypeVar

from furniture.errors import DesignError, Problem
from furniture.units.parameters import is_given, misspelt_in, names_in
from furniture.units.texts import in_print, odd_letters, said
from furniture.units.words import nearest_word

_Choice = TypeVar("_Choice", bound=Enum)
LONGEST_NAME = 80
"""Letters of a name: a sheet's title and a row of a table hold no more. Own rule."""


class NameReader:
    """Collects the problems of one design while its names, texts and choices are read."""

    def __init__(self) -> None:
        self._problems: list[Problem] = []
        self._meant: set[str] = set()  # parameters that a misspelt name stood for
        self._remarks: list[str] = []

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What has been found so far, in the order it was found, nothing twice."""
        return tuple(dict.fromkeys(self._problems))

    @property
    def remarks(self) -> tuple[str, ...]:
        """What a maker should know of how something was read, which is no problem."""
        return tuple(dict.fromkeys(self._remarks))

    def remark(self, text: str) -> None:
        """Keep a sentence on how something was read."""
        self._remarks.append(text)

    @property
    def noted(self) -> int:
        """How many problems were noted, a repeated one each time: to tell whether some came."""
        return len(self._problems)

    def raise_if_any(self) -> None:
        """Stop here when there are problems.

        Raises:
            DesignError: with all of them.
        """
        if self._problems:
            raise DesignError(self.problems)

    def refuse(self, parameter: str, given: str, allowed: str, why: str, remedy: str) -> None:
        """Note one problem."""
        self._problems.append(
            Problem(
                parameter=in_print(parameter), given=in_print(given), allowed=allowed, why=why,
                remedy=remedy,
            )
        )  # fmt: skip

    def take(self, problems: Iterable[Problem]) -> None:
        """Note problems that were found elsewhere."""
        self._problems.extend(problems)

    def names(
        self, where: str, parameter_set: object, elsewhere: Mapping[str, str] | None = None
    ) -> None:
        """Note every name that the set does not have, with the nearest that is not given too.

        Args:
            where: the set stands, as messages name its parameters.
            parameter_set: as it was filled in.
            elsewhere: what to write instead of a name that is looked for here.
        """
        known = names_in(parameter_set)
        for name in misspelt_in(parameter_set):
            if elsewhere is not None and name in elsewhere:
                self.refuse(
                    f"{where}{name}", "a value", f"what help({type(parameter_set).__name__}) lists",
                    "it is said in another place", elsewhere[name],
                )  # fmt: skip
                continue
            close = nearest_word(name, [one for one in known if not is_given(parameter_set, one)])
            if close is not None:
                self._meant.add(f"{where}{close}")
            is_like = nearest_word(name, known) is not None
            self.refuse(
                f"{where}{name}",
                "a value",
                f"what help({type(parameter_set).__name__}) lists" if is_like else ", ".join(known),
                "there is no parameter of this name",
                f"write {close}" if close else "leave it out",
            )

    def choice(
        self, parameter: str, given: object, choices: type[_Choice], default: _Choice
    ) -> _Choice:
        """One of an enum's members; its value as text is taken too; else the default, noted."""
        if isinstance(given, choices):
            return given
        for member in choices:
            if isinstance(given, str) and given == member.value:
                return member
        by_word = {f"{choices.__name__}.{member.name}": member for member in choices}
        words = {member.name: word for word, member in by_word.items()}
        words.update({str(member.value): word for word, member in by_word.items()})
        word = given.name if isinstance(given, Enum) else given
        near = nearest_word(word.rpartition(".")[2], list(words)) if isinstance(word, str) else None
        self.refuse(
            parameter, said(given), ", ".join(by_word), "these are all that there are",
            f"write {words[near] if near else next(iter(by_word))}",
        )  # fmt: skip
        return default

    def text(self, parameter: str, given: object, longest: int | None = LONGEST_NAME) -> str:
        """Text that can be printed, or nothing with the problem noted.

        Args:
            parameter: its name.
            given: what was written; nothing is no text.
            longest: how many letters it may have; none for any number.
        """
        if given is None:
            return ""
        if not isinstance(given, str):
            why = "it is printed on sheets and in tables"
            self.refuse(parameter, said(given), "text", why, "write it in quotes")
            return ""
        odd = odd_letters(given)
        if odd:
            plain = "".join(letter for letter in given if letter not in odd).strip()
            codes = ", ".join(f"U+{ord(letter):04X}" for letter in odd)
            self.refuse(
                parameter, said(given), "letters that can be printed", f"it holds {codes}",
                f"write '{plain}'" if plain else "leave it out",
            )  # fmt: skip
            return ""
        if longest is not None and len(given) > longest:
            self.refuse(
                parameter, f"{said(given)} of {len(given)} letters",
                f"at most {longest} letters", "sheets and tables have no room for more",
                f"write '{given[:longest].strip()}'",
            )  # fmt: skip
            return ""
        return given

    def is_name(self, parameter: str, given: object) -> bool:
        """Whether a name is text that can be printed, an empty one too; else it is noted."""
        before = self.noted
        if given is None or not isinstance(given, str):
            why = "sheets and tables call things by name"
            self.refuse(parameter, said(given), "text", why, "write a name in quotes")
        else:
            self.text(parameter, given)
        return self.noted == before

    def several(
        self, parameter: str, given: object, kind: type | tuple[type, ...], example: str
    ) -> tuple[object, ...]:
        """The entries of a parameter that holds several: a lone one is one, nothing is none.

        Anything else is noted. An entry of another kind is left for the caller, which knows its
        place.

        Args:
            parameter: its name.
            given: what was written.
            kind: what each entry is.
            example: how to write it.
        """
        if given is None:
            return ()
        if isinstance(given, (list, tuple, set, frozenset)):
            return tuple(given)
        if isinstance(given, kind):
            return (given,)
        kinds = kind if isinstance(kind, tuple) else (kind,)
        name = parameter.replace(".", " ").split()[-1]
        self.refuse(
            parameter, said(given),
            f"a list, such as [{example}]" if len(kinds) > 1
            else f"a list of {'text' if kinds[0] is str else kinds[0].__name__}",
            "there may be several of them", f"write {name}=[{example}]",
        )  # fmt: skip
        return ()
