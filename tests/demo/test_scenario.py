"""What the generator writes down: the same for the same seed, and fit for the contract."""

import ast
import json
from collections import Counter
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from uuid import UUID

import pytest

import server.demo
from server.demo.scenario import Scenario, generate
from server.schemas.base import Strict
from server.schemas.register import KINDS, PLAN_KINDS

TODAY = date(2026, 11, 20)


@cache
def scenario(seed: int = 1) -> Scenario:
    return generate(seed, TODAY)


@cache
def schema(kind: str) -> Strict:
    return KINDS[kind]()


def text(made: Scenario) -> str:
    return json.dumps([(one.user, one.device, one.mutation) for one in made.records])


def bodies(kind: str, key: str | None = None) -> list[dict]:
    books = {told.entered.book for name, told in scenario().truth.vehicles.items() if key in (None, name)}
    mutations = [one.mutation for one in scenario().records]
    return [one["body"] for one in mutations if one["kind"] == kind and one["book"] in books]


def test_same_seed_and_day_give_the_same_bytes():
    assert text(generate(1, TODAY)) == text(scenario())


def test_another_seed_gives_other_figures():
    assert text(scenario(2)) != text(scenario())


def test_another_day_moves_everything_by_as_much():
    later = generate(1, date(2026, 11, 27))
    for one, other in zip(scenario().records, later.records, strict=True):
        gap = datetime.fromisoformat(other.mutation["made_at"]) - datetime.fromisoformat(
            one.mutation["made_at"]
        )
        assert gap.days == 7 and gap.seconds == 0


def test_every_body_meets_its_schema():
    current: dict[str, dict] = {}
    for one in scenario().records:
        mutation = one.mutation
        body = dict(mutation["body"])
        if mutation["base_rev"] is not None:
            base = dict(current[mutation["id"]])
            typed = {**base["as_typed"], **body.pop("as_typed", {})}
            typed.pop("mass_u_kg", None)
            body = {**base, **body, "as_typed": typed}
        assert schema(mutation["kind"]).validate(body) == {}, mutation
        current[mutation["id"]] = body


def test_every_kind_of_record_occurs():
    assert {one.mutation["kind"] for one in scenario().records} == set(KINDS)


def test_ids_are_unique_and_carry_their_instant():
    mutations = [one.mutation for one in scenario().records]
    assert len({one["mut"] for one in mutations}) == len(mutations)
    for one in mutations:
        made = datetime.fromisoformat(one["made_at"])
        assert UUID(one["mut"]).version == 7
        assert UUID(one["mut"]).int >> 80 == round(made.timestamp() * 1000)


def test_each_device_counts_up_in_the_order_of_making():
    counts: Counter[str] = Counter()
    before = ""
    for one in scenario().records:
        counts[one.device] += 1
        assert one.mutation["device_seq"] == counts[one.device]
        assert one.mutation["made_at"] >= before
        before = one.mutation["made_at"]


def test_records_that_are_named_were_made_before():
    known: set[str] = set()
    for one in scenario().records:
        mutation, body = one.mutation, one.mutation["body"]
        fields = ("of_id", "corrects", "tank_id", "trailer_id", "subject_id")
        named = [mutation["base_rev"], *(body.get(name) for name in fields)]
        named += [line["tank_id"] for line in body.get("lines", ())]
        named += [row["rev"] for row in (body.get("state") or {}).get("plan", ())]
        assert {name for name in named if name} <= known
        known |= {mutation["mut"], mutation["id"]}


def test_nothing_happens_after_yesterday_and_the_log_reaches_it():
    end = datetime(2026, 11, 19, 15, tzinfo=UTC)  # midnight, nine hours east
    made = [datetime.fromisoformat(one.mutation["made_at"]) for one in scenario().records]
    assert max(made) < end
    for key in scenario().truth.vehicles:
        last = max(datetime.fromisoformat(body["at"]) for body in bodies("fill", key))
        assert (end - last).total_seconds() < 24 * 3600


@pytest.mark.parametrize("key", ["utility", "wagon", "van"])
def test_each_plan_is_of_a_real_build(key):
    assert 25 <= len([one for one in bodies("item", key) if "name" in one and "trailer_id" not in one]) <= 40
    assert 2 <= len([one for one in bodies("tank", key) if "trailer_id" not in one]) <= 4
    assert len(bodies("seat", key)) == 5
    assert {one["nature"] for one in bodies("person", key)} == {"person", "animal"}
    assert {one["of"] for one in bodies("plate", key)} >= {"vehicle", "towbar", "rack", "tyres"}
    assert any(one.get("keep_aboard") for one in bodies("item", key))
    assert any(one.get("may_stay_behind") for one in bodies("item", key))


@pytest.mark.parametrize("key", ["utility", "wagon", "van"])
def test_a_later_plate_changes_only_some_ratings(key):
    maker, later = (one for one in bodies("plate", key) if one["of"] == "vehicle")
    assert maker["date_from"] < later["date_from"]
    stated = {name for name in later if name.endswith("_kg")}
    assert stated and stated < {name for name in maker if name.endswith("_kg")}
    assert all(later[name] > maker[name] for name in stated)


def test_figures_that_a_person_typed_say_how():
    for one in scenario().records:
        if one.mutation["kind"] in PLAN_KINDS:
            body = one.mutation["body"]
            figures = {
                name for name, value in body.items() if name.endswith(("_kg", "_m")) and value is not None
            }
            assert figures <= set(body.get("as_typed", {}))
    for body in bodies("fill"):
        assert set(body["as_typed"]) == {"odometer_km"}
        assert all("litres_l" in line["as_typed"] for line in body["lines"])
    assert all("value_kg" in one["as_typed"] for body in bodies("weighing") for one in body["readings"])


def test_people_write_only_what_their_role_allows():
    wrote = {(one.user, one.mutation["kind"]) for one in scenario().records}
    assert {kind for user, kind in wrote if user == "brannock"} <= (PLAN_KINDS - {"person"}) | {"weighing"}
    assert not {kind for user, kind in wrote if user == "minnow"} & PLAN_KINDS


def test_the_generator_knows_nothing_of_the_models():
    for path in Path(server.demo.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.ImportFrom):
                module = node.module or ""
                assert not module.startswith(("server.domain", "server.store", "server.api")), path.name
