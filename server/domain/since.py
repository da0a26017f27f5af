"""Since last time: what came and went between two weighings, and what the bridge says beside it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from .agreement import fixed_sums
from .axles import ROWS, hitch_offset_kg
from .book import Book
from .bridge import gain_u, own_variance
from .deck import deck_sums
from .errors import Duplicate, NotFixed
from .linalg import Array
from .posterior import Component, terms
from .statics import Part, as_tuples, design
from .visit import Visit
from .weighed import PlannedDay, planned_day
from .weighing import Reading, reading_covariance


@dataclass(frozen=True, slots=True)
class Moved:
    """One thing that came, went or changed: kg per row, later minus earlier, each with one standard uncertainty.

    `subject` is base, item, person, tank or trailer; `how` is new, removed, aboard, away, edited, moved or level.
    """

    subject: str
    how: str
    record_id: str
    author: str | None
    kg: tuple[float, ...]
    u_kg: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Since:
    """Between two weighings, row by row: the lines, their sum, the change on the bridge, what neither explains."""

    earlier_id: str
    later_id: str
    rows: tuple[str, ...]
    lines: tuple[Moved, ...]
    listed_kg: tuple[float, ...]
    listed_u_kg: tuple[float, ...]
    weighed_kg: tuple[float, ...]
    weighed_u_kg: tuple[float, ...]
    unexplained_kg: tuple[float, ...]
    unexplained_u_kg: tuple[float, ...]


def since(*, book: Book, weighing_id: str, earlier_id: str | None = None) -> Since | None:
    """What changed from the weighing before (or from another one) to this one.

    Rows are gross, front and rear where both weighings fix them. A thing with the same figure on both days has the same
    error, which cancels; contents of tanks are new each day. Of the bridge's error, two visits of equal key share the
    gain, and for the same axles `own_repeats` of the own variance; zero belongs to a session (maths B, C.1). None
    without an earlier weighing, without a plan, with readings that disagree, or with no row in common.
    """
    later = planned_day(book=book, weighing_id=weighing_id)
    before_id = earlier_id or _before(book, weighing_id)
    if before_id == weighing_id:
        raise Duplicate("earlier_id", before_id, "Name another weighing")
    earlier = None if before_id is None else planned_day(book=book, weighing_id=before_id)
    if before_id is None or earlier is None or later is None:
        return None
    rows = tuple(row for row in ROWS if earlier.visit.of(row) and later.visit.of(row))
    if not rows or not (earlier.visit.agree and later.visit.agree):
        return None
    lines, listed, listed_u = _listed(book, (earlier, later), rows)
    change = [change_kg(earlier=earlier.visit, later=later.visit, row=row) for row in rows]
    return Since(
        earlier_id=before_id,
        later_id=weighing_id,
        rows=rows,
        lines=lines,
        listed_kg=listed,
        listed_u_kg=listed_u,
        weighed_kg=tuple(kg for kg, _ in change),
        weighed_u_kg=tuple(u for _, u in change),
        unexplained_kg=tuple(kg - own for (kg, _), own in zip(change, listed, strict=True)),
        unexplained_u_kg=tuple(sqrt(u**2 + own**2) for (_, u), own in zip(change, listed_u, strict=True)),
    )


def change_kg(*, earlier: Visit, later: Visit, row: str) -> tuple[float, float]:
    """Change of a row that both visits fix, kg, and its u.

    u^2 = u1^2 + u2^2 - 2 w1' X w2, with the weights w of the readings in each load and X their covariance across the
    two visits: g1 r1 g2 r2 on one deck of one bridge, and sqrt(s1 o1 s2 o2) more for the same axles (g gain, o own
    variance, s the share that repeats). A row that a visit does not fix is refused.
    """
    first, last = earlier.of(row), later.of(row)
    if first is None or last is None:
        raise NotFixed("row", row)
    across = sum(
        w * v * _shared(earlier, a, later, b)
        for a, w in _weights(earlier, row)
        for b, v in _weights(later, row)
    )
    variance = first.u_kg**2 + last.u_kg**2 - 2.0 * across
    return last.value_kg - first.value_kg, sqrt(max(variance, 0.0))


def _before(book: Book, weighing_id: str) -> str | None:
    ids = [one.id for one in book.weighings]
    at = ids.index(weighing_id)
    return ids[at - 1] if at > 0 else None


def _shared(one: Visit, a: Reading, other: Visit, b: Reading) -> float:
    if one.bridge.key != other.bridge.key or a.deck != b.deck:
        return 0.0
    gain = gain_u(bridge=one.bridge) * a.value_kg * gain_u(bridge=other.bridge) * b.value_kg
    if a.axle_key != b.axle_key:
        return gain
    own = own_variance(bridge=one.bridge, value_kg=a.value_kg) * one.bridge.own_repeats
    return gain + sqrt(
        own * own_variance(bridge=other.bridge, value_kg=b.value_kg) * other.bridge.own_repeats
    )


def _weights(visit: Visit, row: str) -> list[tuple[Reading, float]]:
    """Share of each reading in the load of a row: the fit is linear, so that it is what a reading of 1 alone gives."""
    sums = deck_sums(readings=visit.readings, deck=visit.deck)
    used = [reading for reading in visit.readings if reading.id in sums.used]
    cov = np.diag(np.array(sums.extra_kg2, dtype=float))
    n = len(used)
    cov[:n, :n] += np.array(reading_covariance(readings=used, bridge=visit.bridge, setup=visit.setup))
    out: list[tuple[Reading, float]] = []
    for i, reading in enumerate(used):
        alone = [float(j == i) for j in range(len(cov))]
        wanted = {row: sums.wanted[row]}
        found = fixed_sums(sums=sums.rows, values_kg=alone, covariance=as_tuples(cov), wanted=wanted)
        out.append((reading, found.mean_kg[0]))
    return out


# --- what the records say -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Effect:
    """A source of error with its effect per row; equal names are the same error."""

    name: str
    u_kg: Array


def _listed(
    book: Book, days: tuple[PlannedDay, PlannedDay], rows: tuple[str, ...]
) -> tuple[tuple[Moved, ...], tuple[float, ...], tuple[float, ...]]:
    """One line per record, their sum, and its u."""
    before, after = _things(days[0]), _things(days[1])
    groups: dict[tuple[str, str], list[str]] = {}
    for name, thing in {**after, **before}.items():
        groups.setdefault((thing.subject, thing.record_id), []).append(name)
    effects: list[_Effect] = []
    lines: list[Moved] = []
    total = np.zeros(len(rows))
    for (subject, record_id), names in groups.items():
        mass = _hitch(record_id, days, rows)
        errors: list[_Effect] = []
        for name in names:
            was, now = before.get(name), after.get(name)
            kg, more = _difference((was.part if was else None, now.part if now else None), days, rows)
            mass, errors = mass + kg, [*errors, *more]
        u_kg = _spread(errors, rows)
        if not (np.any(mass != 0.0) or max(u_kg) > 0.0):
            continue
        both = tuple([side[name] for name in names if name in side] for side in (before, after))
        how = _how((both[0], both[1]), subject, record_id, days)
        author = _author(book, days[1], record_id) if how in ("new", "removed", "edited") else None
        lines.append(Moved(subject, how, record_id, author, tuple(map(float, mass)), u_kg))
        effects += errors
        total = total + mass
    return tuple(lines), tuple(map(float, total)), _spread(effects, rows)


def _hitch(trailer_id: str, days: tuple[PlannedDay, PlannedDay], rows: Sequence[str]) -> Array:
    """What a trailer's levelling hitch moves between the axles, later minus earlier; nothing for other records."""
    out = np.zeros(len(rows))
    for day, factor in zip(days, (-1.0, 1.0), strict=True):
        if day.geometry.trailer is not None and day.geometry.trailer.id == trailer_id:
            out += factor * np.array([hitch_offset_kg(row=row, geometry=day.geometry) for row in rows])
    return out


@dataclass(frozen=True, slots=True)
class _Thing:
    """A part with what it is and the record that it belongs to."""

    subject: str
    record_id: str
    part: Part


def _things(day: PlannedDay) -> dict[str, _Thing]:
    """Each part by a name that stays with the thing, whatever seat a person takes."""
    who = {f"{one.seat_id}:occupant": one.person_id or one.seat_id for one in day.state.seats}
    out: dict[str, _Thing] = {}
    for part in day.plan.parts:
        name = f"person:{who[part.id]}" if part.id in who else part.id
        if part.on != "vehicle":
            thing = _Thing("trailer", part.on, part)
        elif part.id in who:
            thing = _Thing("person", who[part.id], replace(part, id=name))
        elif part.id.startswith("base_"):
            thing = _Thing("base", "", part)
        elif ":" in part.id:
            thing = _Thing("tank", part.id.rsplit(":", 1)[0], part)
        else:
            thing = _Thing("item", part.id, part)
        out[name] = thing
    return out


def _difference(
    pair: tuple[Part | None, Part | None], days: tuple[PlannedDay, PlannedDay], rows: Sequence[str]
) -> tuple[Array, list[_Effect]]:
    """Later minus earlier of one part: kg per row, and the errors in it."""
    mass = np.zeros(len(rows))
    effects: list[_Effect] = []
    edited = len({(part.mass_kg, part.mass_u_kg) if part else None for part in pair}) > 1
    for part, day, factor, side in zip(pair, days, (-1.0, 1.0), ("earlier", "later"), strict=True):
        if part is None:
            continue
        d = design(parts=(part,), geometry=day.geometry, rows=rows)
        for name, prior, columns in terms(part):
            column = factor * getattr(d, columns)[:, 0]
            mass = mass + column * prior.mean
            for source, share in _sources(part, name, prior, side, day.base_correlation if edited else 0.0):
                effects.append(_Effect(source, share * prior.u * column))
    return mass, effects


def _sources(
    part: Part, name: str, prior: Component, side: str, base_correlation: float
) -> Iterator[tuple[str, float]]:
    """Independent errors of unit size in one component.

    The same figure on both days is the same error, but for a tank's content; copies of one article share theirs, and
    base masses a part.
    """
    own = f"{side}:{name}" if part.id.endswith(":content") else f"{name}~{prior.mean}~{prior.u}"
    if prior.article is not None:
        yield f"article:{prior.article}", 1.0
    elif base_correlation and part.id == "base_front":
        yield f"{side}:base", 1.0
    elif base_correlation and part.id == "base_rear":
        yield f"{side}:base", base_correlation
        yield own, sqrt(1.0 - base_correlation**2)
    else:
        yield own, 1.0


def _spread(effects: Sequence[_Effect], rows: Sequence[str]) -> tuple[float, ...]:
    """One standard uncertainty per row of a sum of effects."""
    found: dict[str, Array] = {}
    for one in effects:
        found[one.name] = found.get(one.name, np.zeros(len(rows))) + one.u_kg
    variance = np.zeros(len(rows))
    for vector in found.values():
        variance = variance + vector**2
    return tuple(float(value) for value in np.sqrt(variance))


def _how(
    things: tuple[list[_Thing], list[_Thing]],
    subject: str,
    record_id: str,
    days: tuple[PlannedDay, PlannedDay],
) -> str:
    was, now = things
    if was and now:
        if subject == "person" and was[0].part.mass_kg == now[0].part.mass_kg:
            return "moved"
        return "level" if subject == "tank" else "edited"
    other = days[0] if now else days[1]
    if subject in ("person", "trailer") or record_id in other.state.items_away:
        return "aboard" if now else "away"
    return "new" if now else "removed"


def _author(book: Book, later: PlannedDay, record_id: str) -> str | None:
    """Who made the revision that the later weighing had, else the record's last edit."""
    own = record_id or (book.vehicle.id if book.vehicle else "")
    rev = (later.revisions or {}).get(own)
    edits = [one for one in book.edits if one.record_id == own]
    found = [one for one in edits if one.rev == rev] or edits
    return found[-1].author if found else None
