"""The search behind load advice: depth first over the items, with bounds that are exact where it ends."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt

TOLERANCE_KG = 1e-9

Values = Sequence[Sequence[Sequence[float]]]  # by item, option and row


@dataclass(frozen=True, slots=True)
class Rows:
    """Sums that the items' options make, each with an upper bound, heaviest item first.

    The limits come first, then the slots, last what comes off, whose bound the search sets. Only limits have a
    variance. `pairs_kg2` is twice the covariance of an option with each option of each item before it; `moves` is what
    an option counts as, the first of an item as none.
    """

    bounds_kg: Sequence[float]
    fixed_kg: Sequence[float]
    variance_kg2: Sequence[float]
    loads_kg: Values
    variances_kg2: Values
    pairs_kg2: Sequence[Sequence[Sequence[Sequence[Sequence[float]]]]]
    moves: Sequence[Sequence[int]]


@dataclass(frozen=True, slots=True)
class Found:
    """A choice that meets every bound; `equals` where another one is as good."""

    picks: tuple[int, ...]
    moves: int
    off_kg: float
    equals: bool = False


class Search:
    """One problem, asked several times; `spent` once the nodes are used up, and the last answer is not proven.

    `count` is the number of its items.
    """

    count: int
    spent: bool

    def __init__(self, rows: Rows, z: float, most_nodes: int) -> None:
        self._rows, self._z, self._most, self._left = rows, z, most_nodes, most_nodes
        self.spent = False
        self.count = len(rows.loads_kg)
        self._limits = len(rows.variance_kg2)
        self._all = sum(max(options) for options in rows.moves)
        self._least = _least_sums(rows.loads_kg, rows.moves, len(rows.fixed_kg))
        self._calm = _least_sums(_at_least(rows), rows.moves, self._limits)
        self._bounds = [bound + TOLERANCE_KG for bound in rows.bounds_kg] + [inf]
        self._picks = [0] * self.count
        self._best: Found | None = None

    def short_kg(self) -> tuple[float, ...]:
        """By how much each limit is missed even where every item is at its best for that limit; >= 0."""
        rows, all_ = self._rows, self._all
        out = []
        for k, variance in enumerate(rows.variance_kg2):
            u = sqrt(max(variance + self._calm[k][0][all_], 0.0))
            least = rows.fixed_kg[k] + self._least[k][0][all_] + self._z * u
            out.append(max(least - rows.bounds_kg[k], 0.0))
        return tuple(out)

    def renew(self) -> None:
        """As many nodes again."""
        self._left, self.spent = self._most, False

    def least_off(
        self, *, most_moves: int, below_kg: float | None = None, at_most_kg: float = inf
    ) -> Found | None:
        """The choice with at most so many moves from which the least comes off, first found first; None if none.

        `below_kg` asks for less off than that, `at_most_kg` for no more.
        """
        self._bounds[-1] = at_most_kg + TOLERANCE_KG if below_kg is None else below_kg - TOLERANCE_KG
        self._best, self._allowed = None, most_moves
        self._go(0, most_moves, list(self._rows.fixed_kg), list(self._rows.variance_kg2))
        return self._best

    def _go(self, d: int, left: int, sums: list[float], variances: list[float]) -> None:
        if d == self.count:
            self._keep(self._allowed - left, sums[-1])
            return
        for s, loads in enumerate(self._rows.loads_kg[d]):
            rest = left - self._rows.moves[d][s]
            if self.spent:
                return
            if rest < 0:
                continue
            if self._left == 0:
                self.spent = True
                return
            self._left -= 1
            added = [a + b for a, b in zip(sums, loads, strict=True)]
            if any(
                value + least[d + 1][rest] > bound
                for value, least, bound in zip(added, self._least, self._bounds, strict=True)
            ):
                continue
            grown = self._grown(d, s, variances)
            if all(
                added[k] + self._least[k][d + 1][rest]
                + self._z * sqrt(max(grown[k] + self._calm[k][d + 1][rest], 0.0)) <= self._bounds[k]
                for k in range(self._limits)
            ):  # fmt: skip
                self._picks[d] = s
                self._go(d + 1, rest, added, grown)

    def _grown(self, d: int, s: int, variances: list[float]) -> list[float]:
        """The variances with one more item at its option, and what it has in common with those before."""
        out = [a + b for a, b in zip(variances, self._rows.variances_kg2[d][s], strict=True)]
        if self._rows.pairs_kg2:
            for other, pick in zip(self._rows.pairs_kg2[d][s], self._picks, strict=False):
                out = [a + b for a, b in zip(out, other[pick], strict=True)]
        return out

    def _keep(self, moves: int, off_kg: float) -> None:
        """A choice that holds: the best so far, or as good as it, and then only better ones are looked for."""
        best = self._best
        if best is not None and abs(off_kg - best.off_kg) <= TOLERANCE_KG:
            self._best = Found(best.picks, best.moves, best.off_kg, True)
            self._bounds[-1] = best.off_kg - TOLERANCE_KG
            return
        self._best = Found(tuple(self._picks), moves, off_kg)
        self._bounds[-1] = off_kg + TOLERANCE_KG


def _at_least(rows: Rows) -> Values:
    """What an option adds to each variance at the least, whatever the items before it are at."""
    if not rows.pairs_kg2:
        return rows.variances_kg2
    return [
        [
            [value + sum(min(two[k] for two in other) for other in others) for k, value in enumerate(own)]
            for own, others in zip(options, before, strict=True)
        ]
        for options, before in zip(rows.variances_kg2, rows.pairs_kg2, strict=True)
    ]


def _least_sums(values: Values, moves: Sequence[Sequence[int]], count: int) -> list[list[list[float]]]:
    """By row, depth and moves left: the least that the items from that depth on can add."""
    return [_least_of_row([[one[q] for one in options] for options in values], moves) for q in range(count)]


def _least_of_row(values: Sequence[Sequence[float]], moves: Sequence[Sequence[int]]) -> list[list[float]]:
    """The least sum within so many moves, item by item from the last (Bellman's principle, from memory)."""
    width = 1 + sum(max(options) for options in moves)
    out: list[list[float]] = [[0.0] * width]
    for options, counts in zip(reversed(values), reversed(moves), strict=True):
        after = out[-1]
        out.append(
            [
                min(v + after[left - n] for v, n in zip(options, counts, strict=True) if n <= left)
                for left in range(width)
            ]
        )
    return out[::-1]
