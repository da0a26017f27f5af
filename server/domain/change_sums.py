"""Limits as sums over parts: what is fixed, and what each option of a thing that may move would bring.

Masses and places that weighings have taught are tied together; those of things that may move become shared errors of
`advice`, so that its variances are those of the posterior. All else is independent.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from .advice import Limit, Option, Share
from .axles import Geometry, hitch_offset_kg
from .book import Row
from .linalg import Array
from .parts import Fuel, density_of, position_u_m
from .posterior import Reconciled, terms
from .statics import Part, design, product_moments


@dataclass(frozen=True, slots=True)
class Sum:
    """A limit as a sum of loads: its name, how much of each row, the bound."""

    id: str
    of: Mapping[str, float]
    limit_kg: float
    least: bool = False


@dataclass(frozen=True, slots=True)
class Liquid:
    """A tank's content for pouring: mass of a full tank, its load per kg on each limit, and two errors that it has."""

    full_kg: float
    shares: Array
    per_m: Array
    mass_error: int
    place_error: int


class Sums:
    """The limits of one state, filled part by part."""

    def __init__(self, *, posterior: Reconciled, geometry: Geometry, sums: Sequence[Sum]) -> None:
        self._posterior, self._geometry, self._sums = posterior, geometry, sums
        self._rows = tuple(dict.fromkeys(row for one in sums for row in one.of))
        self._weights = np.array([[one.of.get(row, 0.0) for row in self._rows] for one in sums])
        self._a = np.zeros((len(sums), len(posterior.order)))
        offsets = [hitch_offset_kg(row=row, geometry=geometry) for row in self._rows]
        self._mean: Array = self._weights @ np.array(offsets)
        self._own = np.zeros(len(sums))
        self._errors: list[str | tuple[float, Array]] = []

    def fix(self, part: Part, session: str | None = None) -> None:
        """A part that stays; `session` names the weighing whose contents and people it is one of."""
        columns = self._columns(part)
        for name, prior, column in terms(part):
            known = name if session is None else f"{session}:{name}"
            place = self._posterior.order.get(known)
            if place is None:
                self._mean = self._mean + columns[column] * prior.mean
                self._own = self._own + columns[column] ** 2 * prior.u**2
            else:
                self._a[:, place] += columns[column] * self._posterior.share_of(known, prior)

    def fix_worst(self, content: Part, z: float) -> None:
        """A content at the end, full or empty, where each limit's load is worst.

        Where it lifts the row but its u, z times, weighs more than its load, the u counts without the lift: never less
        than either end.
        """
        columns = self._columns(content)
        signs = np.array([-1.0 if one.least else 1.0 for one in self._sums])
        load = sum(columns[column] * prior.mean for _, prior, column in terms(content))
        variance = sum(columns[column] ** 2 * prior.u**2 for _, prior, column in terms(content))
        pushes = signs * load >= 0.0
        self._mean = self._mean + np.where(pushes, load, 0.0)
        unsure = z * np.sqrt(variance) > np.abs(load)
        self._own = self._own + np.where(pushes | unsure, variance, 0.0)

    def option(self, id: str, part: Part) -> Option:
        """A thing at a place."""
        return self._option(id, part, self._columns(part))

    def divided(self, id: str, here: Part, there: Part | None, copies: int, apart_kg2: float) -> Option:
        """So many copies of a thing put elsewhere or left, the others where they are; each copy is a move.

        With the share s of M that goes, the load is (1 - s) a M + s b M with the loads per kg a here and b there.
        Copies that were weighed singly have `apart_kg2`, the variance of s M while M is known, and (b - a)^2 times
        it beside. What goes has an error of its place of its own; what stays keeps its share of the one that it
        had.
        """
        share = copies / here.copies
        near = self._columns(here)
        zero = np.zeros(len(self._sums))
        far = self._columns(there) if there else {"shares": zero, "per_m": zero, "per_m_right": zero}
        blend = {name: (1 - share) * column for name, column in near.items()}
        blend["shares"] = blend["shares"] + share * far["shares"]
        slopes = near["per_m"] ** 2 * here.x_u_m**2 + near["per_m_right"] ** 2 * here.y_u_m**2
        own = apart_kg2 * ((far["shares"] - near["shares"]) ** 2 + slopes)
        for _, prior, column in terms(there) if there else ():
            own = own + (0.0 if prior.kind == "mass" else far[column] ** 2 * prior.u**2)
        off_kg = 0.0 if there else share * self.mass_kg(here)
        return replace(self._option(id, here, blend, own), off_kg=off_kg, moves=copies)

    def _option(self, id: str, part: Part, columns: Mapping[str, Array], own: Array | float = 0.0) -> Option:
        loads, own, shares = np.zeros(len(self._sums)), np.zeros(len(self._sums)) + own, []
        for name, prior, column in terms(part):
            place = self._posterior.order.get(name)
            if place is None:
                loads = loads + columns[column] * prior.mean
                own = own + columns[column] ** 2 * prior.u**2
            elif columns[column].any():
                counted = columns[column] * self._posterior.share_of(name, prior)
                loads = loads + counted * float(self._posterior.mean[place])
                shares.append(Share(self._error(name), _floats(counted)))
        return Option(id, _floats(loads), _floats(own), shares=tuple(shares))

    def nothing(self, id: str, off_kg: float = 0.0) -> Option:
        """A thing that is not there."""
        none = (0.0,) * len(self._sums)
        return Option(id, none, none, off_kg=off_kg)

    def liquid(self, tank: Row, fuel: Fuel, content: Part, level: float, known: bool) -> Liquid:
        """A tank whose content may be poured: its load is rho C l, with the error of rho C, and of its place.

        `known` says that weighings speak of the content itself; what is poured from it then errs by itself.
        """
        mass, u = product_moments(
            density_of(tank.body, fuel),
            (float(tank.body["capacity_l"]), float(tank.body.get("capacity_u_l") or 0.0)),
        )
        columns = self._columns(content)
        square = (mass**2 + u**2) * position_u_m(tank.body) ** 2
        tied = 0.0 if known else level
        errors = [(u**2, columns["shares"] * tied * u**2), (square, columns["per_m"] * tied * square)]
        self._errors += errors
        first = len(self._errors) - 2
        return Liquid(mass, columns["shares"], columns["per_m"], first, first + 1)

    def poured(self, id: str, share: float, of: Liquid, into: tuple[Liquid, float] | None) -> Option:
        """A share of a full tank let out, or poured `into` another one, of which it is another share."""
        loads, shares = np.zeros(len(self._sums)), []
        for liquid, amount in ((of, -share), *(() if into is None else (into,))):
            loads = loads + liquid.shares * liquid.full_kg * amount
            shares.append(Share(liquid.mass_error, _floats(liquid.shares * amount)))
            shares.append(Share(liquid.place_error, _floats(liquid.per_m * amount)))
        off_kg = share * of.full_kg if into is None else 0.0
        return Option(id, _floats(loads), (0.0,) * len(self._sums), off_kg=off_kg, shares=tuple(shares))

    def mass_kg(self, part: Part) -> float:
        """A part's mass as plan and weighings have it, or by the plan alone where they do not know it; >= 0."""
        name, prior, _ = next(iter(terms(part)))
        place = self._posterior.order.get(name)
        if place is None:
            return prior.mean
        return max(float(self._posterior.mean[place]), 0.0) * self._posterior.share_of(name, prior)

    def knows(self, name: str) -> bool:
        """Whether plan and weighings speak of a mass."""
        return name in self._posterior.order

    def finish(self) -> tuple[tuple[Limit, ...], tuple[tuple[float, ...], ...]]:
        """The limits, with how their fixed loads go with the shared errors, and the covariance of these."""
        count, size = len(self._sums), len(self._errors)
        names = [one for one in self._errors if isinstance(one, str)]
        units = np.array([self._posterior.unit(name) for name in names]).reshape(len(names), self._a.shape[1])
        mean, cov = self._posterior.rows(np.vstack([self._a, units]))
        linked, errors = np.zeros((count, size)), np.zeros((size, size))
        at = [i for i, one in enumerate(self._errors) if isinstance(one, str)]
        linked[:, at] = cov[:count, count:]
        errors[np.ix_(at, at)] = cov[count:, count:]
        for i, one in enumerate(self._errors):
            if not isinstance(one, str):
                errors[i, i], linked[:, i] = one
        variances = self._own + np.diag(cov)[:count]
        limits = tuple(
            Limit(
                one.id,
                one.limit_kg,
                float(self._mean[k] + mean[k]),
                max(float(variances[k]), 0.0),
                one.least,
                _floats(linked[k]),
            )
            for k, one in enumerate(self._sums)
        )
        return limits, tuple(_floats(row) for row in errors)

    def _columns(self, part: Part) -> dict[str, Array]:
        d = design(parts=[part], geometry=self._geometry, rows=self._rows)
        return {
            "shares": self._weights @ d.shares[:, 0],
            "per_m": self._weights @ d.per_m[:, 0],
            "per_m_right": self._weights @ d.per_m_right[:, 0],
        }

    def _error(self, name: str) -> int:
        if name not in self._errors:
            self._errors.append(name)
        return self._errors.index(name)


def _floats(values: Array) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
