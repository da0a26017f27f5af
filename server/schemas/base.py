"""What every record has in common: strict names, and figures kept as they were typed."""

import math
from collections.abc import Mapping
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, validate, validates_schema

from server import units

from .fields import Flag, Id, Instant, Quantity, Text, Zone

_RELATIVE = 1e-9  # how far a base value may be from its digits and unit


class Strict(Schema):
    """A schema that refuses names it does not know."""

    class Meta:
        unknown = RAISE

    @validates_schema(skip_on_field_errors=True)
    def _fields_fit_together(self, data: Mapping[str, Any], **_: Any) -> None:
        errors = self.together(data)
        if errors:
            raise ValidationError(errors)

    def together(self, data: Mapping[str, Any]) -> dict[str | int, Any]:
        """What is wrong between fields that fit each by itself: field -> sentences or places within it."""
        return {}


class Typed(Strict):
    """A schema whose figures may carry the digits and the unit in which somebody typed them."""

    as_typed = fields.Dict(
        keys=fields.String(),
        values=fields.List(Text(24, shortest=1), validate=validate.Length(equal=2)),
        metadata={"description": "field -> [digits with a decimal point, unit]: a typed figure's evidence"},
    )

    @validates_schema(skip_on_field_errors=True)
    def _typed_figures_agree(self, data: Mapping[str, Any], **_: Any) -> None:
        errors: dict[str, list[str]] = {}
        for name, (digits, unit) in (data.get("as_typed") or {}).items():
            wrong = self.disagreement(name, digits, unit, data)
            if wrong:
                errors[name] = [wrong]
        if errors:
            raise ValidationError({"as_typed": errors})

    def disagreement(self, name: str, digits: str, unit: str, data: Mapping[str, Any]) -> str | None:
        """What is wrong with the digits and the unit of one figure, or None."""
        field = self.fields.get(name)
        if not isinstance(field, Quantity):
            return f"{name} is not a figure of this record."
        dimension = units.dimension_of(name) or "fraction"
        try:
            base = units.to_base(digits, unit, dimension)
        except units.UnitError as error:
            return f"{error}."
        value = data.get(name)
        if value is None or not math.isclose(value, base, rel_tol=_RELATIVE, abs_tol=1e-12):
            return f"{digits} {unit} is {base:.12g}, but {name} says {value}."
        return None


class PlanRecord(Typed):
    """A record of the plan: edited field by field, each edit a revision."""

    deleted = Flag(metadata={"description": "taken out of the plan; its versions stay"})
    note = Text(2000)


class LogEntry(Typed):
    """An entry of the log: inserted once, never changed."""

    at = Instant(required=True, metadata={"format": "date-time", "description": "when it happened"})
    zone = Zone(required=True)
    corrects = Id(allow_none=True, metadata={"description": "the entry that this one replaces"})
    reason = Text(500)
    note = Text(2000)


class Place(Strict):
    """Where something happened; coordinates only when the user gave them."""

    name = Text(80, allow_none=True)
    latitude_deg = Quantity(-90, 90)
    longitude_deg = Quantity(-180, 180)


def odometer() -> Quantity:
    """The odometer as it reads, not corrected; blank is not known."""
    return Quantity(0, 5_000_000, unit="km")
