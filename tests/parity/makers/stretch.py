from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import FUEL_KAPPAS, bank_of, call, events, model


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(40):
        made = model(rng)
        bank = bank_of(made, FUEL_KAPPAS, events(rng, made, 5))
        yield {"function": "one_tank", "in": {"bank": bank}}
        whole = call("stretch", "one_tank", bank=bank)
        way = {name: number(rng, 0, 500) for name in made["class_ids"]}
        yield {"function": "even_use", "in": {"bank": whole, "way": way}}
