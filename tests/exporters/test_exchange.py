"""Cut short anywhere, a target holds the old packet or the new one, and foreign files stand."""

from __future__ import annotations

import os
import random
import shutil
import signal
import time

import pytest

from exporters.target import claimed
from tests.exporters import exchange_bench as bench
from tests.exporters.exchange_bench import STAND, WAYS, WHOLE_NEW, WHOLE_OLD

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forked")
WHOLE = (WHOLE_OLD, WHOLE_NEW)


@pytest.fixture
def afresh(tmp_path):
    """A function that makes the same old packet in a new folder each time."""
    pattern = tmp_path / "pattern"
    bench.standing_packet(pattern)
    count = iter(range(10**6))

    def make():
        folder = tmp_path / f"case {next(count)}"
        shutil.copytree(pattern, folder, symlinks=True)
        return folder / "out"

    return make


def _numbers(steps, request):
    """Every step with --full, else a fair sample that always holds the first and the last."""
    if request.config.getoption("--full"):
        return range(1, steps + 1)
    return sorted({1, steps, *range(2, steps, max(1, steps // 5))})


def _check_next_run(target):
    """Whatever was left is mended by the next claim; the next packet goes in; no stray is left."""
    said = []
    with claimed(target, STAND, say=said.append):
        pass
    mended = bench.tree(target)
    assert mended in WHOLE
    assert bench.strays(target.parent) == []
    bench.put(target, {"parts.csv": "third"})
    third = bench.tree(target)
    assert third.pop("parts.csv") == "third"
    assert bench.KEPT.items() <= third.items()
    assert "my prices" in third.values()
    assert bench.strays(target.parent) == []
    return mended, said


@pytest.mark.parametrize("way", WAYS)
def test_every_way_ends_with_the_new_packet_whole(way, afresh):
    target = afresh()
    bench.steps_of(target, lambda: WAYS[way](target))
    assert bench.tree(target) == WHOLE_NEW
    assert bench.strays(target.parent) == []


@pytest.mark.parametrize("way", WAYS)
def test_killed_before_any_step(way, afresh, request):
    probe = afresh()
    steps = bench.steps_of(probe, lambda: WAYS[way](probe))
    for number in _numbers(steps, request):
        target = afresh()

        def body(target=target, number=number):
            WAYS[way](target)
            bench.at_step(number, bench.killed)
            return bench.one_run(target)

        assert bench.in_child(body) == -signal.SIGKILL, number
        left = bench.tree(target) if target.exists() else {}
        if way == "at once":
            assert left in WHOLE, number
        mended, said = _check_next_run(target)
        assert said or left == mended, number


@pytest.mark.some(few=4)
@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("lasts", [False, True], ids=["once", "from then on"])
def test_a_full_disk_at_any_step(way, lasts, afresh, request):
    probe = afresh()
    steps = bench.steps_of(probe, lambda: WAYS[way](probe))
    for number in _numbers(steps, request):
        target = afresh()

        def body(target=target, number=number):
            WAYS[way](target)
            bench.at_step(number, bench.disk_full, lasts=lasts)
            return bench.one_run(target)

        code = bench.in_child(body)
        assert code in (bench.DONE, bench.REFUSED), number
        if not lasts:
            expected = WHOLE_NEW if code == bench.DONE else WHOLE_OLD
            assert bench.tree(target) == expected, number
        mended, _ = _check_next_run(target)
        assert code == bench.REFUSED or mended == WHOLE_NEW, number


@pytest.mark.some(few=6)
@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_a_stop_before_any_step_is_told_truly(way, name, afresh, request):
    probe = afresh()
    steps = bench.steps_of(probe, lambda: WAYS[way](probe))
    for number in _numbers(steps, request):
        target = afresh()

        def body(target=target, number=number):
            WAYS[way](target)
            stop = getattr(signal, name)
            # A run in the background may have been started with it ignored.
            signal.signal(stop, signal.default_int_handler if name == "SIGINT" else signal.SIG_DFL)
            bench.at_step(number, lambda: os.kill(os.getpid(), stop))
            return bench.one_run(target)

        code = bench.in_child(body)
        assert code in (bench.DONE, bench.STOPPED), number
        assert bench.tree(target) == (WHOLE_NEW if code == bench.DONE else WHOLE_OLD), number
        _check_next_run(target)


@pytest.mark.parametrize("way", WAYS)
def test_an_interrupt_raised_at_any_step_puts_everything_back(way, afresh, request):
    """As a stop that no handler holds, in a program of someone's own."""
    probe = afresh()
    steps = bench.steps_of(probe, lambda: WAYS[way](probe))

    def interrupt():
        raise KeyboardInterrupt

    for number in _numbers(steps, request):
        target = afresh()

        def body(target=target, number=number):
            WAYS[way](target)
            bench.at_step(number, interrupt)
            return bench.one_run(target)

        code = bench.in_child(body)
        assert code in (bench.DONE, bench.STOPPED), number
        assert bench.tree(target) in WHOLE, number
        _check_next_run(target)


def test_killed_at_random_moments(afresh, request):
    many = {f"sheets/{number:02}.dxf": "x" * 20_000 for number in range(40)}
    runs = 40 if request.config.getoption("--full") else 8
    new = {**bench.KEPT, **many, bench.EDITED: "my prices", "piece.json": "summary"}
    target = afresh()
    begun = time.monotonic()
    assert bench.in_child(lambda: bench.one_run(target, many)) == bench.DONE
    whole = time.monotonic() - begun
    for _ in range(runs):
        target = afresh()
        child = os.fork()
        if child == 0:
            os._exit(bench.one_run(target, many))
        time.sleep(random.uniform(0, whole))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        assert bench.tree(target) in (WHOLE_OLD, new)
        with claimed(target, STAND, say=lambda _: None):
            pass
        assert bench.tree(target) in (WHOLE_OLD, new)
        assert bench.strays(target.parent) == []


def test_of_two_runs_at_once_one_stands_whole(afresh, request):
    one = {f"sheets/{number:02}.dxf": "one" for number in range(30)}
    other = {f"pictures/{number:02}.png": "other" for number in range(30)}
    kept = {**bench.KEPT, bench.EDITED: "my prices", "piece.json": "summary"}
    for _ in range(200 if request.config.getoption("--full") else 10):
        target = afresh()
        children = []
        for files in (one, other):
            child = os.fork()
            if child == 0:
                os._exit(bench.one_run(target, files))
            children.append(child)
        codes = [os.waitstatus_to_exitcode(os.waitpid(each, 0)[1]) for each in children]
        assert bench.DONE in codes
        assert set(codes) <= {bench.DONE, bench.REFUSED}
        stands = bench.tree(target)
        assert stands in ({**kept, **one}, {**kept, **other})
        if codes != [bench.DONE, bench.DONE]:
            winner = one if codes[0] == bench.DONE else other
            assert stands == {**kept, **winner}
        assert bench.strays(target.parent) == []


def test_two_first_runs_at_once_leave_one_packet(tmp_path, request):
    for number in range(200 if request.config.getoption("--full") else 10):
        target = tmp_path / str(number) / "new" / "out"
        children = []
        for text in ("one", "other"):
            child = os.fork()
            if child == 0:
                os._exit(bench.one_run(target, {"a": text, "b/c": text}))
            children.append(child)
        codes = [os.waitstatus_to_exitcode(os.waitpid(each, 0)[1]) for each in children]
        assert bench.DONE in codes
        texts = {text for name, text in bench.tree(target).items() if name != "piece.json"}
        assert len(texts) == 1
        assert bench.strays(tmp_path) == []
