"""The browser's list of units is the server's: the same words, dimensions and factors."""

import re
from pathlib import Path

import pytest

from server import units

SOURCE = Path(__file__).resolve().parents[2] / "web" / "src" / "units" / "units.ts"
LINE = re.compile(r'^  "?([\w/%]+)"?: \{ dimension: "(\w+)", factor: ([\d.]+) \},$', re.MULTILINE)


@pytest.fixture(scope="module")
def listed() -> dict[str, tuple[str, float]]:
    """Word -> dimension and factor, as the browser's source spells them."""
    return {word: (dimension, float(factor)) for word, dimension, factor in LINE.findall(SOURCE.read_text())}


def test_the_words_are_the_same(listed: dict[str, tuple[str, float]]) -> None:
    assert {word: dimension for word, (dimension, _) in listed.items()} == {
        word: dimension for dimension in units.BASE_UNITS for word in units.units_of(dimension)
    }


def test_the_factors_are_the_same(listed: dict[str, tuple[str, float]]) -> None:
    for word, (_, factor) in listed.items():
        assert factor == pytest.approx(units.factor(word), rel=1e-14), word
