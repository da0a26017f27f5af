"""From what people do to mutations: the same envelope that a phone sends, with seeded ids."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from server.schemas.register import PLAN_KINDS

from .chance import Chance
from .clock import OFFSET_MIN, ZONE, stamp

SCHEMA = 1


@dataclass(frozen=True, slots=True)
class Sent:
    """One mutation, and whose phone sends it."""

    user: str
    device: str
    mutation: Mapping[str, Any]


@dataclass(slots=True)
class _Draft:
    user: str
    when: datetime
    mutation: dict[str, Any]


@dataclass(slots=True)
class Journal:
    """Collects what is written down, and knows the plan's revisions at any instant."""

    chance: Chance
    _drafts: list[_Draft] = field(default_factory=list)
    _devices: dict[str, str] = field(default_factory=dict)
    _plans: dict[str, list[tuple[datetime, str, str]]] = field(default_factory=lambda: defaultdict(list))

    @contextmanager
    def drawing(self, chance: Chance) -> Iterator[None]:
        """Ids from another stream for a while, so that those of the first stay as they are."""
        kept, self.chance = self.chance, chance
        try:
            yield
        finally:
            self.chance = kept

    def new_id(self, when: datetime) -> str:
        """An id made at that instant."""
        return self.chance.uuid7(when)

    def device_of(self, user: str) -> str:
        """The phone or desk of a user; its id does not hang on the day."""
        epoch = datetime(2020, 1, 1, tzinfo=UTC)
        return self._devices.setdefault(user, Chance(0, f"device/{user}").uuid7(epoch))

    def add(
        self, *, book: str, kind: str, body: Mapping[str, Any], when: datetime, by: str, id: str | None = None
    ) -> str:
        """A new record; returns its id."""
        record = id or self.new_id(when)
        self._draft(book, kind, record, None, body, when, by)
        return record

    def edit(
        self, *, book: str, kind: str, id: str, body: Mapping[str, Any], when: datetime, by: str
    ) -> None:
        """Changed fields of a plan record, on top of its latest revision."""
        self._draft(book, kind, id, self.plan_at(book, when)[id], body, when, by)

    def log(
        self, *, book: str, kind: str, body: Mapping[str, Any], at: datetime, made: datetime, by: str
    ) -> str:
        """A log entry of something that happened at one instant and was entered at another."""
        whole = {"at": stamp(at), "zone": ZONE, **body}
        return self.add(book=book, kind=kind, body=whole, when=made, by=by)

    def plan_at(self, book: str, when: datetime) -> dict[str, str]:
        """The revision of each plan record of a book at an instant, by record id."""
        return {record: rev for made, record, rev in self._plans[book] if made <= when}

    def sent(self) -> tuple[Sent, ...]:
        """All mutations in the order in which they were made, each device counting its own."""
        counts: dict[str, int] = defaultdict(int)
        out: list[Sent] = []
        for draft in sorted(self._drafts, key=lambda one: one.when):
            counts[draft.user] += 1
            mutation = {**draft.mutation, "device_seq": counts[draft.user]}
            out.append(Sent(draft.user, self.device_of(draft.user), mutation))
        return tuple(out)

    def _draft(
        self,
        book: str,
        kind: str,
        record: str,
        base_rev: str | None,
        body: Mapping[str, Any],
        when: datetime,
        by: str,
    ) -> None:
        rev = self.new_id(when)
        if kind in PLAN_KINDS:
            self._plans[book].append((when, record, rev))
        mutation = {
            "mut": rev,
            "book": book,
            "kind": kind,
            "id": record,
            "base_rev": base_rev,
            "body": dict(body),
            "made_at": stamp(when),
            "utc_offset_min": OFFSET_MIN,
            "schema": SCHEMA,
        }
        self._drafts.append(_Draft(by, when, mutation))
