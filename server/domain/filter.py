"""How much is in the tanks and how fast it goes: one linear Kalman filter, for fuel and for water.

State [V_1..V_T, b_1..b_K]: litres in each tank, and a rate for each class (a surface; with a trailer or not).
Kalman 1960, J. Basic Eng. 82:35 (from memory). `kappa` says how unsteady the rate is from one leg to the next;
`bank` runs the filter for several of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from math import pi, sqrt

import numpy as np

from .errors import DomainError, Duplicate, Redundant, Unknown, check_range
from .events import (
    Change,
    Event,
    Fill,
    Full,
    Gauge,
    Level,
    Missed,
    Observation,
    Pour,
    Rescale,
    Start,
    Transfer,
    Use,
    check_event,
)
from .linalg import Array, tuples

Matrix = tuple[tuple[float, ...], ...]

DIVISORS = ("per", "walk_ref")  # settings that something is divided by

MOST_STATES = (
    12  # tanks and classes together: all six classes and as many tanks; beyond it nothing was tested
)


@dataclass(frozen=True, slots=True)
class Settings:
    """What the filter assumes; each figure may be replaced by the user's own.

    `u_common` and `u_class`: prior u of the rates, relative, common to all and of each class. `walk` and
    `walk_class`: their drift per sqrt(`walk_ref`), relative. `ell`: the length of a leg for which kappa is the
    unsteadiness. `fill_u`: u of litres put in, relative; `full_u_l`: of the shut-off; `gauge_u`: of a gauge,
    as a share of the capacity.
    """

    per: float
    u_common: float
    u_class: float
    walk: float
    walk_class: float
    walk_ref: float
    ell: float
    fill_u: float
    full_u_l: float
    gauge_u: float


@dataclass(frozen=True, slots=True)
class Model:
    """Tanks with their capacity to the shut-off, classes with their prior rates, and the settings.

    `full_u_l`: u of each tank's shut-off; None where each has that of the settings.
    """

    tank_ids: tuple[str, ...]
    capacity_l: tuple[float, ...]
    class_ids: tuple[str, ...]
    rate0: tuple[float, ...]
    settings: Settings
    full_u_l: tuple[float, ...] | None = None


@dataclass(frozen=True, slots=True)
class Estimate:
    """Mean and covariance of the state. `scale` multiplies the prior rates after a `Rescale`."""

    mean: tuple[float, ...]
    cov: Matrix
    log_likelihood: float = 0.0
    scale: float = 1.0


@dataclass(frozen=True, slots=True)
class Innovation:
    """An observation minus what was expected of it, litres; its variance; and the ratio z = nu / sqrt(s)."""

    nu_l: float
    s_l2: float
    z: float


def check_model(*, model: Model) -> None:
    """Refuse capacities, rates, `per`, `walk_ref` not above 0, other settings below 0, names twice, over 12 states."""
    for field, names in (("tank_ids", model.tank_ids), ("class_ids", model.class_ids)):
        if len(set(names)) != len(names):
            raise Duplicate(field, list(names))
    counts = (("capacity_l", model.tank_ids), ("rate0", model.class_ids), ("full_u_l", model.tank_ids))
    for field, names in counts:
        figures = getattr(model, field)
        if figures is not None and len(figures) != len(names):
            raise DomainError(field, list(figures), f"{len(names)} numbers, one for each name")
    for value in model.capacity_l:
        check_range("capacity_l", value, above=0.0, unit="L")
    for value in model.rate0:
        check_range("rate0", value, above=0.0)
    for value in model.full_u_l or ():
        check_range("full_u_l", value, low=0.0, unit="L")
    for name in (one.name for one in fields(Settings)):
        value = getattr(model.settings, name)
        check_range(name, value, low=0.0, above=0.0 if name in DIVISORS else None)
    lowest = min(len(model.tank_ids), len(model.class_ids))
    check_range("states", len(model.tank_ids) + len(model.class_ids), high=MOST_STATES)
    check_range("tanks and classes", lowest, low=1)


def prior(*, model: Model) -> Estimate:
    """What is known before the first entry: levels anything between empty and full, rates near their guess.

    V ~ N(C/2, C^2/12); b ~ N(b0, u_common^2 b0 b0' + diag(u_class^2 b0_i^2)). The common part lets one class
    teach the others.
    """
    check_model(model=model)
    rate0, capacity = np.array(model.rate0), np.array(model.capacity_l)
    tanks = len(capacity)
    cov = np.zeros((tanks + len(rate0),) * 2)
    cov[:tanks, :tanks] = np.diag(capacity**2 / 12)
    own = np.diag((model.settings.u_class * rate0) ** 2)
    cov[tanks:, tanks:] = model.settings.u_common**2 * np.outer(rate0, rate0) + own
    return Estimate(tuples(np.concatenate([capacity / 2, rate0])), tuples(cov))


def advance(*, model: Model, kappa: float, estimate: Estimate, event: Event) -> Estimate:
    """The estimate after one event; the one before stays as it is and can be continued again.

    `use` D: V_t -= f_t b_i D/per with the exact noise of a rate in Brownian motion, so that a leg cut in two
    is the same leg (Van Loan 1978, from memory). `full`, `gauge` and `level` are observations: Joseph update,
    log-likelihood added. kappa >= 0. Refused: see `check_event`, unknown tank or class.
    """
    return advance_all(model=model, kappas=(kappa,), estimates=(estimate,), event=event)[0]


def advance_all(
    *, model: Model, kappas: Sequence[float], estimates: Sequence[Estimate], event: Event
) -> tuple[Estimate, ...]:
    """`advance` for several kappas at once, each with its own estimate."""
    for kappa in kappas:
        check_range("kappa", kappa, low=0.0)
    check_event(event=event, tanks=len(model.tank_ids), capacity_l=_capacity_of(model, event))
    every = _stacked(estimates)
    if isinstance(event, Full | Gauge | Level):
        _observe(model, event, every)
    elif isinstance(event, Use):
        _use(model, np.array(kappas), event, every)
    elif isinstance(event, Change | Rescale):
        _rates(model, event, every)
    else:
        _levels(model, event, every)
    return _unstacked(every)


def innovation(*, model: Model, estimate: Estimate, event: Observation) -> Innovation:
    """What an observation says against what was expected: nu = y - h'x, s = h'P h + r.

    s = 0, where a level without error is observed without error, is refused with `Redundant`.
    """
    return innovations(model=model, estimates=(estimate,), event=event)[0]


def innovations(*, model: Model, estimates: Sequence[Estimate], event: Observation) -> tuple[Innovation, ...]:
    """`innovation` against several estimates at once."""
    check_event(event=event, tanks=len(model.tank_ids), capacity_l=_capacity_of(model, event))
    nu, s = _innovations(model, event, _stacked(estimates))
    return tuple(Innovation(a, b, a / sqrt(b)) for a, b in zip(nu.tolist(), s.tolist(), strict=True))


def total_left(*, model: Model, estimate: Estimate) -> tuple[float, float]:
    """Litres in all tanks together and their variance."""
    tanks = len(model.tank_ids)
    cov = np.array(estimate.cov)
    return float(sum(estimate.mean[:tanks])), float(cov[:tanks, :tanks].sum())


def tank_index(model: Model, tank_id: str) -> int:
    """Place of a tank in the state; refuses a tank that is not there."""
    if tank_id not in model.tank_ids:
        raise Unknown("tank_id", tank_id, model.tank_ids)
    return model.tank_ids.index(tank_id)


def class_index(model: Model, class_id: str) -> int:
    """Place of a class in the state; refuses a class that is not there."""
    if class_id not in model.class_ids:
        raise Unknown("class_id", class_id, model.class_ids)
    return len(model.tank_ids) + model.class_ids.index(class_id)


def shut_off_u(*, model: Model) -> tuple[float, ...]:
    """u of each tank's shut-off, L: the tank's own, or that of the settings."""
    usual = (model.settings.full_u_l,) * len(model.tank_ids)
    return usual if model.full_u_l is None else model.full_u_l


def rate_drift(*, model: Model, class_id: str, scale: float = 1.0) -> Matrix:
    """G, the growth of the rates' covariance per amount while `class_id` is used.

    (walk^2 b0 b0' + walk_class^2 b0_i^2 e_i e_i') / walk_ref: all drift together, only the class in use alone.
    """
    i = class_index(model, class_id) - len(model.tank_ids)
    rate0 = scale * np.array(model.rate0)
    drift = model.settings.walk**2 * np.outer(rate0, rate0)
    drift[i, i] += (model.settings.walk_class * rate0[i]) ** 2
    out: Matrix = tuples(drift / model.settings.walk_ref)
    return out


def leg_noise(*, model: Model, kappa: float, class_id: str, scale: float = 1.0) -> float:
    """q, variance of the draw per amount from the unsteadiness kappa, L^2: (kappa b0_i / per)^2 ell."""
    i = class_index(model, class_id) - len(model.tank_ids)
    return (kappa * scale * model.rate0[i] / model.settings.per) ** 2 * model.settings.ell


@dataclass
class _Stack:
    """Several estimates as arrays whose first axis counts them; changed in place."""

    mean: Array
    cov: Array
    log_likelihood: Array
    scale: Array


def _stacked(estimates: Sequence[Estimate]) -> _Stack:
    return _Stack(
        np.array([one.mean for one in estimates]),
        np.array([one.cov for one in estimates]),
        np.array([one.log_likelihood for one in estimates]),
        np.array([one.scale for one in estimates]),
    )


def _unstacked(every: _Stack) -> tuple[Estimate, ...]:
    every.cov = (every.cov + every.cov.transpose(0, 2, 1)) / 2
    columns = (every.mean.tolist(), every.cov.tolist(), every.log_likelihood.tolist(), every.scale.tolist())
    return tuple(
        Estimate(tuple(mean), tuple(map(tuple, cov)), log_likelihood, scale)
        for mean, cov, log_likelihood, scale in zip(*columns, strict=True)
    )


def _use(model: Model, kappas: Array, event: Use, every: _Stack) -> None:
    i, tanks, per = class_index(model, event.class_id), len(model.tank_ids), model.settings.per
    f, amount = np.array(event.shares or (1.0,)), event.amount
    draw = f * amount / per
    mean, cov = every.mean, every.cov
    mean[:, :tanks] -= draw * mean[:, i, None]
    cov[:, :tanks, :] -= draw[:, None] * cov[:, i, None, :]
    cov[:, :, :tanks] -= cov[:, :, i, None] * draw
    drift = every.scale[:, None, None] ** 2 * np.array(rate_drift(model=model, class_id=event.class_id))
    own = drift[:, i - tanks, :]
    cross = -f[:, None] * own[:, None, :] * amount**2 / (2 * per)
    q = kappas**2 * leg_noise(model=model, kappa=1.0, class_id=event.class_id) * every.scale**2
    within = own[:, i - tanks] * amount**3 / (3 * per**2) + q * amount
    cov[:, tanks:, tanks:] += drift * amount
    cov[:, :tanks, tanks:] += cross
    cov[:, tanks:, :tanks] += cross.transpose(0, 2, 1)
    cov[:, :tanks, :tanks] += np.outer(f, f) * within[:, None, None]


def _levels(model: Model, event: Start | Fill | Missed | Transfer | Pour, every: _Stack) -> None:
    t = tank_index(model, event.tank_id)
    if isinstance(event, Fill):
        every.mean[:, t] += event.litres_l
        u = model.settings.fill_u * event.litres_l if event.litres_u_l is None else event.litres_u_l
        every.cov[:, t, t] += u**2
    elif isinstance(event, Start):
        _set_level(every, t, event.litres_l, event.litres_u_l**2)
    elif isinstance(event, Missed):
        _set_level(every, t, model.capacity_l[t] / 2, model.capacity_l[t] ** 2 / 12)
    else:
        _move(model, t, event, every)


def _move(model: Model, t: int, event: Transfer | Pour, every: _Stack) -> None:
    into = None if event.into_id is None else tank_index(model, event.into_id)
    mean, cov = every.mean, every.cov
    if into == t:
        raise Duplicate("into_id", event.into_id, "Choose another tank or none")
    if isinstance(event, Pour):
        if into is not None:
            mean[:, into] += mean[:, t]
            cov[:, into, :] += cov[:, t, :]
            cov[:, :, into] += cov[:, :, t]
        _set_level(every, t, 0.0, 0.0)
        return
    step = np.zeros(mean.shape[1])
    step[t] = -1.0
    if into is not None:
        step[into] = 1.0
    mean += event.litres_l * step
    cov += event.litres_u_l**2 * np.outer(step, step)


def _set_level(every: _Stack, t: int, litres: float, variance: float) -> None:
    every.mean[:, t] = litres
    every.cov[:, t, :] = 0.0
    every.cov[:, :, t] = 0.0
    every.cov[:, t, t] = variance


def _rates(model: Model, event: Change | Rescale, every: _Stack) -> None:
    tanks, rate0 = len(model.tank_ids), np.array(model.rate0)
    if isinstance(event, Change):
        every.cov[:, tanks:, tanks:] += (
            event.rate_u**2 * np.outer(rate0, rate0) * every.scale[:, None, None] ** 2
        )
        return
    every.scale = every.scale * event.ratio
    every.mean[:, tanks:] *= event.ratio
    every.cov[:, tanks:, :] *= event.ratio
    every.cov[:, :, tanks:] *= event.ratio


def _observe(model: Model, event: Observation, every: _Stack) -> None:
    nu, s = _innovations(model, event, every)
    h, _, r = _observed(model, event)
    gain = (every.cov @ h) / s[:, None]
    every.mean = every.mean + gain * nu[:, None]
    # Joseph form (I - kh')P(I - kh')' + r kk', by its rank-one products
    half = every.cov - gain[:, :, None] * (h @ every.cov)[:, None, :]
    down = half @ h
    every.cov = half + (r * gain - down)[:, :, None] * gain[:, None, :]
    every.log_likelihood = every.log_likelihood - (np.log(2 * pi * s) + nu**2 / s) / 2


def _innovations(model: Model, event: Observation, every: _Stack) -> tuple[Array, Array]:
    h, y, r = _observed(model, event)
    s = (every.cov @ h) @ h + r
    if s.min() <= 0:
        raise Redundant()
    return y - every.mean @ h, s


def _observed(model: Model, event: Observation) -> tuple[Array, float, float]:
    """Row h, value y and variance r of an observation."""
    h = np.zeros(len(model.tank_ids) + len(model.class_ids))
    if isinstance(event, Full):
        places = [tank_index(model, tank_id) for tank_id in event.tank_ids]
        h[places] = 1.0
        each = shut_off_u(model=model)
        usual = sum(each[t] ** 2 for t in places)
        r = usual if event.litres_u_l is None else event.litres_u_l**2
        return h, sum(model.capacity_l[t] for t in places), r
    t = tank_index(model, event.tank_id)
    h[t] = 1.0
    if isinstance(event, Level):
        return h, event.litres_l, event.litres_u_l**2
    share = model.settings.gauge_u if event.fraction_u is None else event.fraction_u
    return h, event.fraction * model.capacity_l[t], (share * model.capacity_l[t]) ** 2


def _capacity_of(model: Model, event: Event) -> float | None:
    return model.capacity_l[tank_index(model, event.tank_id)] if isinstance(event, Fill) else None
