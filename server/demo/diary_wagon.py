"""Eight months of the long wagon: weighed without the children, who join for four weeks of the road."""

from .diary import Board, Dip, Drive, Fill, Moment, Stand, Visit, Water

_BOTH: tuple[tuple[str, float | None], ...] = (("sub", None), ("main", None))

_TAPS = (
    # day, source, drinkable
    (60, "mains", "yes"),
    (57, "mains", "yes"),
    (54, "mains", "yes"),
    (51, "bore", "no"),
    (48, "mains", "yes"),
    (45, "mains", "yes"),
    (42, "rain", "unknown"),
    (40, "mains", "yes"),
    (38, "mains", "yes"),
    (36, "mains", "yes"),
    (34, "mains", "yes"),
    (32, "bore", "yes"),
    (30, "mains", "yes"),
    (28, "mains", "yes"),
    (26, "mains", "yes"),
    (24, "mains", "yes"),
    (22, "rain", "yes"),
    (20, "mains", "yes"),
    (18, "mains", "yes"),
    (16, "mains", "yes"),
    (14, "mains", "yes"),
    (11, "mains", "yes"),
    (8, "mains", "yes"),
    (4, "mains", "yes"),
    (2, "mains", "yes"),
)

_BEFORE: tuple[Moment, ...] = (
    Board(day=229, at="17:00", subject="person", key="anneke", aboard=False),
    Board(day=229, at="17:01", subject="person", key="pip", aboard=False),
    Board(day=229, at="17:05", subject="item", key="Bodyboards and balls", aboard=False, why="left"),
    Stand(
        day=228, at="08:00", odometer_km=96_120, levels={"main": 0.5, "sub": 0, "water": 0.4, "reserve": 1}
    ),
    Visit(day=228, at="11:05", bridge="quillabar", stops=("front", "whole", "rear")),
    Stand(
        day=140, at="07:00", odometer_km=101_890, levels={"main": 0.6, "sub": 0, "water": 0.2, "reserve": 1}
    ),
    Visit(day=140, at="14:25", bridge="ombarra", stops=("front", "rear")),
    Stand(
        day=75, at="07:00", odometer_km=107_240, levels={"main": 0.7, "sub": 0, "water": 0.5, "reserve": 1}
    ),
    Visit(day=75, at="09:50", bridge="quillabar", stops=("whole",)),
    Stand(
        day=60, at="06:30", odometer_km=108_033, levels={"main": 0.5, "sub": 0, "water": 0.3, "reserve": 1}
    ),
)

_ROAD: tuple[Moment, ...] = (
    Fill(day=60, at="08:10", into=_BOTH, place="Quillabar"),
    Drive(day=60, at="14:00", km=290),
    Drive(day=58, at="15:00", km=240, gravel=0.4),
    Fill(day=57, at="09:00", into=_BOTH, place="Marl Siding"),
    Drive(day=55, at="16:00", km=330),
    Drive(day=53, at="13:00", km=180, gravel=0.8),
    Fill(day=53, at="13:30", into=(("sub", 25.0),), place="Kettle Rise"),
    Drive(day=51, at="16:20", km=150, gravel=0.5, sand=0.3),
    Fill(day=50, at="10:40", into=_BOTH, place="Tansell Roadhouse"),
    Drive(day=48, at="14:00", km=270),
    Drive(day=46, at="15:10", km=210, gravel=0.6),
    Fill(day=45, at="09:30", into=_BOTH, place="Yarrowick"),
    Drive(day=43, at="15:30", km=320, gravel=0.1),
    Drive(day=42, at="12:00", km=140, gravel=1),
    Fill(day=41, at="10:00", into=_BOTH, place="Dray Flat", unlogged=True),
    Board(day=40, at="09:00", subject="person", key="anneke", aboard=True),
    Board(day=40, at="09:01", subject="person", key="pip", aboard=True),
    Board(day=40, at="09:10", subject="item", key="Bodyboards and balls", aboard=True),
    Drive(day=40, at="15:00", km=200),
    Fill(day=39, at="08:45", into=_BOTH, place="Dunmeral", missed_before=True),
    Drive(day=37, at="14:20", km=260, gravel=0.3),
    Drive(day=35, at="16:00", km=120, gravel=0.4, sand=0.4),
    Fill(day=34, at="11:00", into=(("sub", None),), place="Tansell Roadhouse"),
    Drive(day=32, at="15:00", km=300),
    Drive(day=30, at="13:40", km=180, gravel=0.7),
    Fill(day=29, at="09:15", into=_BOTH, place="Marl Siding"),
    Drive(day=27, at="14:00", km=250),
    Dip(day=26, at="08:20", tank="sub", struck_out="Read while the pump between the tanks was running."),
    Drive(day=25, at="15:45", km=160, gravel=0.9),
    Fill(day=24, at="10:05", into=_BOTH, place="Kettle Rise", late_days=2),
    Drive(day=22, at="16:10", km=280, gravel=0.2),
    Drive(day=20, at="15:00", km=130, gravel=0.4, sand=0.5),
    Fill(day=19, at="09:50", into=_BOTH, place="Tansell Roadhouse"),
    Drive(day=17, at="15:20", km=310),
    Drive(day=15, at="13:00", km=200, gravel=0.5),
    Fill(day=14, at="12:00", into=(("sub", 30.0),), place="Yarrowick"),
    Drive(day=13, at="11:30", km=120),
    Board(day=12, at="10:00", subject="person", key="anneke", aboard=False),
    Board(day=12, at="10:01", subject="person", key="pip", aboard=False),
    Board(day=12, at="10:15", subject="item", key="Bodyboards and balls", aboard=False, why="left"),
    Fill(day=12, at="16:30", into=_BOTH, place="Quillabar"),
    Drive(day=10, at="15:00", km=340),
    Drive(day=8, at="13:30", km=150, gravel=0.6),
    Visit(
        day=6,
        at="10:15",
        bridge="dunmeral",
        stops=("front", "whole", "rear"),
        struck_out={"rear": "It rolled on while the figure was read; weighed again."},
    ),
    Fill(day=5, at="09:20", into=(("main", None),), place="Dunmeral"),
    Drive(day=4, at="14:30", km=190, gravel=0.4),
    Dip(day=3, at="08:10", tank="water"),
    Drive(day=2, at="15:15", km=110, sand=0.2),
    Fill(day=1, at="09:40", into=_BOTH, place="Ombarra Junction"),
    Dip(day=1, at="17:30", tank="water"),
    Water(day=1, at="20:05", tank="reserve", action="dump"),
    Water(day=1, at="20:10", tank="reserve"),
)

DIARY = (
    *_BEFORE,
    *_ROAD,
    *(Water(day=day, at="07:40", tank="water", source=source, drinkable=good) for day, source, good in _TAPS),
)
