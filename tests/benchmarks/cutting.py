"""`python -m tests.benchmarks cutting --instances DIR`: published instances, ours and rectpack's.

Ours is the planner that a maker runs, asked as a job asks it. It is put to every instance that a
request can say, of up to as many pieces and boards as it takes: equal boards, decisions, bars,
parts by their worth. Left out are instances with more copies than a request takes; endless copies
are as many as a board has room for.

For every instance: ours, best known, gap, seconds, proof, and rectpack's best layout that a saw
can cut; for every family how often the best known was reached, against the goal.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks.cutting_instances import FAMILIES, Instance, instances_of
from tests.benchmarks.cutting_rectpack import Packed, packed_by_rectpack
from tests.benchmarks.cutting_requests import Run, can_be_said, planned

SMALL_ORDER = 400
"""Orders of up to so many pieces count for the goal of real furniture orders."""
GOALS = {
    "g2opp_decision63": "none wrong",
    "csp1d_bpplib": "every one",
    "g2csp_class500": "93 of 100, +0.3 % boards",
    "g2csp_A43": "within one board each",
    "g2kp_ngcut12": "every one",
    "g2kp_fmt59": "27 of 30, mean 0.997",
    "defects_afsharian": "all but two",
}


@dataclass(frozen=True, slots=True)
class Line:
    """One instance with both answers."""

    instance: Instance
    ours: Run
    theirs: Packed

    @property
    def known(self) -> int | None:
        """The published value; for a decision 1 or 0."""
        if self.instance.family.startswith("g2opp"):
            return {"feasible": 1, "infeasible": 0}.get(self.instance.status)
        return self.instance.best_known

    @property
    def fewest(self) -> bool:
        """Whether less is better."""
        return self.instance.family.startswith(("g2csp", "csp1d"))

    @property
    def is_reached(self) -> bool:
        """Whether ours is as good as the best known."""
        if self.known is None or self.ours.value is None:
            return False
        if self.instance.family.startswith("g2opp"):
            return self.ours.value == self.known
        return self.ours.value <= self.known if self.fewest else self.ours.value >= self.known

    @property
    def is_wrong(self) -> bool:
        """Whether ours contradicts what is published, or the checker found a fault."""
        if self.ours.faults:
            return True
        if self.known is None or self.ours.value is None or self.ours.bound is None:
            return False
        if self.instance.status not in ("optimal", "feasible", "infeasible"):
            return False
        if self.instance.family.startswith("g2opp"):
            return self.ours.value != self.known
        if self.fewest:
            return self.ours.value < self.known or self.ours.bound > self.known
        return self.ours.value > self.known or self.ours.bound < self.known


def main(argv: list[str]) -> int:
    """Run the families asked for and print both tables; 1 when an answer is wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks cutting")
    parser.add_argument("--instances", type=Path, required=True, help="folder of the instances")
    parser.add_argument("--family", action="append", choices=FAMILIES, help="only this family")
    parser.add_argument("--seconds", type=float, default=10.0, help="time for an instance")
    parser.add_argument("--every", type=int, default=1, help="only every so many instances")
    given = parser.parse_args(argv)
    header = f"{'instance':28} {'ours':>9} {'best known':>10} {'gap %':>7} {'s':>6} "
    print(header + f"{'proof':26} {'rectpack':>9} {'gap %':>7} {'s':>6} unsawable")
    everything: list[Line] = []
    for family in given.family or FAMILIES:
        lines: list[Line] = []
        for instance in list(instances_of(given.instances, family))[:: given.every]:
            if not can_be_said(instance):
                print(f"{instance.name[:28]:28} no request can say it")
                continue
            ours = planned(instance, given.seconds)
            theirs = packed_by_rectpack(instance, given.seconds)
            line = Line(instance, ours, theirs)
            lines.append(line)
            print(_row(line), flush=True)
        everything += lines
        print(_summary(family, lines), flush=True)
    proven = sum(line.ours.is_proven for line in everything)
    share = 100 * proven / max(1, len(everything))
    print(f"own proof on {proven} of {len(everything)} ({share:.0f} %; goal 75 %)")
    return int(any(line.is_wrong for line in everything))


def _gap(value: int | None, known: int | None) -> str:
    if value is None or not known:
        return "-"
    return f"{100 * abs(value - known) / known:.2f}"


def _row(line: Line) -> str:
    ours, theirs = line.ours, line.theirs
    proof = ours.source if ours.is_proven else f"bound {ours.bound} ({ours.source})"
    row = f"{line.instance.name[:28]:28} {_text(ours.value):>9} {_text(line.known):>10} "
    row += f"{_gap(ours.value, line.known):>7} {ours.seconds:6.2f} {proof[:26]:26} "
    row += f"{_text(theirs.value):>9} {_gap(theirs.value, line.known):>7} {theirs.seconds:6.2f} "
    row += f"{theirs.unsawable}/{theirs.layouts}"
    if line.is_wrong:
        row += "  WRONG " + "; ".join(ours.faults)
    return row


def _text(value: int | None) -> str:
    return "-" if value is None else str(value)


def _summary(family: str, lines: list[Line]) -> str:
    counted = [
        line
        for line in lines
        if line.known is not None and (family != "g2csp_A43" or line.instance.pieces <= SMALL_ORDER)
    ]
    reached = sum(line.is_reached for line in counted)
    answered = sum(line.ours.value is not None for line in lines)
    wrong = sum(line.is_wrong for line in lines)
    proven = sum(line.ours.is_proven for line in lines)
    text = f"== {family}: best known reached on {reached} of {len(counted)}"
    if family.startswith("g2opp"):
        text += f", answered {answered} of {len(lines)}"
    text += f", mean {_mean((li.ours.value, li.known) for li in counted)}"
    text += f", proven {proven} of {len(lines)}, wrong {wrong}; goal: {GOALS[family]}"
    theirs = sum(line.theirs.value == line.known for line in counted)
    mean = _mean((li.theirs.value, li.known) for li in counted)
    unsawable = sum(line.theirs.unsawable for line in lines)
    layouts = sum(line.theirs.layouts for line in lines)
    text += f"\n   rectpack: {theirs} of {len(counted)}, mean {mean}, "
    return text + f"{unsawable} of {layouts} layouts no saw can cut\n"


def _mean(pairs: Iterable[tuple[int | None, int | None]]) -> str:
    shares = [value / known for value, known in pairs if value is not None and known]
    return f"{sum(shares) / len(shares):.4f}" if shares else "-"


if __name__ == "__main__":
    import sys

    sys.exit(main(sys.argv[1:]))
