"""What must hold of `work` in piece.json, read from the plain data alone."""

from __future__ import annotations

from collections import Counter

AXES = ("length", "width", "thickness")


def faults_of(summary):
    """Every fault in words; none when the record is whole."""
    work = summary["work"]
    return [
        *_unmade_cuts(summary, work["operations"]),
        *_unmade_sizes(summary, work["operations"]),
        *_order_faults(work["operations"]),
        *_set_up_faults(work),
        *_wood_faults(work),
    ]


def _instances(summary):
    parts = {part["id"]: part for part in summary["parts"]}
    return {row["instance"]: parts[row["part"]] for row in summary["placements"]}


def _unmade_cuts(summary, operations):
    made = Counter((cut["instance"], cut["index"]) for op in operations for cut in op["cuts"])
    asked = {
        (name, index)
        for name, part in _instances(summary).items()
        for index in range(len(part["cuts"]))
    }
    yield from (f"cut {each} made {made[each]} times" for each in asked if made[each] != 1)
    yield from (f"cut {each} is of no part" for each in made if each not in asked)


def _unmade_sizes(summary, operations):
    made = Counter((size["instance"], size["axis"]) for op in operations for size in op["sizes"])
    asked = {(name, axis) for name in _instances(summary) for axis in AXES}
    yield from (f"size {each} made {made[each]} times" for each in asked if made[each] != 1)
    yield from (f"size {each} is of no part" for each in made if each not in asked)


def _order_faults(operations):
    if [op["n"] for op in operations] != list(range(1, len(operations) + 1)):
        yield "operations are not numbered in order"
    if len({op["key"] for op in operations}) != len(operations):
        yield "two operations have one key"
    for op in operations:
        if len(op["after"]) != len(op["why"]):
            yield f"operation {op['n']} has not one reason for each that comes before it"
        yield from (
            f"operation {op['n']} waits for {each}" for each in op["after"] if not each < op["n"]
        )


def _set_up_faults(work):
    of = Counter(n for each in work["setups"] for n in each["operations"])
    ids = {each["id"]: each for each in work["setups"]}
    yield from (f"operation {n} is in {count} set-ups" for n, count in of.items() if count > 1)
    for op in work["operations"]:
        listed = None if op["setup"] is None else ids.get(op["setup"])
        if op["setup"] is not None and (listed is None or op["n"] not in listed["operations"]):
            yield f"operation {op['n']} is not in set-up {op['setup']}"
        if op["setup"] is None and of[op["n"]]:
            yield f"operation {op['n']} does not name its set-up"


def _wood_faults(work):
    """Wood is there from the start, or comes out of an operation; in the end all of it is."""
    known = {each["id"]: each for each in work["workpieces"]}
    in_hand = {
        name
        for name, each in known.items()
        if each["from"] is None and each["what"] != "sub-assembly" and not each["glued_of"]
    }
    for each in work["workpieces"]:
        if any(size <= 0.0 for size in each["size_mm"]):
            yield f"{each['id']} is no wood"
        if each["from"] is not None and each["from"] not in known:
            yield f"{each['id']} comes from nothing"
    for op in work["operations"]:
        lost = [name for name in op["takes"] if name not in in_hand]
        yield from (f"operation {op['n']} takes {name}, which is not there" for name in lost)
        in_hand = (in_hand - set(op["takes"])) | set(op["gives"])
    names = {name for each in work["workpieces"] for name in each["instances"]}
    left = {name for wood in in_hand if wood in known for name in known[wood]["instances"]}
    yield from (f"{name} is not there at the end" for name in names - left)
