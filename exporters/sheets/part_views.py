"""The views that a part needs, and where along it its section is taken."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.annotation import Annotation, Bench, Look
from exporters.sheets.broken import Break, plain_stretches
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.lines import bounds_of
from furniture.parts.part import Part
from furniture.units import plural

LONG_LOOKS = (Look.BACK_EDGE, Look.FACE_SIDE, Look.FACE_EDGE, Look.BACK_SIDE)
END_LOOKS = (Look.NAMED_END, Look.FAR_END)
_ASIDE_MM = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Spared:
    """A view that would say what another one does.

    Args:
        look: what it would show.
        drawn: the view that says it.
        works: what is done there as it is in that one, such as `holes`.
    """

    look: Look
    drawn: Look
    works: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartViews:
    """Which views a part gets, and where its section is taken [mm from the named end].

    `has_sizes` is false on a sheet that goes on with a part whose sizes stand on an earlier one.
    `plain` are the stretches along which nothing changes, `breaks` what is left out of them.
    `spared` are views that are not drawn since another one says it all.
    """

    part: Part
    bench: Bench
    annotations: tuple[Annotation, ...]
    looks: tuple[Look, ...]
    section_x: float | None
    has_sizes: bool
    plain: tuple[tuple[float, float], ...] = ()
    breaks: tuple[Break, ...] = ()
    spared: tuple[Spared, ...] = ()


def views_for(
    part: Part,
    bench: Bench,
    annotations: tuple[Annotation, ...],
    span: tuple[int, int] | None = None,
    more: tuple[Annotation, ...] = (),
) -> PartViews:
    """The views that the part's annotations ask for, the face side always among them.

    Args:
        part: the part.
        bench: its wood and the shown unit.
        annotations: of its cuts, in the same order.
        span: first and last plus one of those that this sheet shows; none shows all.
        more: what is said beside its cuts, on the sheet that shows the last of them.
    """
    wanted = {Look.FACE_SIDE}
    first, last = span or (0, len(annotations))
    told = (*annotations[first:last], *(more if last == len(annotations) else ()))
    shown = _without_edge_for_words(told)
    for each in shown:
        wanted.add(each.look)
        wanted.update(position.look for position in each.positions)
        wanted.update(span.look for span in each.spans)
    if Look.SECTION not in wanted and not wanted & {Look.BACK_EDGE, *END_LOOKS}:
        wanted.add(Look.FACE_EDGE)
    section_x = None
    if Look.SECTION in wanted:
        section_x = section_place(part, annotations)
    spared = tuple(_spared(shown))
    wanted -= {each.look for each in spared}
    return PartViews(
        part=part,
        bench=bench,
        # what several views show is pointed at where it is met first: in one that is drawn
        annotations=tuple(sorted(shown, key=lambda each: each.look not in wanted)),
        looks=tuple(look for look in Look if look in wanted),
        spared=spared,
        section_x=section_x,
        has_sizes=first == 0,
        plain=tuple(_plain(part, annotations, section_x)),
    )


_ACROSS = ((Look.FACE_EDGE, Look.BACK_EDGE), (Look.NAMED_END, Look.FAR_END))


def _spared(told: Sequence[Annotation]) -> Iterator[Spared]:
    """Edges and ends on which all work is done across as well, at the same figures from the same
    datums, and no other of its kind."""
    for pair in _ACROSS:
        for drawn, bare in (pair, pair[::-1]):
            across = [each for each in told if bare in _looks(each)]
            nouns = dict.fromkeys(each.noun for each in across)
            own = [each for each in told if drawn in _looks(each) and each.noun in nouns]
            is_all_there = all(_looks(each) == {bare} for each in across)
            if across and is_all_there and Counter(map(_work, own)) == Counter(map(_work, across)):
                counts = Counter(each.noun for each in across)
                yield Spared(
                    look=bare,
                    drawn=drawn,
                    works=tuple(plural(noun) if counts[noun] > 1 else noun for noun in nouns),
                )
                break


def _looks(note: Annotation) -> set[Look]:
    return {note.look} | _figured(note)


def _work(note: Annotation) -> tuple[str, str, frozenset[tuple[int, float]]]:
    """What is done, and where along each axis."""
    places = ((each.axis, round(each.value_mm, 3)) for each in note.positions)
    return note.noun, note.spec, frozenset(places)


def _without_edge_for_words(told: tuple[Annotation, ...]) -> tuple[Annotation, ...]:
    """The same with what the face edge has words alone for told where its figures stand.

    That is where no figure asks for that view and the edge opposite is drawn for its own: it shows
    the thickness, and a third long view would say nothing further.
    """
    figured = {look for each in told for look in _figured(each)}
    edged = [each for each in told if each.look is Look.FACE_EDGE]
    moved = {id(each): looks.pop() for each in edged if len(looks := _figured(each)) == 1}
    if Look.FACE_EDGE in figured or Look.BACK_EDGE not in figured or len(moved) < len(edged):
        return told
    return tuple(replace(each, look=moved.get(id(each), each.look)) for each in told)


def _figured(note: Annotation) -> set[Look]:
    """The views that carry its figures."""
    return {each.look for each in note.positions} | {each.look for each in note.spans}


def with_end_for_edge(views: PartViews) -> list[PartViews]:
    """The same with the named end in place of a bare face edge, which is there for the thickness.

    Nothing when the face edge carries more, or another view shows the thickness.

    Args:
        views: of a part.
    """
    told = {note.look for note in views.annotations}
    told |= {position.look for note in views.annotations for position in note.positions}
    if Look.FACE_EDGE in told or thickness_look(views.looks) is not Look.FACE_EDGE:
        return []
    looks = {*views.looks, Look.NAMED_END} - {Look.FACE_EDGE}
    return [replace(views, looks=tuple(look for look in Look if look in looks))]


def _plain(
    part: Part, annotations: tuple[Annotation, ...], section_x: float | None
) -> list[tuple[float, float]]:
    """Stretches of the length between cuts, where one cross-section is like the next [mm]."""
    busy = [] if section_x is None else [(section_x - _ASIDE_MM, section_x + _ASIDE_MM)]
    for cut, note in zip(part.cuts, annotations, strict=True):
        low, high = run_of(cut, part.blank)
        if _is_cut_across(note):
            busy += [(end - _ASIDE_MM, end + _ASIDE_MM) for end in (low, high)]
        else:
            busy.append((low, high))
    return plain_stretches(part.blank.length_mm, busy)


def section_place(part: Part, annotations: tuple[Annotation, ...]) -> float:
    """Where a section meets every cut that runs along the part and no other [mm].

    Args:
        part: the part.
        annotations: of its cuts, in the same order.
    """
    length = part.blank.length_mm
    wanted: list[tuple[float, float]] = []
    blocked: list[tuple[float, float]] = []
    for cut, note in zip(part.cuts, annotations, strict=True):
        span = run_of(cut, part.blank)
        (wanted if _is_cut_across(note) else blocked).append(span)
    marks = [p.point[0] for note in annotations for p in note.positions if p.axis == 0]

    def worth(x: float) -> tuple[float, float, float]:
        met = sum(low < x < high for low, high in wanted)
        free = -sum(low - 1e-6 < x < high + 1e-6 for low, high in blocked)
        ends = [edge for span in (*wanted, *blocked) for edge in span]
        room = min(abs(x - mark) for mark in (*marks, *ends, 0.0, length))
        return (free + met, free, min(room, 0.16 * length) - 0.02 * abs(x - 0.6 * length))

    return max((length * step / 200 for step in range(3, 198)), key=worth)


def _is_cut_across(note: Annotation) -> bool:
    """Whether a section shows what is said of a cut."""
    return note.look is Look.SECTION or any(span.look is Look.SECTION for span in note.spans)


def run_of(cut: Cut, blank: Blank) -> tuple[float, float]:
    """From where to where along the grain a cut takes wood [mm from the named end]."""
    boxes = [bounds_of(tool) for tool in cut.tools(blank)]
    return (
        max(0.0, min(low[0] for low, _ in boxes)),
        min(blank.length_mm, max(high[0] for _, high in boxes)),
    )


def section_span(views: PartViews) -> tuple[float, float]:
    """From where to where across the part its section is drawn [mm from the face edge].

    Own rule: where everything that the section explains lies in a strip of the width, the rest is
    broken away, so that the strip can be drawn larger.
    """
    blank = views.bench.blank
    ys = [note.target[1] for note in views.annotations if note.look is Look.SECTION]
    for note in views.annotations:
        for span in note.spans:
            if span.look is Look.SECTION:
                ys += [span.start[1], span.end[1]]
        for position in note.positions:
            if position.look is Look.SECTION:
                ys += [position.point[1], 0.0] if position.axis == 1 else [position.point[1]]
    margin = max(1.6 * blank.thickness_mm, 15.0)
    low, high = max(0.0, min(ys) - margin), min(blank.width_mm, max(ys) + margin)
    if high - low > 0.7 * blank.width_mm:
        return 0.0, blank.width_mm
    return low, high


def thickness_look(looks: tuple[Look, ...]) -> Look:
    """The view that carries the thickness: the section where there is one."""
    order = (Look.SECTION, Look.FACE_EDGE, Look.BACK_EDGE, Look.NAMED_END, Look.FAR_END)
    return next(look for look in order if look in looks)
