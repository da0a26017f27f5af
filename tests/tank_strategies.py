"""What hypothesis draws for tanks: models of the filter, events, logs of fuel and of water."""

from typing import Any

from hypothesis import strategies as st
from strategies import number

from server.domain.bank import Bank, bank_advance, bank_prior
from server.domain.entries import ChangeEntry, DipEntry, FillEntry, FillLine, TransferEntry, WaterEntry
from server.domain.events import Change, Event, Fill, Full, Gauge, Level, Missed, Pour, Transfer, Use
from server.domain.filter import Model, Settings
from server.domain.fuel import FUEL_KAPPAS
from server.domain.water import Presence

CLASSES = ("sealed", "gravel", "sand")
TANKS = ("main", "sub")
DAY_S = 86_400.0


@st.composite
def models(draw: st.DrawFn, *, tanks: int | None = None, classes: int | None = None) -> Model:
    """One or two tanks, one to three classes, assumptions about the defaults."""
    some = draw(st.integers(1, 2)) if tanks is None else tanks
    kinds = draw(st.integers(1, 3)) if classes is None else classes
    settings = Settings(
        100.0,
        draw(number(0.1, 0.4)),
        draw(number(0.05, 0.2)),
        draw(number(0.01, 0.1)),
        draw(number(0, 0.04)),
        1000.0,
        100.0,
        draw(number(0.001, 0.03, 3)),
        draw(number(0.3, 2)),
        draw(number(0.02, 0.1)),
    )
    capacity = tuple(draw(number(40, 120, 0)) for _ in range(some))
    rate0 = tuple(draw(number(7, 20, 1)) for _ in range(kinds))
    return Model(TANKS[:some], capacity, CLASSES[:kinds], rate0, settings)


def uses(model: Model) -> st.SearchStrategy[Use]:
    """A way in any class, from any of the tanks."""
    tanks = len(model.tank_ids)
    shares = st.sampled_from([tuple(float(t == u) for u in range(tanks)) for t in range(tanks)])
    return st.builds(Use, number(0, 500, 0), st.sampled_from(model.class_ids), shares)


def events(model: Model) -> st.SearchStrategy[Event]:
    """Anything that may happen to one of the tanks."""
    tank, litres = st.sampled_from(model.tank_ids), number(0, min(model.capacity_l), 0)
    into = st.none() if len(model.tank_ids) == 1 else st.none() | st.just(model.tank_ids[1])
    return st.one_of(
        uses(model),
        st.builds(Fill, tank, litres),
        st.builds(Full, tank.map(lambda one: (one,))),
        st.builds(Gauge, tank, number(0, 1)),
        st.builds(Level, tank, litres, number(0.5, 5)),
        st.builds(Missed, tank),
        st.builds(Transfer, st.just("main"), into, litres, number(0, 1)),
        st.builds(Pour, st.just("main"), into),
        st.builds(Change, number(0.05, 0.3)),
    )


@st.composite
def banks(draw: st.DrawFn, **kind: Any) -> Bank:
    """A bank that has been through a few tanks and has just been filled."""
    model = draw(models(**kind))
    bank = bank_prior(model=model, kappas=FUEL_KAPPAS)
    steps: list[Event] = [Full(model.tank_ids)]
    for _ in range(draw(st.integers(0, 3))):
        use = draw(uses(model))
        rate = model.rate0[model.class_ids.index(use.class_id)] * draw(number(0.7, 1.4))
        put_in = [
            Fill(t, use.amount * rate / 100 * share) for t, share in zip(TANKS, use.shares, strict=False)
        ]
        steps += [
            use,
            *(one for one in put_in if one.litres_l < min(model.capacity_l)),
            Full(model.tank_ids),
        ]
    for one in steps:
        bank = bank_advance(bank=bank, event=one)
    return bank


@st.composite
def mixes(draw: st.DrawFn, model: Model) -> dict[str, float]:
    """Shares of the model's classes."""
    raw = [draw(st.integers(1, 20)) for _ in model.class_ids]
    return {name: share / sum(raw) for name, share in zip(model.class_ids, raw, strict=True)}


@st.composite
def fuel_entries(draw: st.DrawFn, *, most: int = 10, steady: bool = False) -> list[Any]:
    """A log of an 80 L tank at 11 L/100 km; unless `steady` also with dips, cans, gaps and typing errors."""
    entries: list[Any] = []
    odometer, level = 1000.0, 80.0
    for n in range(draw(st.integers(0, most))):
        way = draw(number(50, 380, 0))
        odometer, level = odometer + way, level - way * 0.11
        at = (
            f"e{n:02}",
            n * DAY_S,
            n,
            odometer if steady else draw(st.sampled_from([odometer] * 6 + [None, 10 * odometer])),
        )
        kind = "fill" if steady else draw(st.sampled_from(["fill", "fill", "fill", "dip", "transfer"]))
        if kind == "dip":
            entries.append(DipEntry(*at, "main", level=draw(number(0, 1))))
        elif kind == "transfer":
            entries.append(TransferEntry(*at, "can", "main", draw(number(0, 30, 0))))
        else:
            full = level < 45 or draw(st.booleans())
            litres = 80 - level if full else draw(number(1, 50, 0))
            typed = litres if steady else litres * draw(st.sampled_from([1.0] * 8 + [0.1, 10.0]))
            level = min(level + litres, 80.0)
            missed = not steady and draw(st.sampled_from([False] * 9 + [True]))
            entries.append(FillEntry(*at, (FillLine("main", round(typed, 2), full),), missed_before=missed))
    return entries


@st.composite
def water_entries(draw: st.DrawFn, *, most: int = 10) -> list[Any]:
    """Fills, draws and levels of a 90 L tank, in order of time."""
    entries: list[Any] = []
    for n in range(draw(st.integers(0, most))):
        at, litres = n * DAY_S / 2, draw(number(1, 60, 0))
        if draw(st.sampled_from([True] + [False] * 9)):
            entries.append(ChangeEntry(f"w{n:02}", at, n, None, rate_u=draw(number(0, 1))))
        elif draw(st.booleans()):
            entries.append(DipEntry(f"w{n:02}", at, n, None, "fresh", level=draw(number(0, 1))))
        else:
            action = draw(st.sampled_from(["fill", "fill", "draw", "dump"]))
            word = draw(st.sampled_from(["yes", "unknown", "no"]))
            entries.append(WaterEntry(f"w{n:02}", at, n, "fresh", action, litres, drinkable=word))
    return entries


@st.composite
def presences(draw: st.DrawFn) -> tuple[Presence, ...]:
    """Up to four people who come and go."""
    out = []
    for _ in range(draw(st.integers(0, 4))):
        start = draw(number(-2, 8, 1)) * DAY_S
        end = draw(st.none() | number(0, 9, 1).map(lambda days, start=start: start + days * DAY_S))
        out.append(Presence(draw(number(0, 1)), start, end))
    return tuple(out)
