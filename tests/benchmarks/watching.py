"""From the save of a script to the changed view, step by step: `... tests.benchmarks watching`."""

from __future__ import annotations

import shutil
import statistics
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from exporters.watch.server import Desk
from exporters.watch.session import shown
from tests.models import ROOT

_CHANGES = (
    ("nothing", "", ""),
    ("rise", 'rise="150 mm"', 'rise="15{} mm"'),
    ("tier width", 'width="300 mm"', 'width="30{} mm"'),
    ("base width", 'base_width="320 mm"', 'base_width="32{} mm"'),
    ("stock", 'thickness="19.7 mm"', 'thickness="19.{} mm"'),
)


def main(arguments: Sequence[str]) -> int:
    """Prints for each change of the herb stand how long its shapes and all the rest take.

    Args:
        arguments: how many times each change is made; three where none is given.
    """
    times = int(arguments[0]) if arguments else 3
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for file in (ROOT / "models").glob("herb_stand*"):
            shutil.copy(file, folder)
        script = folder / "herb_stand.py"
        text = script.read_text(encoding="utf-8")
        _timed(script, Desk(), rest=False)
        print(f"{'change':<12} {'shapes [s]':>11} {'all [s]':>9}   (in this process, no browser)")
        for what, old, new in _CHANGES:
            shapes, whole = [], []
            for count in range(1, times + 1):
                changed = text.replace(old, new.format(count)) if old else text
                script.write_text(changed, encoding="utf-8")
                shapes.append(_timed(script, Desk(), rest=False))
            script.write_text(text.replace(old, new.format(times + 1)) if old else text)
            whole.append(_timed(script, Desk(), rest=True))
            print(f"{what:<12} {statistics.median(shapes):>11.2f} {whole[0]:>9.1f}")
    return 0


def _timed(script: Path, desk: Desk, *, rest: bool) -> float:
    stop: Callable[[], bool] = lambda: not rest  # noqa: E731 - said once
    began = time.perf_counter()
    shown(script, None, desk, stop)
    return time.perf_counter() - began
