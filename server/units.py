"""Text and unit to SI float and back: the only file that knows pint.

Units come from a fixed list. Free text never reaches pint's parser, which would evaluate an expression such
as a huge power.
"""

import re
from functools import cache

import pint

BASE_UNITS = {
    "mass": "kg",
    "length": "m",
    "volume": "L",
    "distance": "km",
    "fraction": "1",
    "density": "kg/L",
    "moment": "kgm",
    "temperature": "C",
    "angle": "deg",
}

# our word for the unit -> (dimension, pint's name)
_UNITS = {
    "kg": ("mass", "kilogram"),
    "t": ("mass", "metric_ton"),
    "g": ("mass", "gram"),
    "lb": ("mass", "pound"),
    "m": ("length", "meter"),
    "cm": ("length", "centimeter"),
    "mm": ("length", "millimeter"),
    "ft": ("length", "foot"),
    "in": ("length", "inch"),
    "L": ("volume", "liter"),
    "mL": ("volume", "milliliter"),
    "gal_us": ("volume", "gallon"),
    "gal_imp": ("volume", "imperial_gallon"),
    "km": ("distance", "kilometer"),
    "mi": ("distance", "mile"),
    "1": ("fraction", "dimensionless"),
    "%": ("fraction", "percent"),
    "kg/L": ("density", "kilogram / liter"),
    "deg": ("angle", "degree"),
    "kgm": ("moment", "kilogram_force * meter"),
    "Nm": ("moment", "newton * meter"),
    "C": ("temperature", "degree_Celsius"),
}

_SUFFIXES = {
    "_kg_per_l": "density",
    "_kgm": "moment",
    "_kg": "mass",
    "_deg": "angle",
    "_m": "length",
    "_l": "volume",
    "_km": "distance",
    "_c": "temperature",
    "level": "fraction",
    "level_u": "fraction",
}

_DIGITS = re.compile(r"-?[0-9]{1,15}(\.[0-9]{1,12})?")


class UnitError(ValueError):
    """Digits or a unit that are not of the agreed form."""


@cache
def _registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry(cache_folder=None)


@cache
def dimension_of(field: str) -> str | None:
    """The dimension that a field's name ends in, or None for a bare number."""
    return next((dim for suffix, dim in _SUFFIXES.items() if field == suffix or field.endswith(suffix)), None)


@cache
def units_of(dimension: str) -> tuple[str, ...]:
    """All unit words of one dimension, the base unit first."""
    words = [word for word, (dim, _) in _UNITS.items() if dim == dimension]
    return tuple(sorted(words, key=lambda word: word != BASE_UNITS[dimension]))


@cache
def factor(unit: str) -> float:
    """How many base units one `unit` is."""
    if unit not in _UNITS:
        raise UnitError(f"unit {unit!r} is not one of {', '.join(_UNITS)}")
    dimension, name = _UNITS[unit]
    base = _UNITS[BASE_UNITS[dimension]][1]
    return float(_registry().Quantity(1.0, name).to(base).magnitude)


def to_base(digits: str, unit: str, dimension: str) -> float:
    """The base value of digits as typed, in the base unit of `dimension`."""
    if not _DIGITS.fullmatch(digits):
        raise UnitError(f"digits {digits!r} must be a plain decimal number of at most 15 digits with a point")
    if unit not in units_of(dimension):
        raise UnitError(f"unit {unit!r} must be one of {', '.join(units_of(dimension))}")
    return float(digits) * factor(unit)
