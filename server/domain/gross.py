"""Which single entry could explain a gap between plan and readings: a shortlist, never a culprit.

Generalised likelihood ratio for one gross error (Narasimhan & Mah 1987, AIChE J. 33:1514). Candidates are the
masses, contents, people and readings; the moments, gains and own errors are not.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .errors import check_range
from .linalg import Array, cholesky, finite, solve_lower
from .normal import chi2_upper
from .posterior import Reconciled

ALIKE = 1e-9  # signatures whose |cosine| is within this of 1 are one class
NEAR = 3.841458820694124  # 95 % point of chi-square with one degree of freedom
LEVEL = 0.05
EASILY_SEEN = 4.0  # an error of 4 / sqrt(q) shows in a 5 % test with a power of 80 to 90 % (rule of thumb)
BUCKET = 1e-3
TIE = 1e-6  # statistics nearer than this are equals, and the first entered stands first


@dataclass(frozen=True, slots=True)
class Signature:
    """What one kg too much in a candidate does to every reading; `mass_kg` bounds what can be missing of it."""

    id: str
    kind: str
    column: tuple[float, ...]
    mass_kg: float | None = None


@dataclass(frozen=True, slots=True)
class Suspect:
    """One candidate tested: the error that fits best, what is possible of it (b >= -mass), and the class.

    `shows_kg` is about the smallest error that would show.
    """

    id: str
    kind: str
    statistic: float
    bias_kg: float
    possible_statistic: float
    possible_kg: float
    shows_kg: float
    group: int


@dataclass(frozen=True, slots=True)
class Causes:
    """What could explain a gap, best first: entries and, apart from them, readings. `found`: anything stands out."""

    entries: tuple[Suspect, ...]
    readings: tuple[Suspect, ...]
    found: bool


@dataclass(frozen=True, slots=True)
class Shortlist:
    """All candidates within 3.84 of the best, best first; `found` tells whether any stands out at all."""

    suspects: tuple[Suspect, ...]
    groups: int
    level: float
    p: float | None
    found: bool


def suspects(
    *, innovation: Sequence[float], spread: Sequence[Sequence[float]], signatures: Sequence[Signature]
) -> tuple[Suspect, ...]:
    """Test every candidate for one gross error, in the order given.

    With s = h' S^-1 e and q = h' S^-1 h: T = s^2/q ~ chi-square of one degree of freedom, b = s/q. A mass cannot
    miss more than itself: at b = -m, T = 2 b s - b^2 q. Signatures parallel after whitening form one class. A
    candidate that touches no reading (h = 0) has no test and is left out.
    """
    if not len(innovation):
        return ()
    for one in signatures:
        check_range("mass_kg", 0.0 if one.mass_kg is None else one.mass_kg, low=0.0, unit="kg")
    lower = cholesky(finite("spread", spread))
    white = solve_lower(lower, finite("innovation", innovation))
    signs = finite("column", [one.column for one in signatures]).reshape(-1, len(white))
    columns = solve_lower(lower, signs.T).T
    groups = _Groups()
    return tuple(
        _suspect(one, column, white, groups)
        for one, column in zip(signatures, columns, strict=True)
        if np.any(column)
    )


def shortlist(*, suspects: Sequence[Suspect]) -> Shortlist:
    """All candidates whose possible T is within 3.84 of the best.

    The best one is the right one in few cases, the list holds it in most (J.3). `found` compares the best T with the
    Sidak level 1 - 0.95^(1/classes). Of equals the first stands first.
    """
    if not suspects:
        return Shortlist((), 0, LEVEL, None, False)
    groups = max(one.group for one in suspects) + 1
    level = 1.0 - (1.0 - LEVEL) ** (1.0 / groups)
    best = max(one.possible_statistic for one in suspects)
    near = [one for one in suspects if one.possible_statistic >= best - NEAR]
    p = chi2_upper(max(best, 0.0), 1)
    return Shortlist(
        tuple(sorted(near, key=lambda one: -round(one.possible_statistic / TIE))), groups, level, p, p < level
    )


def likely_causes(*, suspects: Sequence[Suspect]) -> Causes:
    """The shortlist as people are shown it: entries beside the best entry, readings beside the best of all.

    An entry that hardly shows is often behind a reading that explains the gap as well; in a list of its own kind it
    is found again (93 % and more in the calibration, one list of all 91 %).
    """
    whole = shortlist(suspects=suspects)
    entries = shortlist(suspects=[one for one in suspects if one.kind != "reading"])
    readings = tuple(one for one in whole.suspects if one.kind == "reading")
    return Causes(entries.suspects, readings, whole.found)


def suspects_of(*, posterior: Reconciled) -> tuple[Suspect, ...]:
    """Test every mass, content, person and reading of a reconciled book."""
    spread = posterior.lower @ posterior.lower.T
    return suspects(
        innovation=posterior.innovation.tolist(),
        spread=spread.tolist(),
        signatures=list(_signatures(posterior)),
    )


def _signatures(posterior: Reconciled) -> Iterator[Signature]:
    for name, one in posterior.prior.items():
        if one.kind == "mass":
            column = posterior.design[:, posterior.order[name]]
            yield Signature(name, "mass", tuple(column.tolist()), one.mean)
    for i, name in enumerate(posterior.reading_ids):
        yield Signature(name, "reading", tuple(np.eye(len(posterior.reading_ids))[i].tolist()))


def _suspect(one: Signature, column: Array, white: Array, groups: "_Groups") -> Suspect:
    s, q = float(column @ white), float(column @ column)
    bias = s / q
    possible = bias if one.mass_kg is None else max(bias, -one.mass_kg)
    return Suspect(
        one.id,
        one.kind,
        s * s / q,
        bias,
        2 * possible * s - possible * possible * q,
        possible,
        EASILY_SEEN / sqrt(q),
        groups.of(column / sqrt(q)),
    )


class _Groups:
    """Numbers parallel directions alike; directions are looked up by their projection on one fixed line."""

    def __init__(self) -> None:
        self._known: dict[int, list[tuple[int, Array]]] = {}
        self._count = 0

    def of(self, direction: Array) -> int:
        line = 1.0 / np.arange(1.0, len(direction) + 1.0)
        place = int(np.floor(abs(float(direction @ line)) / BUCKET))
        for near in (place - 1, place, place + 1):
            for group, other in self._known.get(near, ()):
                if abs(float(direction @ other)) > 1.0 - ALIKE:
                    return group
        self._known.setdefault(place, []).append((self._count, direction))
        self._count += 1
        return self._count - 1
