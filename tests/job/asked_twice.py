"""What a plan in the middle of a job asks for though it is done, and what it forgets to ask for.

Counted from the records that runs write, in wood and by kinds of like cuts: never by the keys or
the places in lists that the package under test goes by. A leg is one packet with what was then
done by it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

import shapely
from manifold3d import Manifold

from tests.exporters.rebuild import _TOOLS

Record = Mapping[str, Any]
SAME_MM = 0.01
_AXES = ("length", "width", "thickness")
_AT_BOARDS = "break out"
_OF_STRIPS = "glue up strips"
_REMADE = {"make new", "recut"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A packet, and what was done by it.

    Args:
        record: its piece.json.
        numbers: of the operations that were done by its work.
        parts: that were said to be done by their names.
        spoilt: that have to be made again, whatever was done to them.
    """

    record: Record
    numbers: frozenset[int]
    parts: frozenset[str] = frozenset()
    spoilt: frozenset[str] = frozenset()

    @property
    def rows(self) -> list[Record]:
        """The operations that were done; one pass over a length is made on all that come off it."""
        return [
            row
            for row in self.record["work"]["operations"]
            if row["n"] in self.numbers
            or self.parts.intersection(one["instance"] for one in (*row["sizes"], *row["cuts"]))
        ]


class Wood:
    """The parts of a record: sizes [mm], and each cut by its kind and the wood that it takes."""

    def __init__(self, record: Record) -> None:
        rows = {row["id"]: row for row in record["parts"]}
        of = {row["instance"]: rows[row["part"]] for row in record["placements"]}
        self.sizes = {
            (name, axis): float(row[f"{axis}_mm"]) for name, row in of.items() for axis in _AXES
        }
        alike = {id(row): _kinds(row) for row in rows.values()}
        self.cuts = {name: alike[id(row)] for name, row in of.items()}


def _kinds(row: Record) -> list[tuple[str, float]]:
    """Each cut of a part: its kind and what it takes from the whole blank [mm3]."""
    size = tuple(row[f"{axis}_mm"] for axis in _AXES)
    return [
        (cut["kind"], round((_TOOLS[cut["kind"]](cut, size) ^ Manifold.cube(size)).volume(), 1))
        for cut in row["cuts"]
    ]


def _told(row: Record, record: Record) -> tuple[str, ...]:
    """Work that brings no size and no cut about, as what is done to which wood with which rig."""
    rigs = {each["id"]: each["rig"] for each in record["work"]["setups"]}
    rig = (row.get("scrap") or rigs.get(row["setup"], {})) if not row["takes"] else {}
    return (row["kind"], *row["takes"], "gives", *row["gives"], *map(str, rig.values()))


def _is_plain(row: Record) -> bool:
    return row["stage"] != _AT_BOARDS and not (row["sizes"] or row["cuts"])


def asked_twice(legs: Sequence[Leg], now: Record) -> list[str]:
    """What is asked again although it is done; none where the plan goes on from what is there.

    Args:
        legs: packets that were worked by, the first one first.
        now: the record of the run that goes on.
    """
    wood = Wood(now)
    verdicts = [(row["instance"], row["verdict"]) for row in now["job"]["parts"]]
    remade = {name for name, verdict in verdicts if verdict in _REMADE}
    trimmed = {name for name, verdict in verdicts if verdict == "trim"}
    sizes, cuts, plain = _had(legs)
    inside = {row["id"]: row["instances"] for row in now["work"]["workpieces"]}
    asked_cuts: dict[str, Counter[tuple[str, float]]] = {}
    asked_plain: Counter[tuple[str, ...]] = Counter()
    found = []
    for row in now["work"]["operations"]:
        for each in row["sizes"]:
            at = (each["instance"], each["axis"])
            if at[0] not in remade and any(abs(wood.sizes[at] - was) < SAME_MM
                                           for was in sizes.get(at, ())):  # fmt: skip
                found.append(f"{' '.join(at)} is there, and asked by {row['text']!r}")
        # One pass over a corner cuts both rails: where one of them is new, it is made again.
        is_over_new = not remade.isdisjoint(one["instance"] for one in row["cuts"])
        for each in row["cuts"] if not is_over_new else ():
            kind = wood.cuts[each["instance"]][each["index"]]
            asked_cuts.setdefault(each["instance"], Counter())[kind] += 1
        named = {one for take in row["takes"] for one in inside.get(take, (take,))}
        if _is_plain(row) and not named & remade:
            asked_plain[_told(row, now)] += 1
    for name, asked in asked_cuts.items():
        there, made = Counter(wood.cuts[name]), cuts.get(name, Counter())
        for kind in asked if name not in remade | trimmed else ():
            if asked[kind] + min(made[kind], there[kind]) > there[kind]:
                found.append(f"{name}: of {there[kind]} x {kind} {made[kind]} are made, and "
                             f"{asked[kind]} asked")  # fmt: skip
    first = legs[0].record
    wanted = Counter(_told(row, first) for row in first["work"]["operations"] if _is_plain(row))
    found += [
        f"done, and asked again: {told}"
        for told, count in asked_plain.items()
        if plain[told] and count + plain[told] > wanted[told]
    ]
    return [*found, *_planed_twice(legs[-1], now), *_wood_twice(legs, now, remade)]


def _planed_twice(leg: Leg, now: Record) -> Iterator[str]:
    """Boards that are planed to a thickness that what is left of them has."""
    done = _planed(leg.rows, leg.record)
    for board, thick in _planed(now["work"]["operations"], now).items():
        for was, had in done.items():
            if _is_of(board, was) and had <= thick + SAME_MM:
                yield f"board {board} is planed to {had}, and asked to be"


def _planed(rows: Sequence[Record], record: Record) -> dict[str, float]:
    """How thick whole boards are planed, by their names [mm]."""
    boards = {f"board {each['name']}": each["name"] for each in record["cutting_plan"]["boards"]}
    return {
        boards[row["takes"][0]]: row["pass"]["at_mm"]
        for row in rows
        if row["kind"] == "plane to thickness" and row["takes"][0] in boards
    }


def forgotten(legs: Sequence[Leg], now: Record) -> list[str]:
    """What is neither done nor asked of a design that is as it was.

    Args:
        legs: packets that were worked by, operations alone and no whole parts.
        now: the record of the run that goes on.
    """
    wood, (sizes, cuts, plain) = Wood(now), _had(legs)
    rows = now["work"]["operations"]
    asked_sizes = {(one["instance"], one["axis"]) for row in rows for one in row["sizes"]}
    asked_cuts = Counter(
        (one["instance"], wood.cuts[one["instance"]][one["index"]])
        for row in rows for one in row["cuts"]
    )  # fmt: skip
    first = legs[0].record["work"]["operations"]
    there = {(one["instance"], one["axis"]) for row in first for one in row["sizes"]}
    found = [f"{at} is neither done nor asked" for at in there - asked_sizes - sizes.keys()]
    every = Counter((one["instance"], wood.cuts[one["instance"]][one["index"]])
                    for row in first for one in row["cuts"])  # fmt: skip
    made = Counter({(name, kind): count for name, of in cuts.items() for kind, count in of.items()})
    found += [f"{at}: {count} cuts, {made[at]} made, {asked_cuts[at]} asked"
              for at, count in every.items() if made[at] + asked_cuts[at] < count]  # fmt: skip
    asked_plain = Counter(_told(row, now) for row in rows if _is_plain(row))
    # What is not begun may be laid anew, several parts off one length or each by itself.
    same = {wood for wood, origin in origins(now).items()
            if origins(legs[0].record).get(wood, ()) == origin}  # fmt: skip
    # What is made again may be laid in one piece or glued up of strips, of other ones too; where
    # its board is as thick as it is, its thickness is among the sizes.
    spoilt = {name for leg in legs for name in leg.spoilt}
    wanted = Counter(
        _told(row, legs[0].record)
        for row in first
        if _is_plain(row)
        and row["takes"]
        and not _is_for_wood_laid_anew(row, first, same)
        and not (spoilt.intersection(row["gives"]) and row["kind"] == "measure")
        and not (row["stage"] == _OF_STRIPS and _is_of_any(spoilt, row["takes"]))
    )
    found += [
        f"left out: {told}" for told, count in wanted.items()
        if asked_plain[told] + plain[told] < count and {*told[1:told.index("gives")]} <= same
    ]  # fmt: skip
    anew = sorted(legs[-1].spoilt)
    return [*found, *(fault for name in anew for fault in _glued_up_badly(name, rows))]


def _is_of_any(parts: Collection[str], woods: Sequence[str]) -> bool:
    """Whether this is wood of one of the parts, or strips of it."""
    return any(wood in parts or wood.partition(", strip ")[0] in parts for wood in woods)


def _glued_up_badly(part: str, rows: Sequence[Record]) -> Iterator[str]:
    """What is left out where a part is glued up of strips.

    Its strips are known by the part's name before theirs, as the work sheet calls them.
    """
    own = [row for row in rows if row["stage"] == _OF_STRIPS]
    strips = {wood for row in rows for wood in row["gives"] if wood.startswith(f"{part}, strip ")}
    made = {row["kind"]: row for row in own if part in row["gives"]}
    edges = [
        row for row in own if row["kind"] == "joint an edge" and strips.issuperset(row["takes"])
    ]
    laid = {wood for row in own if row["kind"] == "lay out strips" for wood in row["takes"]}
    by_glue = made.get("glue strips edge to edge")
    glued = {*by_glue["takes"]} if by_glue is not None else set()
    for what, of in (("laid out", laid), ("glued", glued)):
        yield from (f"{strip} is never {what}" for strip in sorted(strips - of))
    if strips and len(edges) != 2 * (len(strips) - 1):
        yield f"{part}: {len(edges)} edges are jointed for {len(strips)} strips"
    if strips and "scrape off glue" not in made:
        yield f"no glue is scraped off {part}"


def _is_for_wood_laid_anew(
    row: Mapping[str, Any], rows: Sequence[Mapping[str, Any]], same: Collection[str]
) -> bool:
    """Whether what is measured serves cuts only in wood that comes off another length now."""
    cut = {
        wood
        for each in rows
        if row["n"] in each["after"] and (each["sizes"] or each["cuts"])
        for wood in each["takes"]
    }
    return row["kind"] == "measure" and bool(cut) and cut.isdisjoint(same)


def origins(record: Record) -> dict[str, str | None]:
    """The length that each piece of wood comes off; None where it comes off none.

    Args:
        record: of a run.
    """
    rows = record["work"]["workpieces"]
    strips = {row["id"] for row in rows if row["what"] == "strip"}
    return {row["id"]: row["from"] if row["from"] in strips else None for row in rows}


Had = tuple[
    dict[tuple[str, str], set[float]], dict[str, Counter[tuple[str, float]]],
    Counter[tuple[str, ...]],
]  # fmt: skip


def _had(legs: Sequence[Leg]) -> Had:
    """What is done: sizes [mm], cuts of each instance by their kind, and the other work."""
    sizes: dict[tuple[str, str], set[float]] = {}
    cuts: dict[str, Counter[tuple[str, float]]] = {}
    plain: Counter[tuple[str, ...]] = Counter()
    for leg in legs:
        wood = Wood(leg.record)
        for name in leg.parts:
            cuts[name] = Counter(wood.cuts[name])
            for axis in _AXES:
                sizes.setdefault((name, axis), set()).add(wood.sizes[name, axis])
        for row in leg.rows:
            for each in row["sizes"]:
                at = (each["instance"], each["axis"])
                sizes.setdefault(at, set()).add(wood.sizes[at])
            for each in row["cuts"]:
                if each["instance"] not in leg.parts:
                    kind = wood.cuts[each["instance"]][each["index"]]
                    cuts.setdefault(each["instance"], Counter())[kind] += 1
            if _is_plain(row):
                plain[_told(row, leg.record)] += 1
        _give_up(leg, sizes, cuts, plain)
    return sizes, cuts, plain


def _give_up(
    leg: Leg,
    sizes: dict[tuple[str, str], set[float]],
    cuts: dict[str, Counter[tuple[str, float]]],
    plain: Counter[tuple[str, ...]],
) -> None:
    """Take back what was done to wood that is spoilt."""
    inside = {row["id"]: row["instances"] for row in leg.record["work"]["workpieces"]}
    for name in leg.spoilt:
        cuts.pop(name, None)
        for axis in _AXES:
            sizes.pop((name, axis), None)
        for told in list(plain):
            if any(name in inside.get(wood, (wood,)) for wood in told[1 : told.index("gives")]):
                del plain[told]


# Boards: what is sawn off is sawn off, and what keeps its place there is left for it.


def _wood_twice(legs: Sequence[Leg], now: Record, remade: Collection[str]) -> Iterator[str]:
    """Wood that the plan takes though it is gone, and parts asked whose wood is off its board."""
    last, plan, wood = legs[-1], now["cutting_plan"], Wood(now)
    asked = {name for part in plan["parts"] for name in part["instances"]}
    was = Wood(last.record).sizes
    kept = {*now["job"]["in_hand"], *now["job"]["done"]}
    for board in last.record["cutting_plan"]["boards"]:
        pieces = _sawn(board, last)
        taken = []
        for laid in board["placements"]:
            names = {each["instance"] for each in laid["instances"]}
            is_off = any(_is_there(piece, laid) for piece in pieces) or names & last.parts
            if is_off or names & kept:
                taken.append(laid)
            if is_off:
                yield from (
                    f"{name} is off board {board['name']}, and asked of another"
                    for name in sorted(names & asked - set(remade))
                    if all(wood.sizes[name, axis] <= was[name, axis] + SAME_MM
                           for axis in _AXES[:2])
                )  # fmt: skip
        left = [row for row in plan["boards"] if _is_of(row["name"], board["name"])]
        free = _area(board) - sum(each["length_mm"] * each["width_mm"] for each in taken)
        if (area := sum(map(_area, left))) > free + 1.0:
            yield f"board {board['name']}: {area:.0f} mm2 are planned of {free:.0f}"
        yield from (
            f"board {board['name']}: nothing of it is as large as {each['name']}"
            for each in left
            if not any(_holds(piece, taken, each) for piece in pieces)
        )


def _is_of(name: str, board: str) -> bool:
    rest = name.removeprefix(board)
    return name == board or (name.startswith(board) and rest.strip().isdecimal())


Place = Mapping[str, float]
_WAYS = (("x_mm", "length_mm"), ("y_mm", "width_mm"))


def _sawn(board: Record, leg: Leg) -> list[Place]:
    """The pieces that a board is in by the cuts that are told [mm]."""
    done = {row["key"] for row in leg.rows if row["stage"] == _AT_BOARDS}
    widest = max(each["width_mm"] for each in board["widths"])
    pieces = [{"x_mm": 0.0, "y_mm": 0.0, "length_mm": board["length_mm"], "width_mm": widest}]
    for cut in board["cuts"]:
        if f"board {board['name']}: cut {cut['number']}" in done:
            whole = next(each for each in pieces if _is_in(cut["workpiece"], each))
            pieces.remove(whole)
            pieces += _two(whole, cut)
    return pieces


def _two(whole: Place, cut: Record) -> list[Place]:
    at, size = _WAYS[cut["kind"] == "rip"]
    beyond = cut["at_mm"] + cut["kerf_mm"]
    end = whole[at] + whole[size]
    return [
        {**whole, size: cut["at_mm"] - whole[at]},
        {**whole, at: beyond, size: max(0.0, end - beyond)},
    ]


def _is_in(inner: Place, outer: Place) -> bool:
    return all(
        outer[at] - SAME_MM <= inner[at]
        and inner[at] + inner[size] <= outer[at] + outer[size] + SAME_MM
        for at, size in _WAYS
    )


def _is_there(piece: Place, laid: Place) -> bool:
    """Whether a piece holds what was laid there and is about as large: no more saw is between."""
    return _is_in(laid, piece) and all(piece[size] <= laid[size] + 12.0 for _, size in _WAYS)


def _holds(piece: Place, taken: Sequence[Place], board: Record) -> bool:
    """Whether a board finds room in a piece beside what is taken: beyond some edge of that."""
    size = (board["length_mm"], max(each["width_mm"] for each in board["widths"]))
    starts = [[piece[at], *(each[at] + each[one] for each in taken)] for at, one in _WAYS]
    for corner in product(*starts):
        own = dict(zip(("x_mm", "y_mm", "length_mm", "width_mm"), (*corner, *size), strict=True))
        if _is_in(own, piece) and not any(_overlap(own, each) for each in taken):
            return True
    return False


def _overlap(one: Place, two: Place) -> bool:
    return all(
        min(one[at] + one[size], two[at] + two[size]) - max(one[at], two[at]) > SAME_MM
        for at, size in _WAYS
    )


def _area(row: Record) -> float:
    """Of a board between its ends, by its widths [mm2]."""
    marks = [(each["at_mm"], each["width_mm"]) for each in row["widths"]]
    if len(marks) == 1:
        return float(row["length_mm"] * marks[0][1])
    outline = [(0.0, 0.0), (row["length_mm"], 0.0), *reversed(marks)]
    return float(shapely.Polygon(outline).area)
