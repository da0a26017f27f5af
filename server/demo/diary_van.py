"""Eight months of the high van, logged on two phones. Two entries still wait for a correction: one stop is in
the log twice, and one odometer figure runs backwards."""

from .diary import Board, Dip, Drive, Fill, Moment, Stand, Visit, Water

_FULL: tuple[tuple[str, float | None], ...] = (("main", None),)

_TAPS = (
    # day, source, drinkable, who writes it down
    (60, "mains", "yes", "jelka"),
    (56, "mains", "yes", "minnow"),
    (52, "mains", "yes", "minnow"),
    (48, "mains", "yes", "jelka"),
    (45, "bought", "yes", "jelka"),
    (42, "mains", "yes", "minnow"),
    (39, "mains", "yes", "minnow"),
    (36, "rain", "unknown", "minnow"),
    (33, "mains", "yes", "jelka"),
    (30, "mains", "yes", "minnow"),
    (27, "mains", "yes", "jelka"),
    (24, "mains", "yes", "minnow"),
    (21, "mains", "yes", "minnow"),
    (18, "mains", "yes", "jelka"),
    (15, "mains", "yes", "minnow"),
    (11, "mains", "yes", "jelka"),
    (7, "mains", "yes", "minnow"),
    (3, "mains", "yes", "jelka"),
)

_BEFORE: tuple[Moment, ...] = (
    Board(day=211, at="18:00", subject="person", key="ottilie", aboard=False),
    Board(day=211, at="18:03", subject="item", key="Bicycles, two", aboard=False, why="left"),
    Stand(day=210, at="08:00", odometer_km=22_410, levels={"main": 0.6, "water": 0.5, "grey": 0}),
    Visit(day=210, at="13:30", bridge="dunmeral", stops=("front", "whole", "rear")),
    Board(day=112, at="18:00", subject="item", key="Bicycles, two", aboard=True),
    Stand(day=110, at="07:00", odometer_km=27_965, levels={"main": 0.9, "water": 1, "grey": 0}),
    Visit(day=110, at="10:10", bridge="quillabar", stops=("whole",)),
    Stand(day=60, at="06:30", odometer_km=31_702, levels={"main": 0.3, "water": 0.2, "grey": 0.5}),
)

_ROAD: tuple[Moment, ...] = (
    Fill(day=60, at="09:00", into=_FULL, place="Ombarra Junction"),
    Drive(day=59, at="15:00", km=260),
    Drive(day=57, at="13:00", km=180, gravel=0.2),
    Fill(day=56, at="10:30", into=_FULL, place="Dunmeral", by="minnow"),
    Drive(day=54, at="16:00", km=310, gravel=0.1),
    Fill(day=53, at="11:00", into=(("main", 20.0),), place="Marl Siding"),
    Drive(day=51, at="14:00", km=230, gravel=0.3),
    Fill(day=50, at="09:30", into=_FULL, place="Quillabar"),
    Drive(day=48, at="15:30", km=280),
    Board(day=45, at="16:00", subject="person", key="ottilie", aboard=True, by="minnow"),
    Drive(day=44, at="14:10", km=150, gravel=0.6),
    Fill(day=43, at="10:15", into=_FULL, place="Yarrowick", by="minnow"),
    Drive(day=41, at="15:00", km=340),
    Fill(day=40, at="08:50", into=_FULL, place="Kettle Rise", unlogged=True),
    Drive(day=38, at="13:30", km=220, gravel=0.2),
    Fill(day=37, at="12:00", into=_FULL, place="Dray Flat", missed_before=True),
    Drive(day=35, at="16:20", km=300),
    Drive(day=33, at="12:40", km=110, gravel=0.5, sand=0.1),
    Fill(day=32, at="10:00", into=_FULL, place="Ombarra Junction", by="minnow", late_days=5),
    Drive(day=30, at="15:10", km=270, gravel=0.1),
    Dip(day=29, at="18:00", tank="main"),
    Drive(day=28, at="14:00", km=160, gravel=0.4),
    Fill(day=27, at="11:20", into=_FULL, place="Dunmeral"),
    Drive(day=25, at="15:00", km=320),
    Fill(day=24, at="09:10", into=(("main", 20.0),), place="Marl Siding", by="minnow"),
    Drive(day=22, at="13:00", km=190, gravel=0.3),
    Visit(day=20, at="09:45", bridge="dunmeral", stops=("front", "rear")),
    Fill(day=19, at="10:40", into=_FULL, place="Dunmeral"),
    Drive(day=17, at="15:50", km=290, gravel=0.1),
    Fill(day=16, at="10:20", into=_FULL, place="Yarrowick", again_by="minnow"),
    Board(day=15, at="11:00", subject="person", key="ottilie", aboard=False, why="left"),
    Drive(day=14, at="14:30", km=210, gravel=0.4),
    Fill(day=13, at="09:00", into=_FULL, place="Kettle Rise", by="minnow"),
    Drive(day=11, at="15:00", km=330),
    Fill(day=9, at="10:50", into=_FULL, place="Quillabar", odometer_slip_km=-9_000),
    Drive(day=8, at="14:00", km=170, gravel=0.2),
    Fill(day=6, at="09:35", into=_FULL, place="Marl Siding", by="minnow"),
    Drive(day=5, at="16:00", km=240),
    Visit(day=4, at="11:10", bridge="ombarra", stops=("front", "whole", "rear")),
    Fill(day=3, at="10:00", into=_FULL, place="Ombarra Junction"),
    Drive(day=2, at="13:20", km=130, gravel=0.5),
    Fill(day=1, at="12:15", into=_FULL, place="Dray Flat"),
    Dip(day=1, at="18:30", tank="water", by="minnow"),
)

DIARY = (
    *_BEFORE,
    *_ROAD,
    *(
        Water(day=day, at="07:30", tank="grey", action="dump", drinkable="no", by=by)
        for day, _, _, by in _TAPS
    ),
    *(
        Water(day=day, at="08:00", tank="water", source=source, drinkable=good, by=by)
        for day, source, good, by in _TAPS
    ),
)
