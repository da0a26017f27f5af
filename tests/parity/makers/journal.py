from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.tanks import FUEL_KAPPAS, bank_of, events, model, worked_out


def calls(rng: Rng) -> Iterator[Piece]:
    """Steps of every kind, run whole, and ways planned over several tanks."""
    for _ in range(30):
        made = model(rng)
        way = [{"class_id": name, "amount": number(rng, 0, 300)} for name in made["class_ids"]]
        steps = [_step(rng, made, n) for n in range(int(rng.integers(1, 9)))]
        bank = worked_out(bank_of(made, FUEL_KAPPAS, events(rng, made, 3)))
        branch = {"bank": bank, "unknown": made["tank_ids"][:1] if chance(rng, 0.3) else []}
        notice = {"bank": bank, "seen": 0, "more": 0.0, "less": 0.0, "alarm": None, "z": None}
        state = {"main": branch, "others": [], "notice": notice}
        run = {"model": made, "kappas": FUEL_KAPPAS, "steps": steps}
        near = {"rel": 1e-7, "abs": 1e-7}
        yield {"function": "plan_way", "in": {"bank": bank, "way": way}, "abs": 1e-7}
        yield {"function": "run_journal", "in": run, **near}
        yield {"function": "step_on", "in": {"state": state, "step": steps[0]}, **near}
        yield {"function": "levels_now", "in": {"state": state}}
        yield {"function": "bank_levels", "in": {"bank": bank}}
        yield {"function": "lower_banks", "in": {"state": state}}


def _step(rng: Rng, made: Piece, n: int) -> Piece:
    told = [one for one in events(rng, made, int(rng.integers(0, 4))) if one["kind"] != "use"]
    way = [{"class_id": str(rng.choice(made["class_ids"])), "amount": number(rng, 1, 500)}]
    touched = [one["tank_id"] for one in told if one["kind"] == "fill"]
    flags: Piece = {"refused": chance(rng, 0.1), "confirmed": chance(rng, 0.1)}
    flags |= {"doubt": "alike"} if chance(rng, 0.3) else {}
    return {"entry_id": f"s{n}", "way": way, "events": told, "tank_ids": touched, **flags}
