"""Which parts share a drawing: those that differ in few figures, and a part with its mirror image.

Like parts have the same cuts in the same words on the same views; the lengths in which they differ
get letters, and a table gives each part its own. Where only the names of their ends differ, the
drawing goes by the marks on the wood.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.faces import PartFaces, faces_of, shared_faces
from exporters.sheets.annotate import annotated
from exporters.sheets.annotation import Annotation, Bench, Heard
from exporters.sheets.part_task import PartTask
from exporters.sheets.rough_words import together
from exporters.sheets.tables import Table
from furniture.parts.faces import Face
from furniture.pieces.piece import Distinct, Piece
from furniture.pieces.twins import Flips, Twins, twins_of


def drawn_once(piece: Piece, parts: Sequence[Distinct]) -> dict[str, Twins]:
    """The pairs that one drawing defines, by the id of the part that is drawn.

    Args:
        piece: that they are of.
        parts: that are to be drawn.
    """
    by_id = {each.part.id: each for each in parts}
    found = {}
    for twins in twins_of(piece):
        if twins.first in by_id and twins.second in by_id:
            one, two = by_id[twins.first], by_id[twins.second]
            is_like = one.part.timber == two.part.timber and one.part.rough == two.part.rough
            ends = _mirrored(one.part.trimmed_last, twins.flips) is two.part.trimmed_last
            faces = faces_of(piece, one), faces_of(piece, two)
            if is_like and ends and one.quantity == two.quantity and _are_mirrored(*faces, twins):
                found[twins.first] = twins
    return found


def _mirrored(face: Face | None, flips: Flips) -> Face | None:
    """The face of the second part that mirrors this one of the first."""
    return face.opposite if face is not None and flips[face.axis] else face


def _are_mirrored(one: PartFaces, two: PartFaces, twins: Twins) -> bool:
    """Whether each name reads left for right on the other, and figures run from mirrored faces."""
    for face, name in one.names.items():
        other = _mirrored(face, twins.flips)
        assert other is not None
        if two.called(other) not in (name.mirrored, name.text):
            return False
    return all(
        _mirrored(one.datums.on(axis), twins.flips) is two.datums.on(axis) for axis in range(3)
    )


_OTHERS = "PQRSUVXYZ"
"""Letters for lengths besides L and W; sections and details begin at A."""
_APART_MM = 1e-6


@dataclass(frozen=True, slots=True)
class _Form:
    """What is said of a part without its lengths, and the lengths in the order they are said."""

    said: tuple[object, ...]
    lengths: tuple[float, ...]


def _form(task: PartTask) -> _Form:
    blank = task.part.blank
    # whichever cut of theirs was stated first, like parts are told in one order
    told = sorted(_told(task), key=lambda each: repr(each.said))
    return _Form(
        (
            *(each.said for each in told),
            *((face, task.faces.called(face)) for face in Face),
            task.put_on, task.faces.datums,
            task.part.timber, blank.thickness_mm, task.part.trimmed_last,
        ),
        (blank.length_mm, blank.width_mm, *(mm for each in told for mm in each.lengths)),
    )  # fmt: skip


def _told(task: PartTask) -> Iterator[_Form]:
    """The form of each cut."""
    for cut in task.part.cuts:
        bench = Heard(blank=task.part.blank, shown=task.shown, faces=task.faces)
        (note,) = annotated(replace(task.part, cuts=(cut,)), bench)
        struck = (each.value_mm for each in note.positions)
        yield _Form(_words(note), (*(mm for mm, _ in bench.lengths), *struck))


def _words(note: Annotation) -> tuple[object, ...]:
    looks = tuple((each.axis, each.look, each.care) for each in note.positions)
    return (note.noun, note.spec, note.place, note.look, looks)


Renamed = Callable[[PartTask, PartFaces], PartTask]
"""The same drawing with other names for the part's faces."""


def told_together(tasks: Sequence[PartTask], renamed: Renamed) -> list[PartTask]:
    """The drawings, like parts in one with a table.

    Args:
        tasks: a drawing for each part; those with a mirror image stay as they are.
        renamed: draws one of them with names that it shares with others.
    """
    groups: list[list[PartTask]] = []
    for task in tasks:
        for group in groups:
            with_it = _with_it(group, task, renamed)
            if with_it is not None:
                group[:] = with_it
                break
        else:
            groups.append([task])
    return [_one(group) if len(group) > 1 else group[0] for group in groups]


def _with_it(group: Sequence[PartTask], task: PartTask, renamed: Renamed) -> list[PartTask] | None:
    """The group with one more, all by the names that they share; none where it is not like them."""
    first = group[0]
    if task.opposite is not None or first.opposite is not None:
        return None
    faces = shared_faces(first.faces, task.faces)
    if faces is None:
        return None
    every = [each if each.faces == faces else renamed(each, faces) for each in (*group, task)]
    forms = [_form(each) for each in every]
    is_like = all(form.said == forms[0].said for form in forms[1:])
    return every if is_like and _lettered(forms) is not None else None


def _lettered(forms: Sequence[_Form]) -> dict[tuple[float, ...], str] | None:
    """A letter for each row of lengths that differ; none where a view could not tell two apart."""
    rows = [tuple(row) for row in zip(*(form.lengths for form in forms), strict=True)]
    for column in range(len(forms)):
        for index, row in enumerate(rows):
            for other in rows[:index]:
                is_one = abs(row[column] - other[column]) < _APART_MM
                if is_one and not _equal(row, other):
                    return None
    found: dict[tuple[float, ...], str] = {}
    letters = iter(_OTHERS)
    for index, row in enumerate(rows):
        is_told = any(_equal(row, other) for other in found)
        if max(row) - min(row) > _APART_MM and not is_told:
            letter = "LW"[index] if index < len("LW") else next(letters, None)
            if letter is None:
                return None
            found[row] = letter
    return found


def _equal(row: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return all(abs(a - b) < _APART_MM for a, b in zip(row, other, strict=True))


def _one(tasks: Sequence[PartTask]) -> PartTask:
    """The drawing of the largest of like parts, with the table of all."""
    letters = _lettered([_form(task) for task in tasks])
    assert letters is not None
    drawn = max(range(len(tasks)), key=lambda at: tasks[at].part.blank.length_mm)
    counts = {task.quantity for task in tasks}
    sawn = together([task.sawn for task in tasks if task.sawn is not None])
    first = tasks[0]
    bench = Bench(blank=first.part.blank, shown=first.shown)
    columns: dict[str, Sequence[str]] = {
        "no.": [str(task.item) for task in tasks],
        "part": [task.part.name for task in tasks],
    }
    if len(counts) > 1:
        columns["qty"] = [str(task.quantity) for task in tasks]
    if sawn is None:
        columns["rough"] = [task.sawn.in_short for task in tasks if task.sawn is not None]
    columns |= {letter: [bench.dial(mm) for mm in row] for row, letter in letters.items()}
    headings = tuple(columns)
    return replace(
        tasks[drawn],
        quantity=counts.pop() if len(counts) == 1 else None,
        sawn=sawn,
        notes=tuple(_merged(tasks)),
        stands=tuple(each for task in tasks for each in task.stands),
        work=tuple(each for task in tasks for each in task.work),
        general=tuple(dict.fromkeys(note for task in tasks for note in task.general)),
        alike=tuple((task.item, task.part) for at, task in enumerate(tasks) if at != drawn),
        letters=tuple((row[drawn], letter) for row, letter in letters.items()),
        table=Table(
            headings=headings,
            rows=tuple(zip(*columns.values(), strict=True)),
            centred=frozenset(at for at, each in enumerate(headings) if each in ("no.", "qty")),
        ),
    )


def _merged(tasks: Sequence[PartTask]) -> Iterator[str]:
    """The notes of several parts, once each, with the numbers of those that they are about."""
    for note in dict.fromkeys(note for task in tasks for note in task.notes):
        of = [task for task in tasks if note in task.notes]
        yield note if len(of) == len(tasks) else f"{', '.join(str(t.item) for t in of)}: {note}"
