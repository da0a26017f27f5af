"""Figures as somebody typed them: digits and unit beside the base value that they stand for."""

from typing import Any

# the demo's own few factors; the server checks each pair against its table
_FACTORS = {
    "kg": 1.0,
    "t": 1000.0,
    "m": 1.0,
    "cm": 0.01,
    "mm": 0.001,
    "L": 1.0,
    "km": 1.0,
    "%": 0.01,
    "1": 1.0,
}


def base_of(text: str) -> float:
    """The base value of a figure such as "2.84 t"."""
    digits, unit = text.split()
    return float(f"{float(digits) * _FACTORS[unit]:.12g}")  # 95 % is 0.95, not 0.9500000000000001


def typed(**texts: str | None) -> dict[str, Any]:
    """Fields of a record from texts such as mass_kg="2.84 t", with `as_typed`; None leaves the field out."""
    given = {name: text for name, text in texts.items() if text is not None}
    fields: dict[str, Any] = {name: base_of(text) for name, text in given.items()}
    if given:
        fields["as_typed"] = {name: text.split() for name, text in given.items()}
    return fields
