"""The scenario written down: through the services, as its people's own entries, once."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

from marshmallow import Schema

from server.schemas.register import KINDS
from server.services import accounts, members
from server.services.accounts import Account, Lifetime
from server.services.errors import InvalidError
from server.services.passwords import Passwords
from server.services.push import Sender, push

from .journal import Sent
from .scenario import Scenario, generate

SEED = 7
BATCH = 100
_LIFETIME = Lifetime(idle=timedelta(minutes=1), total=timedelta(minutes=1))


class RefusedError(ValueError):
    """The server refused an entry of the demo: the scenario and the rules no longer agree."""


@dataclass(frozen=True, slots=True)
class Written:
    """How many entries were kept, and how many had been there already."""

    applied: int
    already: int


def day_of(folder: Path, today: date) -> date:
    """The day that the demo in a folder is dated back from: the first time it was asked for."""
    mark = folder / "demo.json"
    if mark.exists():
        return date.fromisoformat(json.loads(mark.read_text())["today"])
    folder.mkdir(parents=True, exist_ok=True)
    mark.write_text(json.dumps({"seed": SEED, "today": today.isoformat()}) + "\n")
    return today


def fill(folder: Path, now: datetime) -> Written:
    """Write the demo of a folder into the database of the current application; a second time changes nothing."""
    return write(generate(SEED, day_of(folder, now.date())), now=now)


def write(scenario: Scenario, *, now: datetime) -> Written:
    """Make the scenario's accounts, then send its entries in their order, each as the person who made it."""
    people = {user.name: _account(user.name, user.password, now) for user in scenario.users}
    firsts = {sent.mutation["book"]: sent for sent in reversed(scenario.records)}
    counts = {"applied": 0, "duplicate": 0}
    for sent in firsts.values():
        _send([sent], people[sent.user], now, counts)
    for member in scenario.members:
        owner = people[member.owner]
        members.give_role(book=member.book, user=owner, name=member.user, role=member.role, now=now)
    rest = [sent for sent in scenario.records if firsts[sent.mutation["book"]] is not sent]
    for (user, _), run in groupby(rest, key=lambda sent: (sent.user, sent.device)):
        run_list = list(run)
        for start in range(0, len(run_list), BATCH):
            _send(run_list[start : start + BATCH], people[user], now, counts)
    return Written(counts["applied"], counts["duplicate"])


def _account(name: str, password: str, now: datetime) -> Account:
    about: dict[str, Any] = {
        "name": name, "password": password, "passwords": Passwords(), "lifetime": _LIFETIME,
        "agent": "demo", "now": now,
    }  # fmt: skip
    try:
        signed = accounts.sign_up(**about)
    except InvalidError:
        signed = accounts.sign_in(**about)
    return signed.user


def _send(run: Sequence[Sent], user: Account, now: datetime, counts: dict[str, int]) -> None:
    sender = Sender(user=user, device=run[0].device, now=now, verdict=_verdict)
    for sent, answer in zip(run, push(raw=[one.mutation for one in run], sender=sender), strict=True):
        if answer.outcome not in counts:
            raise RefusedError(f"{sent.mutation['kind']} {answer.mut}: {answer.outcome}, {answer.error}")
        counts[answer.outcome] += 1


def _verdict(kind: str, body: Mapping[str, Any]) -> dict[str, list[str]]:
    errors = _schema(kind).validate(body)
    return {"body": [json.dumps(errors, default=str)]} if errors else {}


@cache
def _schema(kind: str) -> Schema:
    return KINDS[kind]()
