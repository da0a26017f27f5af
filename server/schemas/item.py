"""An item: a part that is bolted on, or a load that may be moved or left."""

from marshmallow import fields, validate

from .base import PlanRecord, Strict
from .fields import Choice, Day, Flag, Id, Quantity, Text, Whole


class Slot(Strict):
    """A place that an item may move to."""

    label = Text(40)
    trailer_id = Id(allow_none=True)
    roof = Flag()
    x_m = Quantity(-3, 20, unit="m", required=True)
    y_m = Quantity(-2, 2, unit="m")
    z_m = Quantity(0, 5, unit="m")


class Item(PlanRecord):
    """One line of the build; `taken_off` marks what was removed from the vehicle as delivered."""

    name = Text(80, shortest=1, required=True)
    nature = Choice("part", "load", required=True)
    mass_kg = Quantity(0, 10_000, unit="kg")
    mass_u_kg = Quantity(0, 5_000, unit="kg")
    known_by = Choice("weighed", "data_sheet", "similar", "estimate")
    count = Whole(1, 1_000)
    weighed_singly = Flag()
    taken_off = Flag()
    roof = Flag()
    trailer_id = Id(allow_none=True)
    x_m = Quantity(-3, 20, unit="m")
    x_u_m = Quantity(0, 5, unit="m")
    y_m = Quantity(-2, 2, unit="m")
    y_u_m = Quantity(0, 2, unit="m")
    z_m = Quantity(0, 5, unit="m")
    z_u_m = Quantity(0, 2, unit="m")
    position_by = Choice("measured", "described")
    stage = Choice("fitted", "on_order", "removed")
    fitted_on = Day(allow_none=True)
    removed_on = Day(allow_none=True)
    may_move_to = fields.List(fields.Nested(Slot), validate=validate.Length(max=12))
    may_stay_behind = Flag(allow_none=True)
    keep_aboard = Flag(allow_none=True)
    article_id = Id(allow_none=True)
