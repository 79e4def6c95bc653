"""Fresh cases in every run, the same for every process of it, and repeatable by their seed."""

from __future__ import annotations

import gc
import os
import random
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from tests.fresh import FULL, SAMPLE
from tests.once import FOLDER_OF_RUN

# As the product does, for tests that load numpy before it, and for the processes they start.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Pieces and drawings are values without rings, and many are kept: looking for rings among them
# every seven hundred took a tenth of a run.
gc.set_threshold(50_000, 20, 50)

_MADE = pytest.StashKey[str]()
"""The folder that a run made for all its processes."""

_MODELS_A_RUN = 2
_SEEDS = 1_000_000
"""Seeds are below this, so that a test's name stays short."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """What a run of the random laws can be asked for."""
    group = parser.getgroup("random laws")
    group.addoption("--full", action="store_true", help="try random laws on many cases, not a few")
    group.addoption("--seed", type=int, help="draw the cases of the run that named this seed")


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    """One seed for the run, drawn where the run begins and handed to its other processes."""
    config.addinivalue_line(
        "markers",
        "seeds(few, full): run with so many fresh values of `seed`, or with --full so many",
    )
    config.addinivalue_line(
        "markers",
        "some_models: what is tried on each of models/ is tried on some, with --full on all",
    )
    config.addinivalue_line(
        "markers",
        "some(few): run so many of the cases that are written out, with --full all of them",
    )
    if hasattr(config, "workerinput"):
        config.option.seed = config.workerinput["seed"]
    elif config.option.seed is None:
        config.option.seed = random.SystemRandom().randrange(_SEEDS)
    if config.option.hypothesis_seed is None:
        config.option.hypothesis_seed = config.option.seed
    settings.load_profile(FULL if config.option.full else SAMPLE)


def pytest_sessionstart(session: pytest.Session) -> None:
    """A folder that all processes of a run share, where it has several.

    A run that a test starts has the one of its own run.
    """
    has_several = not hasattr(session.config, "workerinput") and session.config.option.numprocesses
    if has_several and FOLDER_OF_RUN not in os.environ:
        os.environ[FOLDER_OF_RUN] = tempfile.mkdtemp(prefix="tests")
        session.config.stash[_MADE] = os.environ[FOLDER_OF_RUN]


def pytest_unconfigure(config: pytest.Config) -> None:
    """It goes with the run that made it."""
    if _MADE in config.stash:
        del os.environ[FOLDER_OF_RUN]
        shutil.rmtree(config.stash[_MADE], ignore_errors=True)


@pytest.hookimpl(optionalhook=True)
def pytest_configure_node(node: Any) -> None:
    """Another process of this run collects the same tests, by the same names."""
    node.workerinput["seed"] = node.config.option.seed


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """A test marked with `seeds` runs once for each of its own fresh seeds."""
    marker = metafunc.definition.get_closest_marker("seeds")
    if marker is None:
        return
    options = metafunc.config.option
    count = marker.kwargs["full" if options.full else "few"]
    draw = random.Random(f"{options.seed} {metafunc.definition.nodeid}")
    metafunc.parametrize("seed", draw.sample(range(_SEEDS), count))


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Of models, and of cases of a test that is marked `some`, a run takes some, by its seed; of
    the models the same ones for all its tests.
    """
    if config.option.full:
        return
    dropped = {*_of_other_models(config, items), *_beyond_some(config, items)}
    if dropped:
        config.hook.pytest_deselected(items=[item for item in items if item in dropped])
        items[:] = [item for item in items if item not in dropped]


def _of_other_models(config: pytest.Config, items: list[pytest.Item]) -> Iterator[pytest.Item]:
    from tests.models import NAMES  # after what numpy is told above

    some = random.Random(f"{config.option.seed} models").sample(NAMES, _MODELS_A_RUN)
    others = {*NAMES}.difference(some)
    for item in items:
        given = getattr(item, "callspec", None)
        if given is None or item.get_closest_marker("some_models") is None:
            continue
        if any(
            isinstance(each, (str, Path)) and Path(each).stem in others
            for each in given.params.values()
        ):
            yield item


def _beyond_some(config: pytest.Config, items: list[pytest.Item]) -> Iterator[pytest.Item]:
    cases: dict[str, list[pytest.Item]] = {}
    for item in items:
        if item.get_closest_marker("some") is not None:
            cases.setdefault(item.nodeid.split("[")[0], []).append(item)
    for test, each in cases.items():
        few = each[0].get_closest_marker("some").kwargs["few"]
        draw = random.Random(f"{config.option.seed} {test}")
        yield from draw.sample(each, max(0, len(each) - few))


def _how_to_repeat(config: pytest.Config) -> str:
    full = " --full" if config.option.full else ""
    return f"random cases were drawn with{full} --seed {config.option.seed}; add it to repeat them"


def pytest_report_header(config: pytest.Config) -> str:
    """The seed, where a header is printed at all."""
    return _how_to_repeat(config)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]) -> Iterator[None]:
    """A failure says how to draw its cases again."""
    report: pytest.TestReport = yield
    if report.failed:
        report.sections.append(("Random cases", _how_to_repeat(item.config)))
    return report


def pytest_terminal_summary(terminalreporter: Any, config: pytest.Config) -> None:
    """The seed, whatever came of the run."""
    terminalreporter.write_line(_how_to_repeat(config))
