"""The phases of a packet, timed once each in one run and set against the bare kernel calls."""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

Phase = tuple[str, float, float | None]
"""What was done, seconds, and how often the bare kernel's time for the same (none: no such)."""


def main(arguments: Sequence[str]) -> int:
    """Prints the phases for the herb stand and for stands of 5, 20 and 100 shelves."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--shelves", type=int, nargs="*", default=[5, 20, 100])
    options = parser.parse_args(list(arguments))
    for name, module in (("bare kernel", "cadquery"), ("the model", "furniture")):
        print(f"import of {name:<12} {_import_seconds(module):8.2f} s")
    from tests.benchmarks.stands import built_stand, composed_stand
    from tests.models import piece_of

    _warm_up()
    _print("herb stand", lambda: piece_of("herb_stand"))
    for count in options.shelves:
        make = built_stand if count <= 20 else composed_stand
        _print(f"{count} shelves", lambda make=make, count=count: make(count))
    _print_plans()
    return 0


def _print_plans() -> None:
    """The cutting plan of stands on boards with zones: seconds, parts left out, price and bound."""
    from furniture.shop.cutting import plan_cutting
    from tests.benchmarks.stands import planning_jobs

    import_seconds = _import_seconds("scipy.optimize, ortools.sat.python.cp_model")
    print(f"\ncutting plans (import of the solvers {import_seconds:.2f} s, once)")
    print(f"  {'job':<30}{'seconds':>9}{'rounds':>8}{'left out':>10}{'price':>9}{'bound':>9}")
    for name, request in planning_jobs().items():
        plan, _ = _timed(lambda request=request: plan_cutting(request))
        seconds = _least(lambda request=request: plan_cutting(request))
        left_out = sum(each.copies for each in plan.unplaced)
        price, bound = plan.cost, plan.proof.bound if plan.proof.measure == "price" else 0.0
        print(
            f"  {name:<30}{seconds:>9.2f}{plan.rounds:>8}{left_out:>10}{price:>9.2f}{bound:>9.2f}"
        )


def _warm_up() -> None:
    """The first call of everything loads libraries: keep that out of the phases."""
    from tests.benchmarks.stands import built_stand

    _phases(lambda: built_stand(1))


def _import_seconds(module: str) -> float:
    """A fresh interpreter's time for one import, less its own start."""
    return _run_seconds(f"import {module}") - _run_seconds("pass")


def _run_seconds(code: str) -> float:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return time.perf_counter() - start


def _print(title: str, make: Callable[[], Any]) -> None:
    print(f"\n{title}")
    print(f"  {'phase':<28}{'seconds':>9}  times the bare kernel")
    for what, seconds, ratio in _phases(make):
        print(f"  {what:<28}{seconds:>9.3f}  {'' if ratio is None else f'{ratio:.2f}'}")


def _phases(make: Callable[[], Any]) -> list[Phase]:
    from exporters.pdf import write_pdf
    from exporters.pictures import write_pictures
    from exporters.sheets.dxf import save
    from exporters.sheets.values import SheetSettings
    from exporters.step import write_step
    from furniture.pieces import distinct_parts
    from furniture.solids.make import forget_solids, solid_of
    from furniture.solids.measure import weigh
    from tests.exporters.documents import sheet_documents

    phases: list[Phase] = []
    piece, seconds = _timed(make)
    phases.append(("resolve", seconds, None))
    parts = [distinct.part for distinct in distinct_parts(piece)]
    bare = _least(lambda: [_bare_solid(part) for part in parts])
    seconds = _least(lambda: (forget_solids(), [solid_of(part) for part in parts]))
    phases.append((f"solids ({len(parts)} distinct)", seconds, seconds / bare))
    bare_all = _least(lambda: [_bare_solid(each.part) for each in piece.placed])
    phases.append((f"  bare, built {len(piece.placed)} times", bare_all, bare_all / bare))
    _, seconds = _timed(lambda: weigh(piece))
    phases.append(("weighing", seconds, None))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "pictures").mkdir()
        _, bare = _timed(lambda: _bare_step(piece, folder / "bare.step"))
        _, seconds = _timed(lambda: write_step(piece, folder / "x.step", "2026-01-01T00:00:00"))
        phases.append(("STEP", seconds, seconds / bare))
        settings = SheetSettings(paper=None, dated=date(2026, 1, 1), revision="-")
        sheets, seconds = _timed(lambda: sheet_documents(piece, settings))
        _, writing = _timed(
            lambda: [save(sheet.document, folder / f"{sheet.name}.dxf") for sheet in sheets]
        )
        phases.append((f"sheets ({len(sheets)})", seconds + writing, None))
        documents = [sheet.document for sheet in sheets]
        _, seconds = _timed(lambda: write_pdf(documents, folder / "x.pdf"))
        phases.append(("PDF", seconds, None))
        _, seconds = _timed(lambda: write_pictures(piece, folder / "pictures"))
        phases.append(("pictures", seconds, None))
    return phases


def _least(work: Callable[[], Any]) -> float:
    """The least of three times: the first of anything also pays for what it loads."""
    return min(_timed(work)[1] for _ in range(3))


def _timed(work: Callable[[], Any]) -> tuple[Any, float]:
    start = time.perf_counter()
    result = work()
    return result, time.perf_counter() - start


def _bare_solid(part: Any) -> Any:
    """The same solid by kernel calls alone: a box, and one cut with the tools ready made."""
    import cadquery as cq

    from furniture.solids.make import tool_solid

    box = cq.Solid.makeBox(*part.blank.size)
    tools = [tool_solid(tool) for cut in part.cuts for tool in cut.tools(part.blank)]
    return box.cut(*tools) if tools else box


def _bare_step(piece: Any, path: Path) -> None:
    """The kernel library's own assembly export of the same solids, one product an instance."""
    import cadquery as cq

    from furniture.solids.make import location_of, solid_of

    assembly = cq.Assembly(name=piece.name)
    for each in piece.placed:
        where = cq.Location(location_of(each.placement))
        assembly.add(solid_of(each.part), name=each.instance, loc=where)
    assembly.export(str(path))
