from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import FUEL_KAPPAS, call, event, model


def calls(rng: Rng) -> Iterator[Piece]:
    """Runs that end anywhere, also in an alarm."""
    for _ in range(40):
        made = model(rng)
        notice = call("notice", "notice_prior", model=made, kappas=FUEL_KAPPAS)
        for _ in range(int(rng.integers(1, 12))):
            notice = call("notice", "notice_advance", notice=notice, event=event(rng, made))
        seen = {"kind": "gauge", "tank_id": made["tank_ids"][0], "fraction": number(rng, 0, 1)}
        yield {"function": "notice_advance", "in": {"notice": notice, "event": seen}, "rel": 1e-8}
        yield {"function": "notice_prior", "in": {"model": made, "kappas": FUEL_KAPPAS}}
