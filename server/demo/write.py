"""A scenario written through the services: accounts, books, roles, and each mutation as its user's phone sends it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

from server.schemas.base import Strict
from server.schemas.register import KINDS
from server.services import accounts, members
from server.services.accounts import Account, Lifetime
from server.services.errors import SignInError
from server.services.heard import hear
from server.services.passwords import Passwords
from server.services.push import Sender, push

from .folder import made, remember
from .journal import Sent
from .people import User
from .scenario import Scenario, generate

# not shorter than a browser's: whoever signs in ends all sessions that are older than this
_LIFETIME = Lifetime(idle=timedelta(days=90), total=timedelta(days=365))


class RefusedError(ValueError):
    """The server did not take a mutation: the scenario and the rules no longer agree."""


@dataclass(frozen=True, slots=True)
class Written:
    """How many mutations were kept, and how many had been there already."""

    applied: int = 0
    already: int = 0

    def __add__(self, other: "Written") -> "Written":
        return Written(self.applied + other.applied, self.already + other.already)


def fill(folder: Path, now: datetime) -> Written:
    """Write the demo of a folder into the database of the current application, unless all of it is there.

    One that was interrupted goes on with the day it began with; one that is complete is left as its users made it.
    """
    what = made(folder, now.date())
    if what.complete:
        return Written()
    remember(folder, what)
    written = write(generate(what.seed, date.fromisoformat(what.today)), now=now)
    remember(folder, what.finished())
    return written


def write(scenario: Scenario, *, now: datetime) -> Written:
    """Write what is not there yet; a second time finds every account, role and mutation, and adds no row."""
    passwords = Passwords()
    people = {user.name: _account(user, passwords, now) for user in scenario.users}
    begins = [one for one in scenario.records if one.mutation["id"] == one.mutation["book"]]
    written = sum((_send([one], people, now) for one in begins), Written())
    for given in scenario.members:
        owner = people[given.owner]
        members.give_role(book=given.book, user=owner, name=given.user, role=given.role, now=now)
    rest = (one for one in scenario.records if one.mutation["id"] != one.mutation["book"])
    runs = (list(run) for _, run in groupby(rest, key=lambda one: one.user))
    written = sum((_send(run, people, now) for run in runs), written)
    for user, device in {(one.user, one.device) for one in scenario.records}:
        books = {one.mutation["book"] for one in scenario.records if one.user == user}
        hear(user=people[user], device=device, unsent=dict.fromkeys(books, 0), now=now)
    return written


def _account(user: User, passwords: Passwords, now: datetime) -> Account:
    given: dict[str, Any] = {"name": user.name, "password": user.password, "passwords": passwords}
    given |= {"lifetime": _LIFETIME, "agent": "demo", "now": now}
    try:
        signed_in = accounts.sign_in(**given)
    except SignInError:
        signed_in = accounts.sign_up(**given)
    accounts.sign_out(signed_in.token)
    return signed_in.user


def _send(run: Sequence[Sent], people: Mapping[str, Account], now: datetime) -> Written:
    first = run[0]
    sender = Sender(user=people[first.user], device=first.device, now=now, verdict=_verdict)
    answers = push(raw=[one.mutation for one in run], sender=sender)
    for sent, answer in zip(run, answers, strict=True):
        if answer.outcome not in ("applied", "duplicate"):
            raise RefusedError(f"{first.user}, {sent.mutation['kind']}: {answer}")
    applied = sum(answer.outcome == "applied" for answer in answers)
    return Written(applied, len(answers) - applied)


def _verdict(kind: str, body: Mapping[str, Any]) -> dict[str, list[str]]:
    return {str(name): [str(said)] for name, said in _schema(kind).validate(body).items()}


@cache
def _schema(kind: str) -> Strict:
    return KINDS[kind]()
