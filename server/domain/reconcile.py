"""Plan and weighings put together: what each weighing teaches about every mass.

The state has the masses of the lasting parts, the position moment of each part whose place is uncertain, the
gain and the own errors of each bridge, and per weighing the contents and people of that day. It is updated
once with all readings of the book stacked, in the Joseph form, but never as an n x n matrix: the prior is
diagonal save for copies of one article, and what is asked for is always a few rows.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .errors import Duplicate, check_range
from .linalg import Array, cho_solve, cholesky
from .normal import chi2_upper
from .statics import Geometry, Loads, Part, as_tuple, as_tuples, share, slope
from .weighing import OWN_REPEATS, Bridge, Reading, SplitSetup, gain_u, own_variance, reading_covariance

Coefficients = dict[str, float]


@dataclass(frozen=True, slots=True)
class Session:
    """One weighing: the parts as they stood that day, and the figures with their bridge.

    `lasting` are the base and items that were aboard, with the places of that day; `passing` the contents and
    people.
    """

    id: str
    lasting: tuple[Part, ...]
    passing: tuple[Part, ...]
    readings: tuple[Reading, ...]
    bridge: Bridge
    setup: SplitSetup | None = None


@dataclass(frozen=True, slots=True)
class Learnt:
    """One lasting mass before and after; `told` = 1 - (u+/u)^2 is the share of variance removed."""

    id: str
    plan_kg: float
    plan_u_kg: float
    now_kg: float
    now_u_kg: float
    told: float


@dataclass(frozen=True, slots=True)
class _Component:
    mean: float
    u: float
    article: str | None = None


class Reconciled:
    """The posterior of a book after its weighings; made by `reconcile`."""

    def __init__(self, prior: Mapping[str, _Component], geometry: Geometry) -> None:
        self._prior = dict(prior)
        self._geometry = geometry
        self._order = {name: i for i, name in enumerate(self._prior)}
        self._mean = np.array([one.mean for one in self._prior.values()])
        self._u = np.array([one.u for one in self._prior.values()])
        self._groups = self._articles()
        self._h = np.zeros((0, len(self._order)))
        self._gain = np.zeros((len(self._order), 0))
        self._noise = np.zeros((0, 0))
        self._shift = np.zeros(len(self._order))
        self.chi2, self.dof, self.p = 0.0, 0, None

    chi2: float
    dof: int
    p: float | None

    def learn(self, h: Array, y: Array, noise: Array) -> None:
        """The one stacked update: K = P H' S^-1, mean += K (y - H mean)."""
        ph = self._times(h.T)
        lower = cholesky(h @ ph + noise)
        innovation = y - h @ self._mean
        self._h, self._noise = h, noise
        self._gain = cho_solve(lower, ph.T).T
        self._shift = self._gain @ innovation
        self.chi2 = float(innovation @ cho_solve(lower, innovation))
        self.dof = len(y)
        self.p = chi2_upper(self.chi2, self.dof)

    def row(self, coefficients: Coefficients) -> Array:
        """A row over the state's components; names that it does not have are the caller's."""
        out = np.zeros(len(self._order))
        for name, value in coefficients.items():
            if name in self._order:
                out[self._order[name]] += value
        return out

    def rows(self, a: Array) -> tuple[Array, Array]:
        """Mean and covariance of rows a (k, n): a P+ a' = (a - a K H) P (a - a K H)' + a K V (a K)'."""
        through = a @ self._gain
        rest = a - through @ self._h
        cov = rest @ self._times(rest.T) + through @ self._noise @ through.T
        return a @ (self._mean + self._shift), cov

    def loads(self, *, lasting: Sequence[Part], passing: Sequence[Part], rows: Sequence[str]) -> Loads:
        """Loads in any state: A mu+ + contents, covariance A P+ A' + the contents' own.

        Never "reading plus difference": that would keep the day's level error. An item that the weighings did
        not have counts with its plan.
        """
        mean, cov = self.rows(
            np.array([self.row(_coefficients(lasting, row, self._geometry)) for row in rows]).reshape(
                len(rows), len(self._order)
            )
        )
        mean, cov = mean.copy(), cov.copy()
        known, moments = set(self._prior), {moment_id(part) for part in lasting}
        for part in (*lasting, *passing):
            shares = np.array([_share(part, row, self._geometry) for row in rows])
            slopes = np.array([slope(row=row, geometry=self._geometry) for row in rows])
            if part.id not in known:
                mean += shares * part.mass_kg
                cov += np.outer(shares, shares) * part.mass_u_kg**2
            if part.x_u_m > 0 and not (moment_id(part) in known and moment_id(part) in moments):
                cov += np.outer(slopes, slopes) * _moment_u(part) ** 2
        return Loads(tuple(rows), as_tuple(mean), as_tuples(cov))

    def learnt(self, part_id: str) -> Learnt:
        """What the weighings say of one lasting mass."""
        prior = self._prior[part_id]
        mean, cov = self.rows(self.row({part_id: 1.0})[None, :])
        variance = max(float(cov[0, 0]), 0.0)
        told = 0.0 if prior.u == 0 else max(0.0, 1.0 - variance / prior.u**2)
        return Learnt(part_id, prior.mean, prior.u, float(mean[0]), sqrt(variance), told)

    def _times(self, columns: Array) -> Array:
        out: Array = (self._u**2)[:, None] * columns
        for members in self._groups:
            out[members] = np.outer(self._u[members], self._u[members] @ columns[members])
        return out

    def _articles(self) -> list[list[int]]:
        groups: dict[str, list[int]] = {}
        for i, one in enumerate(self._prior.values()):
            if one.article is not None:
                groups.setdefault(one.article, []).append(i)
        return [members for members in groups.values() if len(members) > 1]


def reconcile(*, lasting: Sequence[Part], geometry: Geometry, sessions: Sequence[Session]) -> Reconciled:
    """Prior from the plan's lasting parts, updated with every session's readings at once.

    Any set of readings counts, also one total alone; no sessions give the prior. Readings of the same axles
    in a session must have been merged. A part that only an earlier session had joins with its figures of that
    day.
    """
    prior = _prior(lasting, sessions)
    posterior = Reconciled(prior, geometry)
    stacked = [_stack(posterior, session, geometry) for session in sessions if session.readings]
    if stacked:
        sizes = [len(y) for _, y, _ in stacked]
        noise = np.zeros((sum(sizes), sum(sizes)))
        at = 0
        for (_, _, block), size in zip(stacked, sizes, strict=True):
            noise[at : at + size, at : at + size] = block
            at += size
        posterior.learn(
            np.vstack([h for h, _, _ in stacked]), np.concatenate([y for _, y, _ in stacked]), noise
        )
    return posterior


def update(
    *,
    mean: Sequence[float],
    cov: Sequence[Sequence[float]],
    design: Sequence[Sequence[float]],
    readings: Sequence[float],
    noise: Sequence[Sequence[float]],
) -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...], float]:
    """One Joseph-form update of a full state: mean, covariance and chi2 of the innovation.

    mu+ = mu + K e, P+ = (I - KH) P (I - KH)' + K V K' (Bucy & Joseph 1968, from memory). Parts with u = 0
    keep their mass. P - KHP is the same on paper and noise at a prior of 10^6 against a reading of 10^-3.
    """
    mu, p, h = np.array(mean), np.array(cov), np.array(design)
    y, v = np.array(readings), np.array(noise)
    ph = p @ h.T
    lower = cholesky(h @ ph + v)
    gain = cho_solve(lower, ph.T).T
    innovation = y - h @ mu
    rest = np.eye(len(mu)) - gain @ h
    after = rest @ p @ rest.T + gain @ v @ gain.T
    chi2 = float(innovation @ cho_solve(lower, innovation))
    return as_tuple(mu + gain @ innovation), as_tuples((after + after.T) / 2), chi2


def moment_id(part: Part) -> str:
    """The name of a part's position moment: an item put elsewhere gets a new one."""
    return f"{part.id}@{part.x_m:.4f}"


def _moment_u(part: Part) -> float:
    return sqrt(part.mass_kg**2 + part.mass_u_kg**2) * part.x_u_m


def _share(part: Part, row: str, geometry: Geometry) -> float:
    return part.sign * share(row=row, geometry=geometry, x_m=part.x_m, roof=part.roof)


def _coefficients(parts: Sequence[Part], row: str, geometry: Geometry) -> Coefficients:
    out: Coefficients = {}
    for part in parts:
        out[part.id] = _share(part, row, geometry)
        if part.x_u_m > 0:
            out[moment_id(part)] = slope(row=row, geometry=geometry)
    return out


def _prior(lasting: Sequence[Part], sessions: Sequence[Session]) -> dict[str, _Component]:
    prior: dict[str, _Component] = {}
    for part in lasting:
        if part.id in prior:
            raise Duplicate("id", part.id)
        check_range("mass_kg", part.mass_kg, low=0.0, unit="kg")
        check_range("mass_u_kg", part.mass_u_kg, low=0.0, unit="kg")
        prior[part.id] = _Component(part.mass_kg, part.mass_u_kg, part.article)
    for part in (*lasting, *(part for session in sessions for part in session.lasting)):
        prior.setdefault(part.id, _Component(part.mass_kg, part.mass_u_kg, part.article))
        if part.x_u_m > 0:
            prior.setdefault(moment_id(part), _Component(0.0, _moment_u(part)))
    for session in sessions:
        for part in session.passing:
            prior[f"{session.id}:{part.id}"] = _Component(part.mass_kg, part.mass_u_kg)
            if part.x_u_m > 0:
                prior[f"{session.id}:{moment_id(part)}"] = _Component(0.0, _moment_u(part))
        prior.setdefault(_gain_id(session.bridge), _Component(0.0, gain_u(bridge=session.bridge)))
        for reading in session.readings:
            prior.setdefault(_own_id(session.bridge, reading), _Component(0.0, 1.0))
    return prior


def _stack(posterior: Reconciled, session: Session, geometry: Geometry) -> tuple[Array, Array, Array]:
    rows = [posterior.row(_reading_row(session, reading, geometry)) for reading in session.readings]
    noise = reading_covariance(
        readings=session.readings,
        bridge=session.bridge,
        setup=session.setup,
        with_gain=False,
        own_share=1.0 - OWN_REPEATS,
    )
    return np.array(rows), np.array([reading.value_kg for reading in session.readings]), np.array(noise)


def _reading_row(session: Session, reading: Reading, geometry: Geometry) -> Coefficients:
    out: Coefficients = {}
    _add_parts(out, session.lasting, reading, geometry, lambda name: name)
    _add_parts(out, session.passing, reading, geometry, lambda name: f"{session.id}:{name}")
    own = own_variance(bridge=session.bridge, value_kg=reading.value_kg)
    out[_gain_id(session.bridge)] = reading.value_kg
    out[_own_id(session.bridge, reading)] = sqrt(OWN_REPEATS * own)
    return out


def _add_parts(
    out: Coefficients,
    parts: Sequence[Part],
    reading: Reading,
    geometry: Geometry,
    name: Callable[[str], str],
) -> None:
    steep = sum(slope(row=axle, geometry=geometry) for axle in reading.axles)
    for part in parts:
        out[name(part.id)] = sum(_share(part, axle, geometry) for axle in reading.axles)
        if part.x_u_m > 0:
            out[name(moment_id(part))] = steep


def _gain_id(bridge: Bridge) -> str:
    return f"gain:{bridge.key}"


def _own_id(bridge: Bridge, reading: Reading) -> str:
    return f"own:{bridge.key}:{'+'.join(sorted(reading.axles))}"
