"""Who may do what: every route and every kind of record, for everybody."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import pytest
from factories import AT, HEADERS, Person, fill, mutation, new_id, seat, weighing
from flask import Flask
from flask.testing import FlaskClient

from server.schemas.register import KINDS

PEOPLE = ("anonymous", "stranger", "former", "co_driver", "fitter", "owner")
EVERYBODY = dict.fromkeys(PEOPLE, 200)
SIGNED_IN = {**EVERYBODY, "anonymous": 401}
MEMBERS = {**SIGNED_IN, "stranger": 404, "former": 404}
OWNERS = {**MEMBERS, "co_driver": 403, "fitter": 403}

# Every route of the API has its line here: a new one without fails the test.
POLICY: dict[tuple[str, str], Mapping[str, int]] = {
    ("GET", "/api/health"): EVERYBODY,
    ("GET", "/api/openapi.json"): EVERYBODY,
    ("POST", "/api/accounts"): dict.fromkeys(PEOPLE, 422),
    ("POST", "/api/session"): dict.fromkeys(PEOPLE, 401),
    ("GET", "/api/session"): SIGNED_IN,
    ("POST", "/api/sync"): SIGNED_IN,
    ("GET", "/api/books/<id:book>/members"): MEMBERS,
    ("GET", "/api/books/<id:book>/records"): MEMBERS,
    ("GET", "/api/books/<id:book>/comparison"): MEMBERS,
    ("POST", "/api/books/<id:book>/members"): {**OWNERS, "owner": 422},
    ("DELETE", "/api/books/<id:book>/members/<id:whom>"): {**OWNERS, "owner": 404},
    ("DELETE", "/api/session"): {**dict.fromkeys(PEOPLE, 204), "anonymous": 401},
}
BODIES = {
    "/api/accounts": {"name": "x", "password": "short"},
    "/api/session": {"name": "nobody", "password": "nothing like it"},
    "/api/sync": {"device": new_id(), "mutations": [], "books": []},
    "/api/books/<id:book>/members": {"name": "nobody of this name", "role": "fitter"},
}


@dataclass
class Cast:
    """One of each, round one book."""

    owner: Person
    people: dict[str, Person]
    anonymous: FlaskClient

    def client(self, name: str) -> FlaskClient:
        return self.anonymous if name == "anonymous" else self.people[name].client


@pytest.fixture
def cast(app: Flask, owner: Person) -> Cast:
    people = {name: Person(app) for name in ("stranger", "former", "co_driver", "fitter")}
    for name in ("co_driver", "fitter"):
        owner.share(people[name], name)
    owner.share(people["former"], "co_driver")
    owner.ask("DELETE", f"/api/books/{owner.book}/members/{people['former'].id}")
    return Cast(owner, {**people, "owner": owner}, app.test_client())


def test_every_route_has_its_policy_and_keeps_it(app: Flask, cast: Cast) -> None:
    rules = {(method, rule.rule) for rule in app.url_map.iter_rules() for method in rule.methods or ()}
    assert {one for one in rules if one[0] not in ("HEAD", "OPTIONS")} == set(POLICY)
    for (method, rule), wanted in POLICY.items():
        path = rule.replace("<id:book>", cast.owner.book).replace("<id:whom>", new_id())
        body = BODIES.get(rule) if method == "POST" else None
        answers = {
            name: cast.client(name).open(path, method=method, json=body, headers=HEADERS) for name in PEOPLE
        }
        assert {name: one.status_code for name, one in answers.items()} == wanted, (method, rule)


@pytest.mark.parametrize("path", ["members", "records", "comparison"])
def test_a_foreign_book_is_answered_like_one_that_is_not_there(cast: Cast, path: str) -> None:
    stranger = cast.people["stranger"]
    foreign = stranger.ask("GET", f"/api/books/{cast.owner.book}/{path}")
    nowhere = stranger.ask("GET", f"/api/books/{new_id()}/{path}")
    assert (foreign.status_code, foreign.json) == (nowhere.status_code, nowhere.json)


SURFACE = {"sealed": 0, "gravel": 1, "sand": 0}
WRITES = {
    "co_driver": {"aboard", "weighing", "fill", "dip", "transfer", "water", "event", "correction"},
    "fitter": {"vehicle", "trailer", "plate", "item", "tank", "seat", "route", "weighing"},
    "owner": set(KINDS),
}


def specimens(book: str, entry: str, made_vehicle: str) -> dict[str, dict[str, Any]]:
    """One mutation of each kind; `entry` is a fill to correct."""
    log = {
        "aboard": {"subject": "item", "subject_id": new_id(), "aboard": False},
        "dip": {"tank_id": new_id(), "how": "gauge", "level": 0.5},
        "transfer": {"from_tank_id": new_id(), "everything": True},
        "water": {"tank_id": new_id(), "action": "draw", "litres_l": 2, "drinkable": "yes"},
        "event": {"what": "roof_load"},
        "correction": {"of_id": entry, "what": "struck_out"},
    }
    plan = {
        "trailer": {"name": "Box"},
        "plate": {"of": "vehicle"},
        "item": {"name": "shelf", "nature": "part"},
        "tank": {"name": "main", "holds": "fuel"},
        "person": {"name": "E", "nature": "person"},
        "route": {"name": "To the well", "legs": [{"distance_km": 90, "surface": SURFACE}]},
    }
    found = {kind: mutation(book, kind, {**AT, **body}) for kind, body in log.items()}
    found |= {kind: mutation(book, kind, body) for kind, body in plan.items()}
    found["vehicle"] = mutation(book, "vehicle", {"note": "seen"}, id=book, base_rev=made_vehicle)
    return {**found, "seat": seat(book), "fill": fill(book), "weighing": weighing(book)}


@pytest.mark.parametrize("role", WRITES)
def test_each_role_writes_its_kinds_and_no_others(cast: Cast, role: str) -> None:
    entry = fill(cast.owner.book)
    cast.owner.sync(entry)
    made = cast.owner.versions(cast.owner.book)[0]["rev"]
    tries = specimens(cast.owner.book, entry["id"], made)
    assert set(tries) == set(KINDS)
    answers = dict(zip(tries, cast.people[role].sync(*tries.values())["answers"], strict=True))
    assert {kind for kind, one in answers.items() if one["outcome"] == "applied"} == WRITES[role]
    assert {one["error"]["code"] for one in answers.values() if "error" in one} <= {"not_yours"}


def test_a_fitter_corrects_his_own_weighings_alone(cast: Cast) -> None:
    fitter, book = cast.people["fitter"], cast.owner.book
    own, other = weighing(book), weighing(book)
    fitter.sync(own)
    cast.owner.sync(other)
    struck = [
        mutation(book, "correction", {**AT, "of_id": one["id"], "what": "struck_out"}) for one in (own, other)
    ]
    again = [weighing(book, 2_300, corrects=one["id"]) for one in (own, other)]
    assert fitter.outcomes(*struck, *again) == ["applied", "rejected", "applied", "rejected"]
    assert cast.people["co_driver"].outcomes(weighing(book, corrects=other["id"])) == ["applied"]


def test_one_foreign_book_in_a_batch_stops_only_its_own(cast: Cast, person: Callable[[], Person]) -> None:
    stranger = person()
    stranger.begin_book()
    assert stranger.outcomes(seat(cast.owner.book), seat(stranger.book)) == ["wait", "applied"]


def test_owner_author_and_time_are_never_taken_from_a_body(cast: Cast) -> None:
    forged = {**seat(cast.owner.book), "author": cast.owner.id}
    answer = cast.people["fitter"].answer(forged)
    assert answer["error"]["fields"] == {"author": ["This name is not known."]}
    inside = seat(cast.owner.book, received_at="2020-01-01T00:00:00Z", author=cast.owner.id)
    assert set(cast.people["fitter"].answer(inside)["error"]["fields"]) == {"received_at", "author"}


def test_a_changed_role_counts_from_the_next_request(cast: Cast) -> None:
    cast.owner.share(cast.people["fitter"], "co_driver")
    assert cast.people["fitter"].outcomes(seat(cast.owner.book), fill(cast.owner.book)) == [
        "rejected",
        "applied",
    ]
