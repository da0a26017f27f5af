"""Pairs that may be one entry: looking at neighbours alone finds what looking at all would."""

from hypothesis import given, settings
from hypothesis import strategies as st

from server.domain.alike import _like, alike
from server.domain.book import Book, Row

HOURS = st.integers(0, 40).map(lambda hour: f"2026-03-{1 + hour // 24:02d}T{hour % 24:02d}:00:00Z")
LITRES = st.sampled_from([0.0, 1.0, 32.9, 33.4, 34.36, 34.4, 40.0, 40.5, 41.0, 41.2, 60.0, 291.0, 300.0])
AUTHORS = st.sampled_from(["a", "b"])


@st.composite
def rows(draw: st.DrawFn, kind: str) -> tuple[Row, ...]:
    out = []
    for n in range(draw(st.integers(0, 12))):
        tank = draw(st.sampled_from(["t", "u"]))
        body = {"at": draw(HOURS), "litres_l": draw(LITRES), "tank_id": tank}
        if kind == "fill":
            lines = [{"tank_id": tank, "litres_l": draw(LITRES)}]
            odometer_km = draw(st.none() | st.integers(998, 1006))
            body = {"at": body["at"], "lines": lines, "odometer_km": odometer_km}
        out.append(Row(f"{kind}{n}", kind, "r", body, draw(st.integers(0, 20)), draw(AUTHORS)))
    return tuple(out)


@settings(max_examples=200, deadline=None)
@given(rows("fill"), rows("water"), rows("transfer"), st.data())
def test_neighbours_are_enough(
    fills: tuple[Row, ...], waters: tuple[Row, ...], transfers: tuple[Row, ...], data: st.DataObject
) -> None:
    ids = [row.id for row in fills] or ["x"]
    pairs = data.draw(st.lists(st.tuples(st.sampled_from(ids), st.sampled_from(ids)), max_size=4))
    kept = tuple(
        Row(f"k{n}", "correction", "r", {"at": "2026-03-05T00:00:00Z", "of_id": one, "other_id": other})
        for n, (one, other) in enumerate(pairs)
    )
    book = Book(None, fills=fills, waters=waters, transfers=transfers, kept=kept)
    answered = {frozenset(pair) for pair in pairs}
    every = []
    for group in (fills, waters, transfers):
        ordered = sorted(group, key=lambda row: (row.order, row.id))
        for n, row in enumerate(ordered):
            for other in reversed(ordered[:n]):
                if frozenset((row.id, other.id)) not in answered and _like(other, row):
                    every.append((other.id, row.id))
                    break
    assert [(one.first_id, one.second_id) for one in alike(book=book)] == every
