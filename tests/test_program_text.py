"""The reader of words for paper sees a parameter that is named there."""

import pytest

from tests.program_text import program_text


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("make base_depth 300 mm", ["base_depth"]),
        ("put 3 kg in the box (ballast)", ["ballast"]),
        (
            "on a bottom let in (bottom, bottom_fixing)",
            ["bottom_fixing", "bottom", "bottom_fixing"],
        ),
        ("its middle so far back (ballast.from_front)", ["from_front", "ballast", "from_front"]),
        ("it lies loose (lid)", []),
        ("make the base 300 mm deep (as it stands)", []),
    ],
)
def test_a_parameter_is_seen(text: str, named: list[str]) -> None:
    assert program_text(text, {"lid"}) == named
