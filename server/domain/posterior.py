"""What is known of every mass once the weighings have spoken, asked for row by row.

Posterior rows are taken in the Joseph form, a P+ a' = (a - a K H) P (a - a K H)' + a K V (a K)', from the
prior's variances and the stacked readings: as sound as the full matrix (Bucy & Joseph 1968, from memory) and
linear in the number of masses.
"""

from collections.abc import Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .axles import Geometry, hitch_offset_kg
from .errors import Unknown, check_range
from .linalg import Array, cholesky, solve_lower, solve_upper
from .normal import chi2_upper
from .statics import Loads, Part, article_groups, as_tuple, as_tuples, check_parts, design

KEPT = 1e-3


@dataclass(frozen=True, slots=True)
class Component:
    """One component of the state before any weighing. `kind`: mass (kg), moment (kg m), gain or own error.

    `copies` is of how many copies of a thing it is: on a day with more or fewer of them it counts in proportion.
    """

    mean: float
    u: float
    kind: str = "mass"
    article: str | None = None
    copies: int = 1


@dataclass(frozen=True, slots=True)
class Learnt:
    """One lasting mass before and after; `told` = 1 - (u+/u)^2 is the share of variance removed."""

    id: str
    plan_kg: float
    plan_u_kg: float
    now_kg: float
    now_u_kg: float
    told: float


class Reconciled:
    """The posterior of a book after its weighings; made by `reconcile`."""

    chi2: float
    dof: int
    p: float | None

    def __init__(
        self, prior: Mapping[str, Component], geometry: Geometry, base_correlation: float = 0.0
    ) -> None:
        self.prior = dict(prior)
        self.order = {name: i for i, name in enumerate(self.prior)}
        components = list(self.prior.values())
        self._geometry = geometry
        self._u = np.array([one.u for one in components])
        self._groups = article_groups([one.article for one in components])
        self._base = [self.order[name] for name in ("base_front", "base_rear") if name in self.order]
        self._rho = base_correlation if len(self._base) == 2 else 0.0
        self.reading_ids: tuple[str, ...] = ()
        self.design = self._white = np.zeros((0, len(components)))
        self.noise = self.lower = np.zeros((0, 0))
        self.innovation = np.zeros(0)
        self.mean = np.array([one.mean for one in components])
        self.chi2, self.dof, self.p = 0.0, 0, None

    def learn(self, *, ids: Sequence[str], design: Array, readings: Array, noise: Array) -> None:
        """The one stacked update, S = H P H' + V = C C', mean += P H' S^-1 (y - H mean); the global test of C.4."""
        spread = self.times(design.T)
        self.lower = cholesky(design @ spread + noise)
        self.reading_ids, self.design, self.noise = tuple(ids), design, noise
        self.innovation = readings - design @ self.mean
        self._white = solve_lower(self.lower, spread.T)
        news = solve_lower(self.lower, self.innovation)
        self.mean = self.mean + news @ self._white
        self.chi2 = float(news @ news)
        self.dof = len(readings)
        self.p = chi2_upper(self.chi2, self.dof)

    def upto(self, count: int) -> "Reconciled":
        """The posterior after the first `count` readings alone, 0 to all of them.

        The factor of the first readings is the leading part of the factor of all, so nothing is solved anew (Golub and
        Van Loan, section 4.2, from memory). Readings of one session belong together: a caller cuts between sessions.
        """
        check_range("count", count, low=0, high=len(self.reading_ids))
        out = copy(self)
        out.reading_ids, out.design = self.reading_ids[:count], self.design[:count]
        out.noise, out.lower = self.noise[:count, :count], self.lower[:count, :count]
        out.innovation, out._white = self.innovation[:count], self._white[:count]
        news = solve_lower(out.lower, out.innovation) if count else np.zeros(0)
        out.mean = np.array([one.mean for one in self.prior.values()]) + news @ out._white
        out.chi2, out.dof = float(news @ news), count
        out.p = chi2_upper(out.chi2, count) if count else None
        return out

    def unit(self, name: str) -> Array:
        """The row that picks one component."""
        out = np.zeros(len(self.order))
        out[self.order[name]] = 1.0
        return out

    def rows(self, a: Array) -> tuple[Array, Array]:
        """Mean and covariance of rows a (k, n)."""
        through = self._through(a)
        rest = a - through @ self.design
        cov = rest @ self.times(rest.T) + through @ self.noise @ through.T
        return a @ self.mean, (cov + cov.T) / 2

    def variance(self, name: str) -> float:
        """Variance of one component.

        P - P H' S^-1 H P where that leaves more than a thousandth of the prior, so that the difference costs at most
        three digits; else the Joseph form.
        """
        i = self.order[name]
        prior = float(self._u[i] ** 2)
        after = prior - float(self._white[:, i] @ self._white[:, i])
        return (
            after if after > KEPT * prior else max(float(self.rows(self.unit(name)[None, :])[1][0, 0]), 0.0)
        )

    def column(self, name: str) -> Array:
        """Covariance of one component with all of them, in the Joseph form."""
        unit = self.unit(name)
        through = self._through(unit[None, :])[0]
        spread = self.times((unit - through @ self.design)[:, None])[:, 0]
        back = solve_lower(self.lower, self.noise @ through - self.design @ spread)
        out: Array = spread + back @ self._white
        return out

    def loads(
        self,
        *,
        lasting: Sequence[Part],
        passing: Sequence[Part],
        rows: Sequence[str],
        geometry: Geometry | None = None,
        session: str | None = None,
    ) -> Loads:
        """Loads in any state: A mu+ + contents, covariance A P+ A' + the contents' own.

        Never "reading plus difference": that would keep the day's level error. An item that the weighings did
        not have counts with its plan. A refilled tank is a new content, unless `session` says that this is the
        very state of that weighing, whose readings then speak of its contents and people too. `geometry` is
        the day's, with its trailer.
        """
        day = geometry or self._geometry
        parts = (*lasting, *passing)
        check_parts(parts)
        prefixes = ("",) * len(lasting) + (None if session is None else f"{session}:",) * len(passing)
        d = design(parts=parts, geometry=day, rows=rows)
        a = np.zeros((len(rows), len(self.order)))
        mean = np.array([hitch_offset_kg(row=row, geometry=day) for row in rows])
        cov = np.zeros((len(rows), len(rows)))
        for j, (part, prefix) in enumerate(zip(parts, prefixes, strict=True)):
            for name, prior, columns in terms(part):
                column = getattr(d, columns)[:, j]
                place = None if prefix is None else self.order.get(prefix + name)
                if place is not None and prefix is not None:
                    a[:, place] += column * self.share_of(prefix + name, prior)
                else:
                    mean += column * prior.mean
                    cov += np.outer(column, column) * prior.u**2
        known, known_cov = self.rows(a)
        return Loads(tuple(rows), as_tuple(mean + known), as_tuples(cov + known_cov))

    def share_of(self, name: str, now: Component) -> float:
        """Of a component of the state, the share that a part with these copies of it has."""
        return now.copies / self.prior[name].copies

    def learnt(self, part_id: str) -> Learnt:
        """What the weighings say of one lasting mass; a mass that is not among them is refused."""
        if part_id not in self.order:
            raise Unknown(
                "part_id", part_id, [name for name, one in self.prior.items() if one.kind == "mass"]
            )
        prior = self.prior[part_id]
        variance = self.variance(part_id)
        told = 0.0 if prior.u == 0 else max(0.0, 1.0 - variance / prior.u**2)
        now_kg = float(self.mean[self.order[part_id]])
        return Learnt(part_id, prior.mean, prior.u, now_kg, sqrt(variance), told)

    def times(self, columns: Array) -> Array:
        """The prior covariance times columns (n, m), without forming it."""
        out: Array = (self._u**2)[:, None] * columns
        for members in self._groups:
            out[members] = np.outer(self._u[members], self._u[members] @ columns[members])
        if self._rho:
            i, j = self._base
            linked = self._rho * self._u[i] * self._u[j]
            out[i] += linked * columns[j]
            out[j] += linked * columns[i]
        return out

    def _through(self, a: Array) -> Array:
        """a K = a P H' S^-1 for rows a (k, n)."""
        return solve_upper(self.lower, self._white @ a.T).T


def terms(part: Part) -> Iterator[tuple[str, Component, str]]:
    """A part's components of the state, each with the name of its column in a `Design`.

    Its mass, and a moment q = m dx per direction in which its place is uncertain: mean 0, variance
    (m^2 + u^2) u_x^2, uncorrelated with m and as lasting. An item put elsewhere gets a new one, so the place is
    in its name.
    """
    yield part.id, Component(part.mass_kg, part.mass_u_kg, article=part.article, copies=part.copies), "shares"
    size = sqrt(part.mass_kg**2 + part.mass_u_kg**2)
    if part.x_u_m > 0:
        yield (
            f"{part.id}@{part.on}:{part.x_m}",
            Component(0.0, size * part.x_u_m, "moment", copies=part.copies),
            "per_m",
        )
    if part.y_u_m > 0:
        across = Component(0.0, size * part.y_u_m, "moment", copies=part.copies)
        yield f"{part.id}@{part.on}~{part.y_m}", across, "per_m_right"
