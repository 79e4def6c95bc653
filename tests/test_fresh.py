"""Random cases: fresh in each run, the same in all its processes, drawn again by their seed."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest
from hypothesis import strategies as st

from tests.fresh import drawn_by

pytest_plugins = ["pytester"]

HERE = Path(__file__).parent
LAWS = """
    import pytest
    from hypothesis import given, strategies as st
    from tests.fresh import law

    @pytest.mark.seeds(few=3, full=9)
    def test_of_seeds(seed):
        print("drawn", seed)

    @law(few=5, full=11)
    @given(st.integers(10**6, 10**9))
    def test_of_hypothesis(number):
        print("drawn", number)

    def test_that_fails():
        assert False
"""


@pytest.mark.some(few=1)
@pytest.mark.parametrize("where", ["bench", "CI"])
def test_a_run_draws_its_own_cases_and_its_seed_draws_them_again(
    where: str, pytester: pytest.Pytester, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PYTHONPATH", str(HERE.parent))
    monkeypatch.delenv("CI", raising=False)
    if where == "CI":  # hypothesis draws the same cases on every run wherever this is set
        monkeypatch.setenv("CI", "true")
    pytester.makeconftest((HERE / "conftest.py").read_text(encoding="utf-8"))
    pytester.makepyfile(LAWS)

    def drawn(*options: str) -> list[str]:
        done = pytester.runpytest_subprocess("-rA", *options)
        assert done.parseoutcomes()["failed"] == 1
        done.stdout.fnmatch_lines(["*Random cases*", f"*{options[1]}*"])
        return sorted({line for line in done.outlines if line.startswith("drawn ")})

    first = drawn("--seed", "71", "-n", "2")
    assert drawn("--seed", "71") == first
    other = drawn("--seed", "72", "--full")
    assert len(other) > len(first) >= 3 + 2
    assert len(set(first) & set(other)) <= 1, "hypothesis may try the least number in both"


def test_what_else_was_imported_changes_no_case(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    numbers = st.integers(10**6, 10**9)
    first = drawn_by(1, numbers, 200)
    (tmp_path / "only_numbers.py").write_text(f"NUMBERS = {list(range(10**7, 10**7 + 50))}")
    monkeypatch.syspath_prepend(tmp_path)
    importlib.import_module("only_numbers")
    assert drawn_by(1, numbers, 200) == first
