"""Nothing public of the product is there for tests alone."""

from __future__ import annotations

from tests.reached import defined, reached

FOR_PROGRAMS = {
    ("exporters.sheets.sheets", "sheets_of_parts"): "parts alone, without the whole set's work",
    ("exporters.sheets.sheets", "tasks_of"): "one sheet of a set alone, where laws begin",
    ("furniture.solids.make", "forget_solids"): "what a long run of many pieces calls",
}
"""What no script of models/ reaches, and why it stays."""
RECORDS = ("furniture.reference", "exporters.reference")
"""Modules that are run by themselves."""


def test_every_public_function_of_the_product_is_reached_from_a_script_or_says_why() -> None:
    unreached = {
        (module, name)
        for module, name in defined() - reached()
        if module not in RECORDS and not name.startswith("_")
    }
    assert unreached == set(FOR_PROGRAMS)
