"""An invented plan, put into a book past the browser: from a few items to two hundred."""

import random
from typing import Any

from tests.factories import mutation, new_id, vehicle

Body = dict[str, Any]
BASE: Body = {
    "name": "Wren",
    "body_form": "utility",
    "wheelbase_m": 3.2,
    "base_front_kg": 1190.0,
    "base_rear_kg": 860.0,
    "base_known_by": "weighed",
    "fuel_kind": "diesel",
}
PLATE: Body = {"of": "vehicle", "gross_kg": 3300.0, "front_axle_kg": 1480.0, "rear_axle_kg": 1950.0}


def item(name: str, mass_kg: float, x_m: float, **more: Any) -> Body:
    """A load with its mass and its place."""
    return {"name": name, "nature": "load", "mass_kg": mass_kg, "x_m": x_m, **more}


def many(count: int, seed: int = 3) -> list[Body]:
    """So many light items, most of them where loads are: crowded over and behind the rear axle."""
    chance = random.Random(seed)
    return [
        item(
            f"Load {n + 1}",
            round(chance.uniform(0.5, 9), 1),
            round(min(4.6, max(-0.8, chance.gauss(3.1, 0.9))), 2),
        )
        for n in range(count)
    ]


def seed(ask: Any, items: list[Body], *, of_vehicle: Body | None = None, **others: list[Body]) -> str:
    """Sends a plan to the server as one device would; `others` are lists by kind. Gives the book's id."""
    book = new_id()
    made = [vehicle(book, **{**BASE, **(of_vehicle or {})}), mutation(book, "plate", PLATE)]
    lists = {"item": items, **others}
    made += [mutation(book, kind, body) for kind, bodies in lists.items() for body in bodies]
    numbered = [{**one, "device_seq": n + 1} for n, one in enumerate(made)]
    device = new_id()
    for start in range(0, len(numbered), 100):
        request = {"device": device, "mutations": numbered[start : start + 100], "books": []}
        answers = ask("POST", "/api/sync", request)["answers"]
        assert all(one["outcome"] == "applied" for one in answers), answers
    return book
