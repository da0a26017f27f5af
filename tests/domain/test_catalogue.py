"""Properties of the catalogue: what is proposed can be kept, and holds together."""

import re
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.domain.articles import ARTICLES, BASE_VEHICLES, KITS, PLACES
from server.domain.book import Row, open_book
from server.domain.catalogue import (
    kit_proposals,
    place_x_m,
    proposal,
    range_u,
    typical_vehicle,
)
from server.domain.change_options import kept_aboard
from server.domain.plan import plan_in, planned, planned_loads
from server.domain.state import full_state
from server.schemas.item import Item
from server.schemas.vehicle import Vehicle

WHEELBASES = st.floats(2.0, 6.0)


def body(found: object) -> dict[str, object]:
    """A proposal as a record's body, without its blanks."""
    return {name: value for name, value in vars(found).items() if value is not None}


@pytest.mark.parametrize("article", ARTICLES, ids=lambda one: one.id)
def test_each_article_at_each_of_its_places_is_an_item_that_the_server_keeps(article: object) -> None:
    for place in article.places:  # type: ignore[attr-defined]
        for wheelbase_m in (1.0, 3.2, 10.0):
            found = proposal(article=article.id, wheelbase_m=wheelbase_m, place=place)  # type: ignore[attr-defined]
            assert Item().validate(body(found)) == {}


def test_ids_and_names_are_there_once_and_kits_hold_what_there_is() -> None:
    ids = [one.id for one in ARTICLES]
    assert len(set(ids)) == len(ids) == len({one.name for one in ARTICLES})
    assert all(re.fullmatch(r"[a-z0-9_]+", one) for one in ids)
    assert all(article in ids and count >= 1 for kit in KITS for article, count in kit.holds)
    assert all(one.low_kg < one.typical_kg < one.high_kg for one in ARTICLES)
    assert all(set(one.places) <= set(PLACES) for one in ARTICLES)
    assert {one.source for one in ARTICLES} == {"memory", "practice", "assumed"}


def test_first_aid_and_recovery_gear_stay_aboard() -> None:
    kept = {one.id for one in ARTICLES if one.keep_aboard}
    assert kept == {"first_aid", "recovery", "jack"}
    assert kept == {one.id for one in ARTICLES if kept_aboard(item={"name": one.name}).kept}
    assert {one.name for one in kit_proposals(kit="help") if one.keep_aboard} == {
        "High-lift jack",
        "First aid kit",
        "Recovery gear: straps, shackles, boards",
    }


@given(st.floats(0, 1e4), st.floats(0, 1e4))
def test_nine_in_ten_of_a_normal_lie_in_the_range(low: float, width: float) -> None:
    u = range_u(low=low, high=low + width)
    if width > 1e-3:
        spread = NormalDist(low + width / 2, u)
        assert spread.cdf(low + width) - spread.cdf(low) == pytest.approx(0.9, abs=1e-6)


@given(WHEELBASES, WHEELBASES)
def test_places_keep_their_order_and_move_with_the_wheelbase(one: float, other: float) -> None:
    shorter, longer = sorted((one, other))
    xs = [place_x_m(place=code, wheelbase_m=shorter) for code in ("F", "E", "C1", "C2", "T1", "A", "T2", "R")]
    assert xs == sorted(xs)
    for code in PLACES:
        assert place_x_m(place=code, wheelbase_m=shorter) <= place_x_m(place=code, wheelbase_m=longer) + 1e-12


@pytest.mark.parametrize("base", [one.id for one in BASE_VEHICLES])
def test_a_typical_vehicle_is_one_that_the_server_keeps_and_the_plan_reckons_with(base: str) -> None:
    found = {"name": "Wren", **vars(typical_vehicle(base=base))}
    assert Vehicle().validate(found) == {}
    kit = kit_proposals(kit="help", wheelbase_m=3.0)
    rows = [Row(f"i{n}", "item", "r", body(one)) for n, one in enumerate(kit)]
    book = open_book(rows=[Row("v", "vehicle", "r", found), *rows])
    state = full_state(book=book)
    assert planned(book=book)
    loads = planned_loads(book=book, plan=plan_in(book=book, state=state), state=state)
    low, typical, high = next(one for one in BASE_VEHICLES if one.id == base).kerb_kg
    assert loads.value_kg("gross") == pytest.approx(typical + sum(one.mass_kg for one in kit))
    # how the mass is shared says nothing of how much it is: front and rear add up to the u of the kerb mass
    others = sum(one.mass_u_kg**2 for one in kit)
    assert loads.u_kg("gross") == pytest.approx((range_u(low=low, high=high) ** 2 + others) ** 0.5)


def test_moments_of_a_typical_vehicle_are_those_of_a_simulation() -> None:
    """Kerb mass and share drawn apart, a hundred thousand times."""
    found, rng = typical_vehicle(base="utility"), np.random.default_rng(20261126)
    mass = rng.normal(2150, range_u(low=1950, high=2400), 100_000)
    share = rng.normal(0.56, range_u(low=0.53, high=0.60), 100_000)
    front, rear = mass * share, mass * (1 - share)
    assert np.std(front) == pytest.approx(found.base_front_u_kg, rel=0.01)
    assert np.std(rear) == pytest.approx(found.base_rear_u_kg, rel=0.01)
    assert np.corrcoef(front, rear)[0, 1] == pytest.approx(found.base_correlation, abs=0.01)
