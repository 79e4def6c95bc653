"""What a part's sheet says in words: where figures run from, mirrored parts, what is done later."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from exporters.faces import FaceNames, PartFaces, way_of
from exporters.sheets.annotate import annotations_of
from exporters.sheets.annotation import Bench, places_joined
from exporters.sheets.numbering import listed_in_runs
from exporters.sheets.part_task import MadeIn, Stands
from exporters.work.fitted import boxes_for, gaps_in_words
from furniture.job.figures import Figure
from furniture.joints.fit import play_to_hold_mm
from furniture.parts.cuts import Slope
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed, trenches_across
from furniture.pieces.piece import Distinct, Piece, placed_named
from furniture.units import Shown, decimal_figure
from furniture.units.showing import LengthUnit

_MOST_NAMES = 3
MARKS_NOTE = "from the black triangles: mark those datums on the wood. Double arrow: grain."


def end_label(part: Part, faces: PartFaces, end: Face) -> str:
    """What stands at an end of the main view.

    Args:
        part: says which of its ends is trimmed last.
        faces: what they are called.
        end: one of the two.
    """
    called = faces.called(end)
    return f"{called}: trim this end last" if part.trimmed_last is end else called


def notes_for(
    piece: Piece,
    each: Distinct,
    faces: PartFaces,
    is_rounded: bool,
    fitted: Mapping[str, Sequence[Figure]] | None = None,
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The notes of a part, one paragraph each, and those that hold for all parts of its sheet.

    Args:
        piece: that holds the part.
        each: the part and its instances.
        faces: what they are called, and which are datums.
        is_rounded: whether a figure of the sheet carries the mark of rounding.
        fitted: what is measured for the instances that are cut to it, by instance.
    """
    part = each.part
    unit = "millimetres" if not piece.shown.is_inch else "inches"
    general = [f"Figures in {unit}, {MARKS_NOTE}"]
    notes = [] if (done := done_note(piece, each)) is None else [done]
    figures = [one for name in each.instances for one in (fitted or {}).get(name, ())]
    if figures and done is None:
        notes.append(
            "Cut to what you measure, not to this sheet. Write it here and in the job file: "
            f"{boxes_for(figures)}{gaps_in_words(piece, FaceNames(piece=piece), figures)}."
        )
    trenches, end = trenches_across(part), faces.called(faces.datums.end)
    if any(not each.is_mortise for each in trenches):
        notes.append(f"A dado's figure runs to its shoulder nearer the {end}: mark from that.")
    elif trenches:
        notes.append(f"A mortise's figure runs to its wall nearer the {end}: mark from that.")
    notes += list(_fits(piece, each))
    if is_rounded:
        general.append(rounded_note(piece.shown))
    about = [note for note in piece.notes if set(note.about) & set(each.instances)]
    notes += [_sentence(note.text) for note in about]
    return tuple(notes), tuple(general)


def _fits(piece: Piece, each: Distinct) -> Iterator[str]:
    """What the part's glued housings are fitted to, with the play that glue holds across."""
    fitted: dict[tuple[float, float], list[str]] = {}
    for joining in piece.joinings:
        if joining.into not in each.instances:
            continue
        plays = [play_to_hold_mm(face.play_mm) for face in joining.faces if face.glue is not None]
        for play in dict.fromkeys(plays):
            if play is not None:
                fitted.setdefault(play, []).append(joining.incoming)
    for (low, high), names in fitted.items():
        least, most = (decimal_figure(mm, piece.shown) for mm in (low, high))
        yield f"Cut to fit {_names(list(dict.fromkeys(names)))}: play {least} to {most}."


def flushed_note(part: Part, shown: Shown, faces: PartFaces) -> str:
    """What the square ends that are drawn become once the part is glued in.

    Args:
        part: finished, with its sloped ends.
        shown: how the figures are printed.
        faces: what they are called.
    """
    angles: dict[str, list[str]] = {}
    for cut, note in zip(part.cuts, annotations_of(part, shown, faces), strict=True):
        shape = cut.shape(part.blank)
        if isinstance(shape, Slope):
            angles.setdefault(Bench.angle(shape.angle_deg), []).append(note.place)
    told = (
        f"{angle} at {place}"
        for angle, places in angles.items()
        for place in places_joined(places, faces)
    )
    return (
        "Glued in with square ends, as drawn; when the glue is dry they are made flush: "
        f"{'; '.join(told)}."
    )


def done_note(piece: Piece, each: Distinct) -> str | None:
    """That the part is made already, or which of its instances are.

    Args:
        piece: that knows what is done.
        each: the part and its instances.
    """
    done = [name for name in each.instances if name in piece.done]
    if not done:
        return None
    if len(done) == each.quantity:
        return "Done: cut nothing on it but what sheet 00 asks, where the set has one."
    return f"Done: {_names(done)}."


def rounded_note(shown: Shown) -> str:
    """What the mark after a rounded figure means.

    Args:
        shown: how the figures are printed.
    """
    limit = decimal_figure(shown.tolerance_mm, shown)
    if shown.unit is LengthUnit.INCH_FRACTION:
        return (
            "+ and - after a fraction: a little over or under that mark, by more than "
            f"{limit} in; the decimal beside it is exact."
        )
    return (
        "+ and - after a figure: a little over or under it, by more than "
        f"{limit} {shown.unit.symbol}."
    )


def stands_of(piece: Piece, each: Distinct, faces: PartFaces) -> tuple[Stands, ...]:
    """How the instances of a part stand whose faces' names do not say it.

    Args:
        piece: that holds the part.
        each: the part and its instances.
        faces: what they are called.
    """
    every = (
        Stands(instance=name, ways=tuple(_ways_of(placed_named(piece, name), faces)))
        for name in each.instances
    )
    return tuple(stands for stands in every if stands.ways)


def standing_words(stands: Sequence[Stands]) -> str:
    """Which way faces look in the piece; each instance is named where they stand differently.

    Args:
        stands: of all parts that one drawing shows, at least one.
    """
    every: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for each in stands:
        every.setdefault(each.ways, []).append(each.instance)
    if len(every) == 1:
        return f"In the piece, seen from the front: {_in_words(next(iter(every)))}."
    if len(every) == 2 and all(len(names) == 1 for names in every.values()):
        first, second = every
        (other,) = every[second]
        if any(one == two for one, two in zip(first, second, strict=True)):
            told = (
                f"{face} {way}" + (f" ({other}: {opposite})" if opposite != way else "")
                for (face, way), (_, opposite) in zip(first, second, strict=True)
            )
            return f"In the piece, seen from the front: {', '.join(told)}."
    said_of = "; ".join(f"{_names(names)}: {_in_words(ways)}" for ways, names in every.items())
    return f"In the piece, seen from the front. {_sentence(said_of)}"


def _in_words(ways: Sequence[tuple[str, str]]) -> str:
    return ", ".join(f"{face} {way}" for face, way in ways)


def made_words(work: Sequence[MadeIn]) -> str:
    """In which steps of the work parts are made: what they share, then what each has besides.

    Args:
        work: of all parts that one drawing shows, at least one.
    """
    shared = frozenset.intersection(*(each.steps for each in work))
    more: dict[frozenset[int], list[int]] = {}
    for each in work:
        if each.steps - shared:
            more.setdefault(each.steps - shared, []).append(each.item)
    others = [
        f"part{'s' * (len(items) > 1)} {listed_in_runs(items)} {{}}{_steps(steps)}"
        for steps, items in more.items()
    ]
    if not shared:
        return _sentence("; ".join(each.format("made in ") for each in others) + " of the work")
    told = [f"Made in {_steps(shared)} of the work", *(each.format("also in ") for each in others)]
    return f"{'; '.join(told)}."


def _steps(steps: Collection[int]) -> str:
    return f"step{'s' * (len(steps) > 1)} {listed_in_runs(sorted(steps))}"


def _ways_of(placed: Placed, faces: PartFaces) -> Iterator[tuple[str, str]]:
    for face in (Face.FACE_SIDE, Face.FACE_EDGE, Face.NAMED_END):
        told = faces.datums.end if face is Face.NAMED_END else face
        if not faces.names[told].says_way:
            yield faces.called(told), way_of(placed, told)


def _names(names: list[str]) -> str:
    if len(names) <= _MOST_NAMES:
        return ", ".join(names)
    return f"{', '.join(names[: _MOST_NAMES - 1])} and {len(names) - _MOST_NAMES + 1} more"


def _sentence(note: str) -> str:
    text = note[:1].upper() + note[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."
