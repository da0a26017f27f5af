"""What is refused says what is wrong, what is allowed, and the way out."""

import math
import re

import pytest

from server.domain.errors import (
    DomainError,
    Duplicate,
    NotFixed,
    NotKnown,
    OutOfRange,
    Redundant,
    Unknown,
    check_finite,
    check_range,
)


@pytest.mark.parametrize(
    "value", [math.nan, math.inf, -math.inf, 1e31, 10**400, "12", b"12", True, None, [1.0], {}, 1j]
)
def test_what_is_no_number(value: object) -> None:
    with pytest.raises(DomainError) as caught:
        check_finite("mass_kg", value)
    assert caught.value.code == "not_finite"
    assert "mass_kg" in str(caught.value) and "a finite number" in str(caught.value)


@pytest.mark.parametrize(
    ("value", "bounds", "words"),
    [
        (-1.0, {"low": 0.0}, "at least 0 kg"),
        (2.0, {"low": 0.0, "high": 1.0}, "at least 0 and at most 1 kg"),
        (0.0, {"above": 0.0}, "above 0 kg"),
        (3.0, {"high": 2.0}, "at most 2 kg"),
        (1.0, {"above": 0.0, "below": 1.0}, "above 0 and below 1 kg"),
    ],
)
def test_what_is_out_of_range(value: float, bounds: dict[str, float], words: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        check_range("mass_kg", value, unit="kg", **bounds)
    assert caught.value.allowed == words
    assert (
        str(caught.value) == f"mass_kg is {value:g}, but allowed is {words}. Correct the value or its unit."
    )


@pytest.mark.parametrize(
    ("value", "high", "words"),
    [
        (200_000.01, 200_000.0, "load_kg is 200000.01, but allowed is at most 200000 kg."),
        (1 + 1e-12, 1.0, "load_kg is 1.000000000001, but allowed is at most 1 kg."),
        (90.0, 1.1 * 80, "load_kg is 90, but allowed is at most 88 kg."),
    ],
)
def test_what_lies_just_beyond_does_not_look_like_the_bound(value: float, high: float, words: str) -> None:
    with pytest.raises(OutOfRange, match=re.escape(words)):
        check_range("load_kg", value, high=high, unit="kg")


def test_bounds_belong_to_the_range() -> None:
    assert check_range("level", 0, low=0.0, high=1.0) == 0.0
    assert check_range("level", 1, low=0.0, high=1.0) == 1.0


def test_each_error_has_its_code_and_derives_from_a_built_in() -> None:
    errors = [
        OutOfRange("x", 1.0, 2.0),
        NotKnown("x", "the test"),
        Unknown("x", "c", ["a", "b"]),
        Duplicate("x", "a"),
        NotFixed("axles", "front"),
        Redundant(),
    ]
    assert [one.code for one in errors] == [
        "out_of_range",
        "not_known",
        "unknown",
        "duplicate",
        "not_fixed",
        "redundant",
    ]
    assert all(isinstance(one, ValueError) and one.field and one.allowed in str(one) for one in errors)
    assert isinstance(errors[-1], ArithmeticError)
    assert "a, b" in str(errors[2])
