"""The table of agreement itself: it is fresh, wide enough, and hides nothing."""

from __future__ import annotations

from collections import Counter

from tests.published.agreement import TABLE, all_cases, comparable, table_of_agreement
from tests.published.case import How


def test_committed_table_is_fresh() -> None:
    committed = comparable(TABLE.read_text(encoding="utf-8"))
    assert committed == comparable(table_of_agreement()), (
        "AGREEMENT.md is stale: run python -m tests.published"
    )


def test_ids_are_unique() -> None:
    twice = [each for each, count in Counter(case.id for case in all_cases()).items() if count > 1]
    assert twice == []


def test_there_are_enough_published_values_and_sources() -> None:
    published = [case for case in all_cases() if case.how is not How.LIBRARY]
    assert len(published) >= 60
    assert len({case.source for case in published}) >= 12


def test_most_published_values_were_read_and_not_remembered() -> None:
    published = [case for case in all_cases() if case.how is not How.LIBRARY]
    assert sum(case.how is How.MEMORY for case in published) < len(published) / 4


def test_every_case_says_where_it_comes_from() -> None:
    for case in all_cases():
        assert case.source, case.id
        assert case.place, case.id
        assert case.reason, case.id
