"""Weighed and driven with a trailer on: the long wagon at both ends of its road, the high van for a few days."""

from collections.abc import Mapping

from .diary import Board, Moment, Stand, Visit, Water

_WAGON: tuple[Moment, ...] = (
    # alone and without the children, on the bridge with the finest steps: what the trailer adds is seen later
    Stand(
        day=71, at="07:00", odometer_km=107_380, levels={"main": 0.6, "sub": 0, "water": 0.5, "reserve": 1}
    ),
    Visit(day=71, at="10:30", bridge="ombarra", stops=("front", "whole", "rear")),
    Board(day=70, at="09:00", subject="trailer", key="camp", aboard=True),
    Stand(
        day=69,
        at="07:00",
        odometer_km=107_610,
        levels={"main": 0.5, "sub": 0, "water": 0.5, "reserve": 1, "trailer_water": 0.8},
    ),
    Visit(day=69, at="11:40", bridge="quillabar", stops=("everything",)),
    Board(day=67, at="16:00", subject="trailer", key="camp", aboard=False),
    # coupled again for the last days, and still on today
    Board(day=5, at="10:30", subject="trailer", key="camp", aboard=True),
    Water(day=5, at="10:50", tank="trailer_water"),
    Visit(day=1, at="08:20", bridge="ombarra", stops=("front", "whole", "everything", "alone")),
)

_VAN: tuple[Moment, ...] = (
    Board(day=27, at="12:00", subject="trailer", key="boats", aboard=True),
    Water(day=27, at="12:10", tank="trailer_water", litres=20),
    Visit(day=27, at="12:40", bridge="dunmeral", stops=("everything",)),
    Water(day=25, at="18:30", tank="trailer_water", action="draw", litres=12, place="for the cooking"),
    Board(day=24, at="10:00", subject="trailer", key="boats", aboard=False),
)

DIARIES: Mapping[str, tuple[Moment, ...]] = {"wagon": _WAGON, "van": _VAN}
