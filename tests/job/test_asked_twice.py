"""A plan in the middle of a job never asks again for what is done, nor forgets what is not."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest

from exporters.command import DONE, run
from furniture import SawSetUp, Shop
from tests.everywhere.designs import Drawn, drawn
from tests.job.asked_twice import Leg, Record, asked_twice, forgotten, origins
from tests.job.random_changes import changed_figures

ONLY = ("--only", "work", "--only", "cutting", "--quiet")


class RefusedError(Exception):
    """The run wrote nothing."""


@dataclass(slots=True)
class Bench:
    """A maker who works by packets, writes down what is done, and goes on from there."""

    design: Drawn
    folder: Path
    legs: list[Leg] = field(default_factory=list)

    def run(self, *more: str) -> Record:
        """The record of one more run."""
        name = f"packet {len(self.legs)}"
        design = self.design
        code = run(design.make(**design.figures), ["--out", str(self.folder / name), *ONLY, *more],
                   boards=design.boards, wishes=design.wishes,
                   shop=Shop(saw=design.saw))  # fmt: skip
        if code != DONE:
            raise RefusedError
        return json.loads((self.folder / name / "piece.json").read_text(encoding="utf-8"))  # type: ignore[no-any-return]

    def goes_on(self, record: Record, done: dict[str, list[Any]], leg: Leg) -> Record:
        """The record of the run that goes on from what is written down now."""
        self.legs.append(leg)
        text = f'packet = "packet {len(self.legs) - 1}"\n[done]\n' + "".join(
            f"{key} = {json.dumps(value)}\n" for key, value in done.items()
        )
        path = self.folder / f"job {len(self.legs)}.toml"
        path.write_text(text, encoding="utf-8")
        try:
            return self.run("--job", str(path))
        except RefusedError:  # only boards are left that are too thick: the remedy is to plane more
            self.design = replace(self.design, saw=SawSetUp())
            return self.run("--job", str(path))


def by_steps(record: Record, dice: random.Random) -> tuple[dict[str, list[Any]], Leg]:
    """The first steps of the work sheets, as they are ticked."""
    rows = record["work"]["operations"]
    last = dice.randint(1, max(row["step"] for row in rows))
    numbers = frozenset(row["n"] for row in rows if row["step"] <= last)
    return {"steps": [f"1 to {last}"]}, Leg(record=record, numbers=numbers)


def in_any_order(record: Record, dice: random.Random) -> tuple[dict[str, list[Any]], Leg]:
    """Some of the work, each thing after what must come before it."""
    done: set[int] = set()
    share = dice.random()
    for row in record["work"]["operations"]:
        if done.issuperset(row["after"]) and dice.random() < share:
            done.add(row["n"])
    return {"operations": sorted(done)}, Leg(record=record, numbers=frozenset(done))


def by_names(record: Record, dice: random.Random) -> tuple[dict[str, list[Any]], Leg]:
    """Some of the parts that have a place on the boards, each made from first to last."""
    laid = [
        each["instance"]
        for board in record["cutting_plan"]["boards"]
        for row in board["placements"]
        for each in row["instances"]
    ]
    names = sorted({*laid})
    parts = dice.sample(names, dice.randint(0, len(names) // 3))
    return {"parts": parts}, Leg(record=record, numbers=frozenset(), parts=frozenset(parts))


def with_spoilt(
    done: dict[str, list[Any]], leg: Leg, dice: random.Random
) -> tuple[dict[str, list[Any]], Leg]:
    """The same where up to two of the parts that were in work have to be made again."""
    begun = {one["instance"] for row in leg.rows for one in (*row["sizes"], *row["cuts"])}
    names = sorted(begun - leg.parts)
    spoilt = dice.sample(names, min(len(names), dice.randint(0, 2)))
    if not spoilt:
        return done, leg
    return {**done, "spoilt": spoilt}, replace(leg, spoilt=frozenset(spoilt))


Way = Callable[[Record, random.Random], tuple[dict[str, list[Any]], Leg]]
WAYS: Sequence[Way] = (by_steps, in_any_order, by_names)


def drawn_way(record: Record, dice: random.Random) -> Way:
    """How the maker works and writes it down; nobody works at a part that no board gives."""
    return by_names if record["cutting_plan"]["unplaced"] else dice.choice(WAYS)


@pytest.mark.seeds(few=1, full=200)
def test_what_is_done_is_not_asked_again(seed: int, tmp_path: Path) -> None:
    """On random designs, whatever is done of them and however the maker writes it down."""
    dice = random.Random(seed)
    bench = Bench(drawn(seed), tmp_path)
    record = bench.run()
    way = drawn_way(record, dice)
    now = bench.goes_on(record, *with_spoilt(*way(record, dice), dice))
    assert asked_twice(bench.legs, now) == []
    if way is not by_names:
        assert forgotten(bench.legs, now) == []
    faults = list(planted(bench.legs[-1], now))
    for fault, faulty in dice.sample(faults, min(len(faults), 3)):
        found = (asked_twice if fault in TWICE else forgotten)(bench.legs, faulty)
        assert found, f"{fault} is not found"


@pytest.mark.seeds(few=1, full=60)
def test_nor_what_was_done_before_the_packet_was_written(seed: int, tmp_path: Path) -> None:
    """The plan changes twice: the second packet's own numbers go on from the first one's."""
    dice = random.Random(seed)
    bench = Bench(drawn(seed), tmp_path)
    record = bench.run()
    for _ in range(2):
        if not record["work"]["operations"]:
            return  # all of it is done
        record = bench.goes_on(record, *with_spoilt(*drawn_way(record, dice)(record, dice), dice))
        assert asked_twice(bench.legs, record) == []
    if not any(leg.parts for leg in bench.legs):
        assert forgotten(bench.legs, record) == []


@pytest.mark.seeds(few=1, full=100)
def test_nor_when_the_design_is_changed_besides(seed: int, tmp_path: Path) -> None:
    """What is done stands, is trimmed or told to be made new; it is asked in no other case."""
    dice = random.Random(seed)
    bench = Bench(drawn(seed), tmp_path)
    record = bench.run()
    way = drawn_way(record, dice)
    bench.design = replace(bench.design, figures=changed_figures(seed))
    try:
        now = bench.goes_on(record, *way(record, dice))
    except RefusedError:
        return  # with every problem of what was changed; other laws are on those
    assert asked_twice(bench.legs, now) == []
    assert asked(bench.goes_on(now, {}, Leg(record=now, numbers=frozenset()))) == asked(now)


def asked(record: Record) -> list[tuple[str, str]]:
    """The cuts and the sizes that are still to be made: of which part, and which."""
    return sorted(
        (one["instance"], str(one.get("axis", one.get("index"))))
        for row in record["work"]["operations"]
        for one in (*row["sizes"], *row["cuts"])
    )


TWICE = ("work", "wood")


def planted(leg: Leg, now: Record) -> Iterator[tuple[str, Record]]:
    """Faulty plans: one that asks for each done thing again, takes wood twice, forgets the rest."""
    work, plan = now["work"], now["cutting_plan"]
    known = {row["id"] for row in work["workpieces"]}
    inside = {row["id"]: row["instances"] for row in leg.record["work"]["workpieces"]}
    again = {row["instance"] for row in now["job"]["parts"] if row["verdict"] == "make new"}
    for row in leg.rows:
        is_for_new = any(again.intersection(inside.get(wood, (wood,))) for wood in row["takes"])
        if is_for_new or row["stage"] == "break out":
            continue
        if row["takes"] and known.issuperset(row["takes"]):
            yield "work", {**now, "work": {**work, "operations": [*work["operations"], row]}}
    for board in plan["boards"]:
        begun = {row["name"] for row in leg.record["cutting_plan"]["boards"] if row["is_begun"]}
        if board["name"].rpartition(" ")[0] in begun:
            longer = {**board, "length_mm": board["length_mm"] + 3000.0}
            yield "wood", {**now, "cutting_plan": {**plan, "boards": [longer]}}
    was, is_now = origins(leg.record), origins(now)
    keys = {row["key"] for row in leg.record["work"]["operations"]}
    if not leg.parts:
        for index, row in enumerate(work["operations"]):
            if (
                row["stage"] != "break out"
                and row["key"] in keys  # other wood for what is made again may need more
                and row["takes"]
                and not (row["kind"] == "measure" and again.intersection(row["takes"]))
                and all(wood in was and was[wood] == is_now[wood] for wood in row["takes"])
            ):
                left = [*work["operations"][:index], *work["operations"][index + 1 :]]
                yield "forgotten", {**now, "work": {**work, "operations": left}}
