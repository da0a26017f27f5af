"""What may be moved, left behind, let out or poured over to bring a vehicle under: only what its owner would do.

People, animals, an emergency reserve and what is kept aboard (`kept_aboard`) are never proposed.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .book import Body, Book, Row
from .errors import check_range
from .parts import item_part
from .plan import Plan
from .state import State
from .statics import Part
from .supplies import water_share

# Helps in an emergency: words that names begin with, in lower case and one space apart (common practice, no source)
EMERGENCY_WORDS = (
    *("first aid", "medic", "defibrillator", "beacon", "extinguisher", "fire blanket", "life jacket"),
    *("recovery", "traction", "snatch", "shackle", "tow rope", "tow strap", "shovel"),
    *("jack ", "jacks ", "wheel brace", "tyre repair", "tire repair"),
)
# Litres a person a day, and days kept back: at least 6, and 3 to 4 days' reserve (South Australia, Department of
# Environment, Water and Natural Resources, Remote Area Travel Information)
WATER_L, WATER_DAYS = 6.0, 4.0
STEP_L, MOST_STEPS = (
    10.0,
    8,
)  # litres let out come in such steps, or coarser ones for a large tank (our choice)
LEAST_STEP_L = 0.5
MOST_COPIES = 8  # of more copies than these some go in steps (our choice)


@dataclass(frozen=True, slots=True)
class Keeping:
    """Whether an item is kept aboard, and why: its record says so (`stated`), its `name` does, or nothing (`open`)."""

    kept: bool
    why: str


@dataclass(frozen=True, slots=True)
class Refused:
    """What the owner will not do: one choice, or, without one, anything with that thing."""

    subject_id: str
    choice_id: str | None = None


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to do: move to the place of number `slot`, `off`, or pour litres `out` or into another tank.

    `part` is what goes, at its new place: all `copies` of the item, or so many of them.
    """

    id: str
    kind: str
    slot: int | None = None
    part: Part | None = None
    to_tank_id: str | None = None
    litres_l: float = 0.0
    copies: int = 0


@dataclass(frozen=True, slots=True)
class Subject:
    """Something that may be moved, with its choices beside staying as it is."""

    id: str
    kind: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Unrated:
    """A place that is not proposed because what it would load has no rating: the roof or the trailer."""

    subject_id: str
    slot: int
    rating: str


def kept_aboard(*, item: Body) -> Keeping:
    """Whether an item's body keeps it aboard: no proposal leaves or moves it, whatever else the record says.

    `keep_aboard` where the record states it, yes or no; else whether a word of the name begins one of
    `EMERGENCY_WORDS` (letters a to z alone are compared, so "first-aid" is "first aid", and a jacket is no jack).
    """
    name = f" {re.sub('[^a-z]+', ' ', str(item.get('name') or '').lower())} "
    named = any(f" {word}" in name for word in EMERGENCY_WORDS)
    stated = item.get("keep_aboard")
    if stated is not None:
        return Keeping(bool(stated), "stated")
    return Keeping(named, "name" if named else "open")


def item_subjects(
    *, book: Book, state: State, plan: Plan, rated: Sequence[str]
) -> tuple[tuple[Subject, ...], tuple[Unrated, ...]]:
    """The items aboard with where they may go, and the places left out for want of a rating in `rated`.

    A load may be left behind unless its record says no, a part only where it says yes. What is kept aboard is never
    touched (`kept_aboard`). A trailer's place counts while that trailer is on. Of several copies some may go to one
    place, or all; never some here and some there (our choice).
    """
    parts = {part.id: part for part in plan.lasting}
    subjects, unrated = [], []
    for row in book.items:
        part = parts.get(row.id)
        if part is None or part.taken_off or kept_aboard(item=row.body).kept:
            continue
        choices: list[Choice] = []
        for n, there in _places(row, part, state):
            blank = _blank_rating(there, rated)
            if blank is None:
                slot = row.body["may_move_to"][n]
                choices += [
                    Choice(name, "slot", slot=n, part=_at(row, slot, copies), copies=copies)
                    for name, copies in _some(f"slot:{n}", part)
                ]
            else:
                unrated.append(Unrated(row.id, n, blank))
        if _may_stay_behind(row.body):
            choices += [Choice(name, "off", copies=copies) for name, copies in _some("off", part)]
        if choices:
            subjects.append(Subject(row.id, "item", tuple(choices)))
    return tuple(subjects), tuple(unrated)


def copies_offered(*, count: int) -> tuple[int, ...]:
    """How many of `count` copies may go: any number up to 8; of more in steps of 2, 4 and so on, and last all.

    Count >= 1, else refused.
    """
    check_range("count", count, low=1)
    step = 1
    while count > MOST_COPIES * step:
        step *= 2
    return (*range(step, count, step), count)


def tank_subjects(*, book: Book, state: State, let_out: Sequence[str] = ("water",)) -> tuple[Subject, ...]:
    """Tanks of fuel and water with what may be let out, of what `let_out` names, or poured into another of the kind.

    In steps of litres, up to all that its level says; a tank of unknown level and an emergency reserve are left alone.
    """
    there = [row for row in book.tanks if _pourable(row, state)]
    out = []
    for row in there:
        steps = tuple(_steps(row, state))
        choices = [Choice(f"out:{n}", "out", litres_l=litres) for n, litres in enumerate(steps)]
        if row.body["holds"] not in let_out:
            choices = []
        for other in there:
            if other.id != row.id and other.body["holds"] == row.body["holds"]:
                room = room_l(tank=other, state=state)
                choices += [
                    Choice(f"to:{other.id}:{n}", "pour", to_tank_id=other.id, litres_l=litres)
                    for n, litres in enumerate(steps)
                    if litres <= room
                ]
        if choices:
            out.append(Subject(row.id, "tank", tuple(choices)))
    return tuple(out)


def without_refused(*, subjects: Sequence[Subject], refused: Sequence[Refused]) -> tuple[Subject, ...]:
    """The subjects with the choices that were not refused; what has none left stays as it is."""
    said = {(one.subject_id, one.choice_id) for one in refused}
    kept = [
        Subject(one.id, one.kind, tuple(way for way in one.choices if (one.id, way.id) not in said))
        for one in subjects
        if (one.id, None) not in said
    ]
    return tuple(one for one in kept if one.choices)


def content_l(*, tank: Row, state: State) -> float:
    """Litres in a tank by its level; 0 where the state does not say."""
    level = state.level_of(tank.id)
    return 0.0 if level is None else level.level * float(tank.body["capacity_l"])


def room_l(*, tank: Row, state: State) -> float:
    """Litres that still go in."""
    return max(float(tank.body["capacity_l"]) - content_l(tank=tank, state=state), 0.0)


def usual_water_reserve(*, book: Book, state: State) -> float:
    """Litres of drinking water not to be let out: 6 L a day and adult aboard, for 4 days; see `WATER_L`."""
    people = {row.id: row.body for row in book.people}
    shares = [water_share(person=people.get(load.person_id or "", {})) for load in state.seats]
    return WATER_L * WATER_DAYS * sum(shares)


def _places(row: Row, part: Part, state: State) -> Iterator[tuple[int, Part]]:
    """The item at each place that it may move to and is not at now, with the place's number."""
    for n, slot in enumerate(row.body.get("may_move_to") or ()):
        trailer_id = slot.get("trailer_id")
        if trailer_id and trailer_id not in state.trailers_on:
            continue
        there = _at(row, slot, part.copies)
        if (there.x_m, there.on, there.roof) != (part.x_m, part.on, part.roof):
            yield n, there


def _at(row: Row, slot: Body, copies: int) -> Part:
    """So many copies of an item at a place that it may move to."""
    place = {name: slot.get(name) for name in ("x_m", "y_m", "z_m", "roof", "trailer_id")}
    return item_part(row.id, {**row.body, **place, "count": copies})


def _some(name: str, part: Part) -> Iterator[tuple[str, int]]:
    """The copies that may go, each number with the name of its choice; all of them have the bare name."""
    for copies in copies_offered(count=part.copies):
        yield (name if copies == part.copies else f"{name}:{copies}"), copies


def _blank_rating(there: Part, rated: Sequence[str]) -> str | None:
    """The rating that a place needs and that nobody has entered: blank is not known, never no limit."""
    if there.roof and there.on == "vehicle" and "roof" not in rated:
        return "roof"
    if there.on != "vehicle" and not {"trailer", "trailer_axles"} & set(rated):
        return "trailer"
    return None


def _may_stay_behind(body: Body) -> bool:
    stated = body.get("may_stay_behind")
    return body.get("nature") == "load" if stated is None else bool(stated)


def _pourable(row: Row, state: State) -> bool:
    body, level = row.body, state.level_of(row.id)
    known = all(body.get(name) is not None for name in ("capacity_l", "x_m"))
    here = not body.get("trailer_id") or body["trailer_id"] in state.trailers_on
    stated = level is not None and level.known_from != "prior"
    return (
        known and here and stated and body["holds"] in ("fuel", "water") and not body.get("emergency_reserve")
    )


def _steps(tank: Row, state: State) -> Iterator[float]:
    """10 L, 20 L and so on, in at most eight steps, and last all that is in it."""
    held = content_l(tank=tank, state=state)
    step = STEP_L
    while held > MOST_STEPS * step:
        step *= 2
    n = 1
    while n * step < held - LEAST_STEP_L:
        yield n * step
        n += 1
    if held >= LEAST_STEP_L:
        yield held
