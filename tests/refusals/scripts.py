"""What a maker's script hands over, judged whole, and changed as a refusal says."""

from __future__ import annotations

import csv
import re
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any

import furniture
from furniture import CuttingWishes, DesignError, Problem, Shop
from furniture.builders.own_parts import CutWritten
from furniture.checks.of_piece.setting import read_setting
from furniture.examples import EXAMPLES
from furniture.pieces import Piece
from furniture.shop.boards import cutting_job
from furniture.shop.tools.reading import usual_or
from furniture.units import millimetres
from tests.shop.boards.bench import THICK, THIN, stand

BOARDS_FILE = "boards.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Script:
    """A design with boards, as objects or as the text of a file, wishes, a shop and a place."""

    design: Any = None
    boards: Any = None
    wishes: Any = None
    shop: Any = None
    place: Any = None

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem that a run tells of it; none when it would be written."""
        return self._error.problems if self._error is not None else ()

    @property
    def told(self) -> str:
        """What a run prints of its problems; nothing when it would be written."""
        return "" if self._error is None else str(self._error)

    @property
    def _error(self) -> DesignError | None:
        try:
            self._judged()
        except DesignError as error:
            return error
        return None

    def _judged(self) -> None:
        piece: Piece = stand() if self.design is None else self.design.build()
        if self.place is not None:
            read_setting(self.place)
        if self.shop is not None:
            usual_or(self.shop, millimetres())
        if self.boards is None and self.wishes is None:
            return
        wishes = CuttingWishes() if self.wishes is None else self.wishes
        if not isinstance(self.boards, str | bytes):
            cutting_job(piece, self.boards or (), wishes)
            return
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / BOARDS_FILE
            raw = self.boards if isinstance(self.boards, bytes) else self.boards.encode()
            path.write_bytes(raw)
            cutting_job(piece, path, wishes)


Change = Callable[[Script], Script]

_EXAMPLES = {name: code for group in EXAMPLES.values() for name, code in group.items()}
"""What stands for a class with dots in its brackets: how help() shows it."""
_PLURALS = {"hardware": "hardware", "finish": "finishes"}
_COUNTED = re.compile(r"(?P<name>[a-z][a-z ]*?) (?P<number>\d+)(?: \([^)]*\))?(?: |$)")


def ways(problem: Problem) -> tuple[Change, ...]:
    """The changes that a remedy offers and that a machine can make, each at its word."""
    return tuple(_as_told(problem, to) for to in _offers(problem))


class _Out:
    """In place of a value: the parameter is left out."""


class _AllOut:
    """In place of a value: the whole of what it belongs to is left out, such as a profile."""


@dataclass(frozen=True, slots=True)
class _Renamed:
    """In place of a value: the parameter is given by this name."""

    name: str


def _offers(problem: Problem) -> list[Any]:
    """What the parameter is to become, by every way that its remedy names."""
    remedy, found = problem.remedy, list[Any]()
    if re.fullmatch(rf"{BOARDS_FILE} line \d+", problem.parameter):
        return []  # of the whole line
    found += re.findall(r"^call it '([^']+)'", remedy)
    found += re.findall(r"did you mean '([^']+)'\?", remedy)
    for text in re.findall(r"make it (-?[\d./]+(?: \d+/\d+)?(?: ?[a-z%]+)?)", remedy):
        found.append(int(text) if text.isdigit() else text)
    if "no parameter of this name" in problem.why:
        return [_Renamed(name) for name in re.findall(r"^write (\w+)$", remedy)] or [_Out]
    found += re.findall(r"(?:^|, or |else )(?:write|add) '([^']*)'", remedy)
    found += re.findall(r"(?:such as|it like) '([^']*)'", remedy)
    found += [int(text) for text in re.findall(r"^write (\d+)$", remedy)]
    found += re.findall(r"^(?:take one that is sold|use \w+) ([\d.]+ mm)", remedy)
    for code in re.findall(
        r"^write ((?:\w+=)?(?:one )?(?:[A-Z]\w*|\(|\[|\{|cut\(|inches|milli).*)$", remedy
    ):
        value = _value_of(re.split(r", or |, as | as help| with your ", code)[0])
        if value is not None:
            found.append(value)
    own = re.split(r"[. ]", problem.parameter)[-1]
    if re.search(rf"\bleave (it|{re.escape(own)}) out\b", remedy):
        found.append(_Out)
    if remedy.startswith("leave this "):
        found.append(_AllOut)
    return found


def _value_of(code: str) -> Any:
    """What a remedy's code stands for; nothing where it is no whole expression."""
    names = {name: getattr(furniture, name) for name in furniture.__all__}
    code = re.sub(r"^\w+=(?!=)", "", code.removeprefix("one "))
    names |= {"THICK": THICK, "THIN": THIN}
    dotted = re.compile(r"(\w+)\([^()]*\.\.\.[^()]*\)")
    while (found := dotted.search(code)) is not None:
        if found[1] not in _EXAMPLES:
            return None
        code = code[: found.start()] + _EXAMPLES[found[1]] + code[found.end() :]
    try:
        return eval(code, names)
    except (SyntaxError, NameError, TypeError):
        return None


def _as_told(problem: Problem, to: Any) -> Change:
    def change(script: Script) -> Script:
        if to is _AllOut:
            return _changed(script, problem.parameter.rpartition(" ")[0], _Out)
        return _changed(script, problem.parameter, to)

    return change


def _changed(script: Script, parameter: str, to: Any) -> Script:
    """The script with the parameter, named as refusals name it, set to a value."""
    if parameter.startswith(f"{BOARDS_FILE} line "):
        return replace(script, boards=_in_file(script.boards, parameter, to))
    for prefix, holder in (("wishes", "wishes"), ("shop", "shop"), ("place", "place")):
        found = re.match(rf"{prefix}(?:: |\.|$)", parameter)
        if found:
            whole = getattr(script, holder)
            if whole is None:
                whole = CuttingWishes() if holder == "wishes" else Shop()
            rest = parameter[found.end() :]
            is_text = isinstance(whole, str)  # a place by its name alone, or no shop at all
            value = (
                _with(whole, _steps(rest), to)
                if rest and not is_text
                else None
                if to is _Out
                else to
            )
            return replace(script, **{holder: value})
    if re.match(r"board \d+", parameter):
        return replace(
            script, boards=_with({"boards": script.boards}, _steps(parameter), to)["boards"]
        )
    return replace(script, design=_with(script.design, _in_parts(script.design, parameter), to))


def _in_parts(design: Any, parameter: str) -> list[str | int]:
    """The way to a value; `shelf: place 1 of` is of the part that is called so."""
    name, colon, rest = parameter.partition(": ")
    if not colon:
        return _steps(parameter)
    place = next(at for at, each in enumerate(design.parts) if each.name == name)
    return ["parts", place, *_steps(rest)]


def _steps(parameter: str) -> list[str | int]:
    """The way to a value: `load 2 (fern) mass` is the mass of the second of `loads`."""
    steps: list[str | int] = []
    rest = parameter
    while rest:
        hole = re.match(r"hole, (\w+)$", rest)
        if hole:  # of the part's only cut
            return [*steps, "cuts", 0, hole[1]]
        key = re.match(r"(\w+)\['([^']+)'\] ?", rest)
        one = _COUNTED.match(rest)
        if key:
            steps += [key[1], key[2]]
            rest = rest[key.end() :]
        elif one:
            name = one["name"].replace("part wish", "part").replace(" ", "_")
            steps += [_PLURALS.get(name, f"{name}es" if name.endswith("ch") else f"{name}s"),
                      int(one["number"]) - 1]  # fmt: skip
            rest = rest[one.end() :]
        else:
            rest = re.sub(r"^(\w+) \([^)]*\) ", r"\1 ", rest)
            word, _, rest = rest.replace(".", " ").partition(" ")
            steps.append(word)
    if len(steps) > 1 and steps[-2:] in (["footprint", "width"], ["footprint", "depth"]):
        steps[-1] = 0 if steps[-1] == "width" else 1
    return steps


def _with(holder: Any, steps: list[str | int], to: Any) -> Any:
    if not steps:
        return to
    step, rest = steps[0], steps[1:]
    if isinstance(step, int):
        if not isinstance(holder, list | tuple):
            return _with(holder, rest, to)  # a lone one
        changed = [_with(each, rest, to) if at == step else each for at, each in enumerate(holder)]
        return type(holder)(each for each in changed if each is not _Out)
    if isinstance(holder, Mapping):
        if not rest and isinstance(to, str):  # the key itself is what was wrong
            return {to if name == step else name: value for name, value in holder.items()}
        changed_one = _with(holder.get(step), rest, to)
        kept = {name: value for name, value in holder.items() if name != step}
        return kept if changed_one is _Out else {**kept, step: changed_one}
    given = {f.name: getattr(holder, f.name) for f in fields(holder) if f.name != "_record"}
    if isinstance(holder, CutWritten):
        inside = {name: value for name, value in holder.given.items() if name != step}
        is_name = isinstance(to, _Renamed)
        return replace(
            holder,
            given={**inside, to.name if is_name else step: holder.given[step] if is_name else to},
        )
    if not rest and (to is _Out or isinstance(to, _Renamed)):
        record = holder._record
        given = {name: record.values[name] for name in record.given}
        given.pop(step, None)
        if isinstance(to, _Renamed):
            given[to.name] = _MEANT[to.name]
        return type(holder)(**given)
    given[step] = _with(given[step], rest, to)
    return type(holder)(**given)


_MEANT = {
    "let_in": "4 mm", "base_width": "300 mm", "width": "200 mm", "kerf": "3.2 mm",
    "length": "1500 mm", "price": "4 EUR",
}  # fmt: skip
"""A value for a parameter whose name was misspelt: what was given under it is not kept."""


def _in_file(text: str, parameter: str, to: Any) -> str:
    """The boards file with one cell, or one heading, written as told."""
    found = re.match(rf"{BOARDS_FILE} line (\d+)(?: \([^)]*\))?(?: (\w+))?", parameter)
    assert found, parameter
    lines = text.split("\n")
    headings = [re.sub(r" \[.*", "", each) for each in lines[0].split(",")]
    number = int(found[1]) - 1
    (cells,) = csv.reader([lines[number]])
    place = headings.index({"widths": "width"}.get(found[2], found[2]) or headings[0])
    if to is _Out:
        del cells[place]
    else:
        cells[place] = str(to)
    lines[number] = ",".join(f'"{cell}"' if "," in cell else cell for cell in cells)
    return "\n".join(lines)
