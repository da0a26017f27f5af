"""Vectors of next_reading: chances from scipy, and the rest against the solutions it is made of."""

from typing import Any

import numpy as np
from scipy import stats
from vectors.frame import SELF, case, function, ours, refused
from vectors.makers.axles import L
from vectors.makers.bridge import FINE
from vectors.makers.reconcile import LASTING, SESSIONS
from vectors.makers.weighing import FRONT, READINGS, REAR, SETUP, WHOLE, plain_covariance


def settled(limit: float, value: float, before: float, after: float, confidence: float = 0.95) -> float:
    """The new estimate is value + N(0, w^2); it settles when it is z s1 away from the limit."""
    new = stats.norm(value, (before**2 - after**2) ** 0.5)
    reach = float(stats.norm.ppf(confidence)) * after
    return float(new.cdf(limit - reach) + new.sf(limit + reach))


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    given = {"limit_kg": 1460.0, "value_kg": 1450.0, "before_u_kg": 12.0}
    both = np.array(plain_covariance())
    before = float(both[1, 1]) ** 0.5
    after = (
        float(
            np.linalg.inv(
                np.array([[1, 0], [0, 1], [1, 1]]).T
                @ np.linalg.inv(both)
                @ np.array([[1, 0], [0, 1], [1, 1]])
            )[1, 1]
        )
        ** 0.5
    )
    alone = {"bridge": FINE, "setup": SETUP, "deck": {}, "row": "rear", "limit_kg": 1460.0}
    deck = {
        "lasting": LASTING,
        "geometry": L,
        "sessions": SESSIONS,
        "session_id": "july",
        "row": "rear",
        "limit_kg": 1290.0,
    }
    # it reaches 1 400 kg: enough for an axle
    rough = {**FINE, "interval_kg": 1.4, "accuracy_class": "IIII"}
    short = {**SESSIONS[1], "bridge": rough, "readings": SESSIONS[1]["readings"][:1]}
    prospect = {"id": "w", "before_u_kg": before, "after_u_kg": after}
    return [
        function(
            "settle_chance",
            "scipy.stats.norm",
            case("a doubt", settled(1460.0, 1450.0, 12.0, 5.0), **given, after_u_kg=5.0),
            case(
                "in the middle",
                settled(1460.0, 1460.0, 12.0, 5.0, 0.9),
                **{**given, "value_kg": 1460.0},
                after_u_kg=5.0,
                confidence=0.9,
            ),
            case("no help", 0.0, **given, after_u_kg=12.0),
            refused("a negative u", "OutOfRange", "after_u_kg", **given, after_u_kg=-1.0),
            refused(
                "a limit typed as text",
                "DomainError",
                "limit_kg",
                **{**given, "limit_kg": "1"},
                after_u_kg=1.0,
            ),
        ),
        function(
            "next_by_readings",
            "generalised least squares by numpy's inverse",
            case(
                "the whole beside front and rear",
                [{**prospect, "chance": settled(1460.0, 1450.0, before, after)}],
                readings=[FRONT, REAR],
                candidates=[{**WHOLE, "value_kg": 2830.0}],
                **alone,
            ),
            case(
                "what is open has no chance",
                [{"id": "r", "before_u_kg": None, "chance": None}],
                readings=[FRONT],
                candidates=[REAR],
                **alone,
            ),
            case("what leaves it open is left out", [], readings=[], candidates=[WHOLE, FRONT], **alone),
            case(
                "what the scale does not reach is left out",
                [],
                readings=[FRONT],
                candidates=[REAR],
                **{**alone, "bridge": rough},
            ),
            case("nothing left to take", [], readings=READINGS, candidates=[], **alone),
        ),
        function(
            "next_by_plan",
            SELF,
            ours(
                "next_reading",
                "two axles",
                "next_by_plan",
                candidates=[{**FRONT, "split": False}, {**REAR, "split": False}],
                **deck,
            ),
            case(
                "what the scale does not reach is left out",
                [],
                candidates=[{**WHOLE, "split": False}],
                **{**deck, "sessions": [SESSIONS[0], short], "session_id": "june"},
            ),
            refused(
                "another visit", "Unknown", "session_id", candidates=[], **{**deck, "session_id": "august"}
            ),
        ),
    ]
