"""Load advice: the smallest set of moves that brings every limit under.

Each item is at one of its options: where it is now, another place, or off. Limit k asks of the options chosen

    fixed_k + sum load_ik + z sqrt(v_k) <= limit_k,   v_k = v_k0 + sum v_ik + 2 h_k' a_k + a_k' C a_k

with what each option brings (its load, and the variance that is its own), and a_k = sum of what the options put on the
errors that they share: one unknown mass of several copies, or what weighings have tied together. C is the covariance
of these errors and h_k how the fixed load goes with them. A lower limit is the same with its row negated.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

from .advice_search import TOLERANCE_KG, Found, Rows, Search
from .errors import DomainError, Duplicate, NotKnown, Unknown, check_finite, check_range
from .limits import CONFIDENCE
from .normal import z_at

OBJECTIVES = ("moves", "off")
# Above so many movable items, copies of one thing being one, the number of moves is limited, 1, 2, 3 ...
ALL_ITEMS = 18
# Places looked at beyond the present one, in all searches, before the answer says how far it is proven
MOST_NODES = 1_000_000


@dataclass(frozen=True, slots=True)
class Limit:
    """A bound on one load. `fixed_kg` is what no item brings, at its worst tank state, with its variance.

    `least` makes it a lower bound. `linked` is the covariance of the fixed load with each shared error.
    """

    id: str
    limit_kg: float
    fixed_kg: float
    variance_kg2: float = 0.0
    least: bool = False
    linked: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Share:
    """What one unit of a shared error, named by its place in the covariance, adds to each limit's load."""

    error: int
    per_unit: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Option:
    """A place that an item may have: its load on each limit and the variance that is its own.

    `off_kg` is what leaves the vehicle; `slot_kg` what comes into the slot with a capacity; `moves` what it counts as,
    but for the first.
    """

    id: str
    loads_kg: tuple[float, ...]
    variances_kg2: tuple[float, ...]
    off_kg: float = 0.0
    slot: str | None = None
    slot_kg: float = 0.0
    shares: tuple[Share, ...] = ()
    moves: int = 1


@dataclass(frozen=True, slots=True)
class Item:
    """Something that may be moved; the first option is where it is now."""

    id: str
    mass_kg: float
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Slot:
    """Room for so many kilograms more."""

    id: str
    capacity_kg: float


@dataclass(frozen=True, slots=True)
class Held:
    """A limit's load, kg, with its u."""

    id: str
    value_kg: float
    u_kg: float


@dataclass(frozen=True, slots=True)
class Unmet:
    """A limit that no choice meets; `short_kg` is missing at the very least."""

    id: str
    short_kg: float


@dataclass(frozen=True, slots=True)
class Advice:
    """`word`: within (nothing need move), found, impossible, or not_found among at most `most_moves` moves.

    `picks` are the options by item; `unmet` the limits that cannot be met by moving these, none where they only cannot
    be met together. `equals`: another choice is as good. `exact`: the best of all choices, else only among those with
    at most `most_moves` moves.
    """

    word: str
    picks: tuple[int, ...]
    moves: int
    off_kg: float
    before: tuple[Held, ...]
    after: tuple[Held, ...]
    unmet: tuple[Unmet, ...]
    equals: bool
    exact: bool
    most_moves: int


def advise(
    *,
    limits: Sequence[Limit],
    items: Sequence[Item],
    slots: Sequence[Slot] = (),
    errors: Sequence[Sequence[float]] = (),
    confidence: float = CONFIDENCE,
    objective: str = "moves",
    most_nodes: int = MOST_NODES,
    told: Callable[[int], None] | None = None,
) -> Advice:
    """The least change: fewest `moves`, ties by least mass off; or least mass `off`, ties by fewest moves.

    Depth first over the items, heaviest first, the present place first, pruned where even the least that the rest
    can bring is too much (branch and bound; Land and Doig 1960, Econometrica 28:497, from memory). Limits hold to
    1e-9 kg. "Off" is a move; what moves several copies is as many. Of equals the first found is given. Up to 18
    items the answer is the best of all, above that of those with at most `most_moves` moves, which is also what
    remains once `most_nodes` are used up. `errors` is the covariance of the shared errors; copies of one article
    share one of variance 1, each with load times u. `told` hears, before each round, how many moves it allows.
    Masses, variances and what comes off >= 0, capacities > 0, moves of an option from 1, upper limits > 0, lower
    ones >= 0, confidence from 0.5 to below 1, everything finite, ids once; else refused.
    """
    z = z_at(confidence)
    if objective not in OBJECTIVES:
        raise Unknown("objective", objective, OBJECTIVES)
    check_range("most_nodes", most_nodes, low=1)
    _check_limits(limits, slots, errors)
    _check_items(limits, items, slots, errors)
    stay = tuple(0 for _ in items)
    before = held_by(limits=limits, items=items, errors=errors, picks=stay)
    order = sorted(range(len(items)), key=lambda i: (-items[i].mass_kg, i))
    search = Search(_rows(limits, [items[i] for i in order], slots, errors), z, most_nodes + len(items))
    short = search.short_kg()
    unmet = tuple(Unmet(one.id, kg) for one, kg in zip(limits, short, strict=True) if kg > TOLERANCE_KG)
    all_moves = sum(max((one.moves for one in item.options[1:]), default=0) for item in items)
    if unmet:
        return Advice("impossible", (), 0, 0.0, before, before, unmet, False, True, all_moves)
    found, proven = _best(search, all_moves, objective, told or (lambda _: None))
    exact = proven >= all_moves
    if found is None:
        word = "impossible" if exact else "not_found"
        return Advice(word, (), 0, 0.0, before, before, (), False, exact, proven)
    picks = [0] * len(items)
    for i, pick in zip(order, found.picks, strict=True):
        picks[i] = pick
    after = held_by(limits=limits, items=items, errors=errors, picks=picks)
    word = "found" if found.moves else "within"
    return Advice(
        word, tuple(picks), found.moves, found.off_kg, before, after, (), found.equals, exact, proven
    )


def held_by(
    *,
    limits: Sequence[Limit],
    items: Sequence[Item],
    errors: Sequence[Sequence[float]] = (),
    picks: Sequence[int],
) -> tuple[Held, ...]:
    """Each limit's load with the options picked, kg, and its u by the exact variance, shared errors and all."""
    chosen = [item.options[pick] for item, pick in zip(items, picks, strict=True)]
    out = []
    for k, one in enumerate(limits):
        value = one.fixed_kg + sum(option.loads_kg[k] for option in chosen)
        variance = one.variance_kg2 + sum(option.variances_kg2[k] for option in chosen)
        put = [0.0] * len(errors)
        for share in (share for option in chosen for share in option.shares):
            put[share.error] += share.per_unit[k]
        for a, along in enumerate(put):
            fixed = 2 * one.linked[a] if one.linked else 0.0
            spread = sum(c * other for c, other in zip(errors[a], put, strict=True))
            variance += along * (fixed + spread)
        out.append(Held(one.id, value, sqrt(max(variance, 0.0))))
    return tuple(out)


def _best(
    search: Search, count: int, objective: str, told: Callable[[int], None]
) -> tuple[Found | None, int]:
    """The best choice, and among at most how many moves it is proven to be (all of them: `count` or more)."""
    first, proven = None, -1
    while first is None and proven < count and not search.spent:
        told(proven + 1)
        first = search.least_off(most_moves=proven + 1)
        proven += not search.spent
    if search.spent or first is None:
        return first, max(proven, 0)
    if objective == "moves" or first.off_kg <= TOLERANCE_KG:
        return first, count
    return _least_off(search, count, first, told)


def _least_off(search: Search, count: int, first: Found, told: Callable[[int], None]) -> tuple[Found, int]:
    """Less off at the price of more moves: all at once where the items are few, else move by move."""
    if search.count <= ALL_ITEMS:
        told(count)
        better = search.least_off(most_moves=count, below_kg=first.off_kg)
        if not search.spent:
            return (first, count) if better is None else _fewest(search, count, first, better)
        search.renew()
    best, most = first, first.moves
    while most < count and best.off_kg > TOLERANCE_KG:
        told(most + 1)
        better = search.least_off(most_moves=most + 1, below_kg=best.off_kg)
        if search.spent:
            return best, most
        best, most = better or best, most + 1
    return best, count


def _fewest(search: Search, count: int, first: Found, better: Found) -> tuple[Found, int]:
    """With as little off as `better`, the fewest moves; where nodes run out, that no fewer do is proven only so far."""
    for most in range(first.moves, better.moves + 1):
        found = search.least_off(most_moves=most, at_most_kg=better.off_kg)
        if found is not None:
            return found, count
        if search.spent:
            return better, max(first.moves, most - 1)
    return better, count


def _rows(
    limits: Sequence[Limit], items: Sequence[Item], slots: Sequence[Slot], errors: Sequence[Sequence[float]]
) -> Rows:
    """Every limit as an upper bound; then the slots, then what comes off, which have no variance."""
    signs = [-1.0 if one.least else 1.0 for one in limits]

    def coefficients(option: Option) -> list[float]:
        into = [option.slot_kg if option.slot == slot.id else 0.0 for slot in slots]
        return [*(s * load for s, load in zip(signs, option.loads_kg, strict=True)), *into, option.off_kg]

    def own(option: Option) -> list[float]:
        out = []
        for k, one in enumerate(limits):
            linked = sum(
                2 * one.linked[share.error] * share.per_unit[k] for share in option.shares if one.linked
            )
            out.append(option.variances_kg2[k] + linked + _shared(option, option, errors, k))
        return out

    def together(one: Option, other: Option) -> list[float]:
        return [2 * _shared(one, other, errors, k) for k in range(len(limits))]

    return Rows(
        bounds_kg=[*(s * one.limit_kg for s, one in zip(signs, limits, strict=True)),
                   *(slot.capacity_kg for slot in slots)],
        fixed_kg=[*(s * one.fixed_kg for s, one in zip(signs, limits, strict=True)), *(0.0 for _ in slots), 0.0],
        variance_kg2=[one.variance_kg2 for one in limits],
        loads_kg=[[coefficients(option) for option in item.options] for item in items],
        variances_kg2=[[own(option) for option in item.options] for item in items],
        pairs_kg2=[
            [[[together(one, two) for two in other.options] for other in items[:d]] for one in item.options]
            for d, item in enumerate(items)
        ] if errors else [],
        moves=[[0, *(option.moves for option in item.options[1:])] for item in items],
    )  # fmt: skip


def _shared(one: Option, other: Option, errors: Sequence[Sequence[float]], k: int) -> float:
    """Covariance of two options' loads through the errors that they share."""
    return sum(
        a.per_unit[k] * errors[a.error][b.error] * b.per_unit[k] for a in one.shares for b in other.shares
    )


def _check_limits(limits: Sequence[Limit], slots: Sequence[Slot], errors: Sequence[Sequence[float]]) -> None:
    _once("limit", [one.id for one in limits])
    _once("slot", [one.id for one in slots])
    for one in limits:
        check_range("limit_kg", one.limit_kg, low=0.0, above=None if one.least else 0.0, unit="kg")
        check_finite("fixed_kg", one.fixed_kg)
        check_range("variance_kg2", one.variance_kg2, low=0.0, unit="kg^2")
        if one.linked:
            _numbers("linked", one.linked, len(errors))
    for slot in slots:
        check_range("capacity_kg", slot.capacity_kg, above=0.0, unit="kg")
    for i, row in enumerate(errors):
        _numbers("errors", row, len(errors))
        check_range("errors", row[i], low=0.0)


def _check_items(
    limits: Sequence[Limit], items: Sequence[Item], slots: Sequence[Slot], errors: Sequence[Sequence[float]]
) -> None:
    _once("item", [item.id for item in items])
    known = [slot.id for slot in slots]
    for item in items:
        check_range("mass_kg", item.mass_kg, low=0.0, unit="kg")
        if not item.options:
            raise NotKnown("options", f"the item {item.id}")
        _once("option", [option.id for option in item.options])
        check_range("off_kg", item.options[0].off_kg, low=0.0, high=0.0, unit="kg")
        for option in item.options:
            _numbers("loads_kg", option.loads_kg, len(limits))
            _numbers("variances_kg2", option.variances_kg2, len(limits), low=0.0)
            check_range("off_kg", option.off_kg, low=0.0, unit="kg")
            check_range("moves", option.moves, low=1)
            check_range("slot_kg", option.slot_kg, low=0.0, unit="kg")
            if option.slot is not None and option.slot not in known:
                raise Unknown("slot", option.slot, known)
            for share in option.shares:
                _numbers("per_unit", share.per_unit, len(limits))
                check_finite("error", share.error)
                if not 0 <= share.error < len(errors):
                    raise Unknown("error", share.error, list(range(len(errors))))


def _once(field: str, ids: Sequence[str]) -> None:
    seen: set[str] = set()
    for one in ids:
        if one in seen:
            raise Duplicate(field, one)
        seen.add(one)


def _numbers(field: str, values: Sequence[float], count: int, *, low: float | None = None) -> None:
    if len(values) != count:
        raise DomainError(field, len(values), f"{count} numbers")
    for value in values:
        check_range(field, value, low=low)
