"""Loads that the readings fix without any plan, and whether the readings agree with each other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from .errors import DomainError, NotFixed
from .linalg import Array, cholesky, finite, gram_inverse, least_squares, solve_lower, solve_upper
from .normal import chi2_upper
from .statics import as_tuple, as_tuples
from .weighing import Reading, check_readings

DISAGREE_P = 0.01  # below this the readings do not agree with each other
OPEN = 1e-9  # a remainder below this share is rounding: the readings fix it, or nothing tests it


@dataclass(frozen=True, slots=True)
class FixedSums:
    """Those of the wanted sums that the readings fix, with their covariance, and the redundancy test.

    chi2 has dof = readings less independent sums; p is None without redundancy, and z, one figure per reading, where no
    other reading tests it.
    """

    rows: tuple[str, ...]
    mean_kg: tuple[float, ...]
    cov_kg2: tuple[tuple[float, ...], ...]
    chi2: float
    dof: int
    p: float | None
    agree: bool
    z: tuple[float | None, ...]


def axle_loads(*, readings: Sequence[Reading], covariance: Sequence[Sequence[float]]) -> FixedSums:
    """Axle loads of readings of one state by generalised least squares, and the redundancy test.

    Readings that do not fix every axle that they name are refused with NotFixed; a visit takes what they do fix
    (`deck.read_deck`).
    """
    check_readings(readings)
    if len({reading.state_key for reading in readings}) > 1:
        raise DomainError(
            "readings", "in several states", "readings of one state", "Take those of each state alone"
        )
    axles = tuple(dict.fromkeys(axle for reading in readings for axle in reading.axles))
    found = fixed_sums(
        sums=[_ones(axles, reading.axles) for reading in readings],
        values_kg=[reading.value_kg for reading in readings],
        covariance=covariance,
        wanted={axle: _ones(axles, [axle]) for axle in axles},
    )
    if len(found.rows) < len(axles):
        raise NotFixed("axles", " and ".join(axles))
    return found


def fixed_sums(
    *,
    sums: Sequence[Sequence[float]],
    values_kg: Sequence[float],
    covariance: Sequence[Sequence[float]],
    wanted: Mapping[str, Sequence[float]],
) -> FixedSums:
    """Which sums of unknown loads are fixed by readings that are each a sum of the same loads, and at what.

    `sums` has one row of coefficients per reading, `wanted` one per row asked for; both over the same unknowns. Best
    linear unbiased with a flat prior. What is left open is left out, never refused; kg and kg^2.
    Whitened with V = C C'; chi2 = |residual|^2; p < 0.01 means that the readings do not agree. z_i = |(V^-1 a)_i| over
    the square root of its variance is the measurement test (Mah & Tamhane 1982, AIChE J. 28:828, from memory): with one
    redundancy all |z| are equal, and it cannot be said which reading is wrong.
    """
    rows, values = finite("sums", sums), finite("values_kg", values_kg)
    if not len(values):
        return FixedSums((), (), (), 0.0, 0, None, True, ())
    fit = _Fit(rows.reshape(len(values), -1), values, finite("covariance", covariance))
    turns = {row: fit.combination(finite("wanted", one)) for row, one in wanted.items()}
    fixed = {row: turn for row, turn in turns.items() if turn is not None}
    turn = np.array(list(fixed.values())).reshape(len(fixed), len(fit.basis))
    return FixedSums(
        tuple(fixed), as_tuple(turn @ fit.mean), as_tuples(turn @ fit.cov @ turn.T), *fit.redundancy()
    )


class _Fit:
    """Least squares over the independent sums that were read."""

    def __init__(self, sums: Array, values_kg: Array, covariance: Array) -> None:
        self.basis = _independent(sums)
        sets = np.array([least_squares(self.basis.T, row)[0] for row in sums])
        self._lower = cholesky(covariance)
        self._white = solve_lower(self._lower, sets.reshape(len(sums), len(self.basis)))
        right = solve_lower(self._lower, values_kg)
        self.mean, self._chi2 = least_squares(self._white, right)
        self.cov = gram_inverse(self._white)
        self._residual = right - self._white @ self.mean

    def combination(self, wanted: Array) -> Array | None:
        """A sum of the unknown loads as a combination of the independent ones, None where it is open."""
        turn, rest = least_squares(self.basis.T, wanted)
        return None if rest > OPEN else turn

    def redundancy(self) -> tuple[float, int, float | None, bool, tuple[float | None, ...]]:
        """chi2, dof, p, whether the readings agree, and z of each."""
        dof = len(self._residual) - len(self.basis)
        if dof == 0:
            return 0.0, 0, None, True, (None,) * len(self._residual)
        p = chi2_upper(self._chi2, dof)
        return self._chi2, dof, p, p >= DISAGREE_P, self._tests()

    def _tests(self) -> tuple[float | None, ...]:
        """|(C'^-1 r)_i| over the length of what is left of column i of C^-1 beside the fit: a sum of squares."""
        units = solve_lower(self._lower, np.eye(len(self._residual)))
        weighted = solve_upper(self._lower, self._residual)
        out: list[float | None] = []
        for i in range(len(self._residual)):
            _, left = least_squares(self._white, units[:, i])
            tested = left > OPEN * float(units[:, i] @ units[:, i])
            out.append(abs(float(weighted[i])) / float(np.sqrt(left)) if tested else None)
        return tuple(out)


def _ones(known: Sequence[str], axles: Sequence[str]) -> list[float]:
    return [float(axle in axles) for axle in known]


def _independent(rows: Array) -> Array:
    """The first rows that are independent of those before them."""
    kept: list[Array] = []
    for row in rows:
        if not kept or least_squares(np.array(kept).T, row)[1] > OPEN:
            kept.append(row)
    return np.array(kept)
