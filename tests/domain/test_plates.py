"""Plates: a later one replaces only what it states, the least binds, and no plate makes another one void."""

from hypothesis import given
from hypothesis import strategies as st
from strategies import number

from server.domain.book import Row
from server.domain.plates import FIELDS, Rating, changes_by, ratings_on, stated_by

DAY = "2026-06-30"


@st.composite
def plates(draw: st.DrawFn, name: str, order: int) -> Row:
    """A plate of anything, from any day of a half-year or none, in force or planned."""
    figures = draw(st.dictionaries(st.sampled_from(list(FIELDS.values())), number(100, 4000), max_size=4))
    tyres = {
        "tyre_load_index": draw(st.none() | st.integers(55, 135)),
        "tyre_axle": draw(st.none() | st.sampled_from(["front", "rear", "both", "trailer"])),
    }
    body = {
        "of": draw(st.sampled_from(["vehicle", "towbar", "trailer", "tyres"])),
        "date_from": draw(st.none() | st.integers(1, 9).map(lambda month: f"2026-0{month}-01")),
        "standing": draw(st.sampled_from(["in_force", "in_force", "planned"])),
        "trailer_id": draw(st.sampled_from([None, None, "t"])),
    }
    return Row(name, "plate", name, body | tyres | figures, order)


sets = st.integers(1, 6).flatmap(lambda n: st.tuples(*(plates(f"p{k}", k) for k in range(n))))


def limits(found: tuple[Rating, ...]) -> dict[str, float | None]:
    return {one.rating: one.limit_kg for one in found}


@given(sets)
def test_each_rating_is_the_least_of_what_binds_it(drawn: tuple[Row, ...]) -> None:
    for one in ratings_on(plates=drawn, day=DAY, trailer_id="t"):
        values = [kg for _, kg in one.also]
        assert values == sorted(values)
        assert one.limit_kg == (values[0] if values else None)
        assert one.plate_id == (one.also[0][0] if one.also else None)
        stating = {row.id: stated_by(plate=row.body).get(one.rating) for row in drawn}
        assert all(stating[name] == kg for name, kg in one.also)


@given(sets)
def test_the_order_of_the_list_does_not_matter(drawn: tuple[Row, ...]) -> None:
    assert ratings_on(plates=drawn, day=DAY) == ratings_on(plates=drawn[::-1], day=DAY)


@given(sets)
def test_a_trailer_never_raises_a_rating(drawn: tuple[Row, ...]) -> None:
    alone, towing = (limits(ratings_on(plates=drawn, day=DAY, trailer_id=one)) for one in (None, "t"))
    for rating, kg in alone.items():
        after = towing[rating]
        assert kg is None or (after is not None and after <= kg)


@given(sets)
def test_what_the_plates_changed_adds_up_to_what_is_in_force(drawn: tuple[Row, ...]) -> None:
    """The last plate in force leaves the ratings as they are at the end."""
    counting = [row for row in drawn if row.body["standing"] == "in_force"]
    last = max(counting, key=lambda row: (row.body["date_from"] or "", row.order), default=None)
    if last is not None:
        after = tuple(one.after for one in changes_by(plates=drawn, plate_id=last.id, trailer_id="t"))
        assert after == ratings_on(plates=drawn, day="2026-12-31", trailer_id="t")


@given(sets)
def test_a_what_if_is_what_its_plate_would_change(drawn: tuple[Row, ...]) -> None:
    for row in drawn:
        if row.body["standing"] == "planned" and row.body["trailer_id"] is None:
            found = changes_by(plates=drawn, plate_id=row.id, day=DAY)
            assert tuple(one.before for one in found) == ratings_on(plates=drawn, day=DAY)
            assert tuple(one.after for one in found) == ratings_on(plates=drawn, day=DAY, planned=[row.id])


@given(sets)
def test_a_plate_changes_only_what_it_states(drawn: tuple[Row, ...]) -> None:
    for row in drawn:
        for one in changes_by(plates=drawn, plate_id=row.id):
            assert one.stated_kg is not None or not one.changed
            assert one.changed == (one.before.limit_kg != one.after.limit_kg)


@given(sets)
def test_a_higher_gross_raises_nothing_else(drawn: tuple[Row, ...]) -> None:
    """The rule that owners doubt most: combination, coupling and roof stay what they were."""
    upgrade = Row("up", "plate", "up", {"of": "vehicle", "gross_kg": 9000.0, "date_from": DAY}, 99)
    before, after = (limits(ratings_on(plates=these, day=DAY)) for these in (drawn, (*drawn, upgrade)))
    assert {row for row in before if before[row] != after[row]} <= {"gross"}
