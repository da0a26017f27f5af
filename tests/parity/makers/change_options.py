from collections.abc import Iterator

from parity.change_books import given
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """What may move, be left, let out or poured over, of vehicles in any state."""
    for n in range(40):
        made = given(rng, weighings=0)
        where = {"book": made["book"], "state": made["state"]}
        plan = {"$call": {"module": "plan", "function": "plan_in", "in": where}}
        rated = [["rear"], ["rear", "roof"], ["rear", "roof", "trailer"]][n % 3]
        yield {"function": "item_subjects", "in": {**where, "plan": plan, "rated": rated}}
        name = str(rng.choice(["Tow rope", "Jack", "jacket", "First-AID", "Böx", "Medic", "tyre  repair"]))
        body = {**made["book"]["items"][0]["body"], "name": f"{name} {n}"}
        yield {"function": "kept_aboard", "in": {"item": body}}
        yield {"function": "tank_subjects", "in": {**where, "let_out": [["water"], ["fuel", "water"]][n % 2]}}
        yield {"function": "usual_water_reserve", "in": where}
        tank = made["book"]["tanks"][n % 6]
        yield {"function": "content_l", "in": {"tank": tank, "state": made["state"]}}
        yield {"function": "room_l", "in": {"tank": tank, "state": made["state"]}}
        subjects = {"$call": {"module": "change_options", "function": "tank_subjects", "in": where}}
        refused = [{"subject_id": "water", "choice_id": "out:0"}, {"subject_id": "second"}]
        yield {"function": "without_refused", "in": {"subjects": subjects, "refused": refused}}
