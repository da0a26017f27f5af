from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number

from server.domain.articles import ARTICLES, BASE_VEHICLES, KITS, PLACES


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(40):
        low, high = number(rng, -50, 200), number(rng, 150, 400)
        yield {"function": "range_u", "in": {"low": low, "high": high}}
        where = {"place": str(rng.choice(list(PLACES))), "wheelbase_m": number(rng, 1, 10)}
        yield {"function": "place_x_m", "in": where}
    for article in ARTICLES:
        place = str(rng.choice(article.places)) if chance(rng, 0.7) else str(rng.choice(list(PLACES)))
        given = {"article": article.id, "wheelbase_m": number(rng, 2, 5), "place": place}
        yield {"function": "proposal", "in": {**given, "count": int(rng.integers(1, 6))}}
    for kit in KITS:
        yield {"function": "kit_proposals", "in": {"kit": kit.id, "wheelbase_m": number(rng, 2, 5)}}
    for base in BASE_VEHICLES:
        yield {"function": "typical_vehicle", "in": {"base": base.id}}
