"""The water log: full tanks from taps that differ, buckets told roughly, grey water let out."""

from typing import Any

from .diary import Water
from .figures import typed
from .journey import Journey, ScenarioError, write

_ABOUT = 0.04  # sd of litres that were counted in buckets or read off a tap, as a share; assumed


def water(journey: Journey, row: Water) -> None:
    """Water in or out, and the entry about it."""
    tank, litres = journey.holding(row.tank)
    moved = _moved(journey, row)
    after = litres[row.tank] + (moved if row.action == "fill" else -moved)
    if not -1e-9 <= after <= tank.capacity_l * 1.02:
        raise ScenarioError(f"{journey.sheet.key}: {moved:.1f} L of water are not possible on day {row.day}")
    litres[row.tank] = max(0.0, after)
    told = max(1.0, round(moved * (1 + journey.chance.noise(_ABOUT))))
    body: dict[str, Any] = {
        "tank_id": journey.entered.of("tank", row.tank),
        "action": row.action,
        "measured": False,
        "drinkable": row.drinkable,
        **typed(litres_l=f"{told:.0f} L", litres_u_l=f"{max(1.0, 0.05 * told):.1f} L"),
    }
    if row.action == "fill":
        body |= {"full": row.litres is None, "source": row.source}
    if row.place:
        body["place"] = {"name": row.place}
    write(journey, "water", body, row)


def _moved(journey: Journey, row: Water) -> float:
    if row.litres is not None:
        return row.litres
    tank, litres = journey.holding(row.tank)
    content = litres[row.tank]
    return tank.capacity_l - content if row.action == "fill" else content
