"""Plan and weighings put together: what each weighing teaches about every mass.

The state has the masses of the lasting parts, the moment of each part whose place is uncertain, the gain and
the own errors of each bridge, and per weighing the contents and people of that day. It is updated once with
all readings of the book stacked, in the Joseph form, but never as an n x n matrix: the prior is diagonal save
for copies of one article, and what is asked for is always a few rows.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .axles import TRAILER_ROWS, Geometry, check_geometry, hitch_offset_kg
from .bridge import Bridge, gain_u, own_variance
from .errors import Duplicate, Unknown, check_range
from .linalg import Array, cho_solve, cholesky, finite
from .posterior import Component, Reconciled, terms
from .statics import Part, as_tuple, as_tuples, check_parts, design
from .weighing import Reading, SplitSetup, check_readings, reading_covariance


@dataclass(frozen=True, slots=True)
class Session:
    """One weighing: the parts as they stood that day, and the figures with their bridge.

    `lasting` are the base and items that were aboard, with the places of that day; `passing` the contents and
    people. `geometry` is that day's where it was another, with a trailer for instance.
    """

    id: str
    lasting: tuple[Part, ...]
    passing: tuple[Part, ...]
    readings: tuple[Reading, ...]
    bridge: Bridge
    setup: SplitSetup | None = None
    geometry: Geometry | None = None


def reconcile(
    *,
    lasting: Sequence[Part],
    geometry: Geometry,
    sessions: Sequence[Session],
    unlisted: Sequence[Part] = (),
    base_correlation: float = 0.0,
) -> Reconciled:
    """Prior from the plan's lasting parts, updated with every session's readings at once.

    Any set of readings counts, also one total alone; no sessions give the prior. Readings of the same axles in one
    state must have been merged. A part that only an earlier session had joins with its figures of that day; one
    with more or fewer copies than now counts in proportion. The moment of a levelling hitch is taken off the
    reading first. `unlisted` are parts that are aboard in every session, those of a trailer while it is on.
    `base_correlation` in [-1, 1] links the two base masses.
    """
    check_range("base_correlation", base_correlation, low=-1.0, high=1.0)
    check_geometry(geometry)
    check_parts((*lasting, *unlisted))
    _check_sessions(sessions)
    weighed = [session for session in sessions if session.readings]
    stacked = [_Stacked(session, session.geometry or geometry, unlisted) for session in weighed]
    posterior = Reconciled(_prior((*lasting, *unlisted), stacked), geometry, base_correlation)
    if stacked:
        posterior.learn(
            ids=[name for one in stacked for name in one.ids],
            design=np.vstack([one.rows(posterior) for one in stacked]),
            readings=np.concatenate([one.readings for one in stacked]),
            noise=_block_diagonal([one.noise for one in stacked]),
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
    keep their mass; without a reading everything stays. P - KHP is the same on paper and noise at a prior of 10^6
    against a reading of 10^-3.
    """
    mu, p, h = finite("mean", mean), finite("cov", cov), finite("design", design)
    y, v = finite("readings", readings), finite("noise", noise)
    if not len(y):
        return as_tuple(mu), as_tuples(p.reshape(len(mu), len(mu))), 0.0
    ph = p @ h.T
    lower = cholesky(h @ ph + v)
    gain = cho_solve(lower, ph.T).T
    innovation = y - h @ mu
    rest = np.eye(len(mu)) - gain @ h
    after = rest @ p @ rest.T + gain @ v @ gain.T
    chi2 = float(innovation @ cho_solve(lower, innovation))
    return as_tuple(mu + gain @ innovation), as_tuples((after + after.T) / 2), chi2


class _Stacked:
    """One session: its components of the state, its readings freed of the hitch's moment, and their noise."""

    def __init__(self, session: Session, geometry: Geometry, unlisted: Sequence[Part]) -> None:
        check_geometry(geometry)
        towed = geometry.trailer.id if geometry.trailer else None
        lasting = (*session.lasting, *(part for part in unlisted if part.on in ("vehicle", towed)))
        self.session, readings = session, session.readings
        self.ids = [f"{session.id}:{reading.id}" for reading in readings]
        self.readings = np.array(
            [one.value_kg - (0.0 if one.uncoupled else _hitch(one.axles, geometry)) for one in readings]
        )
        self.noise = np.array(
            reading_covariance(
                readings=readings,
                bridge=session.bridge,
                setup=session.setup,
                with_gain=False,
                own_share=1.0 - session.bridge.own_repeats,
            )
        )
        self.parts = (*lasting, *session.passing)
        self.axles = tuple(dict.fromkeys(axle for reading in readings for axle in reading.axles))
        d = design(parts=self.parts, geometry=geometry, rows=self.axles)
        self._columns = {"shares": d.shares, "per_m": d.per_m, "per_m_right": d.per_m_right}
        self._terms = [
            (f"{session.id}:{name}" if j >= len(lasting) else name, prior, columns, j)
            for j, part in enumerate(self.parts)
            for name, prior, columns in terms(part)
        ]

    def components(self) -> Iterator[tuple[str, Component]]:
        """Name and prior of everything that a reading of this session depends on."""
        for name, prior, _, _ in self._terms:
            yield name, prior
        bridge = self.session.bridge
        for reading in self.session.readings:
            yield _gain_name(bridge, reading), Component(0.0, gain_u(bridge=bridge), "gain")
            yield _own_name(bridge, reading), Component(0.0, 1.0, "own")

    def rows(self, posterior: Reconciled) -> Array:
        """The readings' rows over the state; of a thing with more copies than now, more of its component."""
        order = posterior.order
        shares = np.array([posterior.share_of(name, prior) for name, prior, _, _ in self._terms])
        places = [order[name] for name, _, _, _ in self._terms]
        bridge, out = self.session.bridge, np.zeros((len(self.readings), len(order)))
        for row, reading in zip(out, self.session.readings, strict=True):
            mask = self._mask(reading)
            summed = {name: (mask * matrix).sum(axis=0) for name, matrix in self._columns.items()}
            row[places] = [summed[columns][j] for _, _, columns, j in self._terms] * shares
            own = own_variance(bridge=bridge, value_kg=reading.value_kg)
            row[order[_gain_name(bridge, reading)]] = reading.value_kg
            row[order[_own_name(bridge, reading)]] = sqrt(bridge.own_repeats * own)
        return out

    def _mask(self, reading: Reading) -> Array:
        """Which parts a reading feels on which axle: an uncoupled trailer does not press on the vehicle."""

        def feels(axle: str, part: Part) -> bool:
            apart = reading.uncoupled and part.on != "vehicle" and axle not in TRAILER_ROWS
            return axle in reading.axles and part.id not in reading.without and not apart

        return np.array([[float(feels(axle, part)) for part in self.parts] for axle in self.axles])


def _gain_name(bridge: Bridge, reading: Reading) -> str:
    return f"gain:{bridge.key}:{reading.deck}"


def _own_name(bridge: Bridge, reading: Reading) -> str:
    return f"own:{bridge.key}:{reading.deck}:{reading.axle_key}"


def _hitch(axles: Sequence[str], geometry: Geometry) -> float:
    return sum(hitch_offset_kg(row=row, geometry=geometry) for row in axles)


def _prior(lasting: Sequence[Part], stacked: Sequence[_Stacked]) -> dict[str, Component]:
    """The plan's lasting parts as they are now, then what only the sessions have.

    One bridge entered with different intervals has the greatest gain error of them.
    """
    prior = {name: one for part in lasting for name, one, _ in terms(part)}
    for session in stacked:
        for name, one in session.components():
            if name not in prior or (one.kind == "gain" and one.u > prior[name].u):
                prior[name] = one
    return prior


def _block_diagonal(blocks: Sequence[Array]) -> Array:
    size = sum(len(block) for block in blocks)
    out, at = np.zeros((size, size)), 0
    for block in blocks:
        out[at : at + len(block), at : at + len(block)] = block
        at += len(block)
    return out


def _check_sessions(sessions: Sequence[Session]) -> None:
    seen: set[str] = set()
    for session in sessions:
        if session.id in seen:
            raise Duplicate("session", session.id)
        seen.add(session.id)
        check_parts((*session.lasting, *session.passing))
        check_readings(session.readings)
        check_range("own_repeats", session.bridge.own_repeats, low=0.0, high=1.0)
        known = [part.id for part in (*session.lasting, *session.passing)]
        for name in (name for reading in session.readings for name in reading.without):
            if name not in known:
                raise Unknown("without", name, known)
