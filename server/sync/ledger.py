"""One book as a batch of mutations meets it: each is answered by itself, and what is kept is seen by the next."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from .decide import decide
from .mutation import LOG_KINDS, SCHEMA, Answer, Body, Mutation, Outcome, Refusal, Role, Version
from .roles import may_correct, may_write

Kept = tuple[
    str, str, str | None, str
]  # kind, id, base_rev and author: what tells a repetition from a mix-up
Verdict = Callable[[str, Body], Mapping[str, list[str]]]


@dataclass(slots=True)
class Ledger:
    """What a batch needs to know of a book, and what it adds.

    `kept` says what each mutation of the batch that was kept before was, by its name; `versions` holds those from
    which edits start, by revision; `current` the current version of each record that it touches, by id. `role` is
    None for who may not see the book; `former` says that he once might. `fresh` collects the versions to store.
    """

    exists: bool
    role: Role | None
    former: bool = False
    kept: dict[str, Kept] = field(default_factory=dict)
    versions: dict[str, Version] = field(default_factory=dict)
    current: dict[str, Version] = field(default_factory=dict)
    fresh: list[Version] = field(default_factory=list)

    def keep(self, version: Version) -> None:
        """Take in a version that this batch made."""
        self.fresh.append(version)
        self.kept[version.rev] = (version.kind, version.id, version.base_rev, version.author)
        self.versions[version.rev] = version
        if version.standing == "applied":
            self.current[version.id] = version


def receive(
    *, ledger: Ledger, mutation: Mutation, verdict: Verdict, author: str, device: str, received_at: str
) -> Answer:
    """Answer one mutation and keep what comes of it in the ledger.

    `verdict` tells what is wrong with a whole record of a kind. A book that the author may not see is answered
    like one that is not there. Nothing raises: what cannot be kept is answered with its reason.
    """
    barred = _barred(ledger, mutation) or _already(ledger, mutation, author)
    if barred:
        return barred
    role = ledger.role or "owner"
    current = ledger.current.get(mutation.id)
    refusal = _misfit(mutation, current, ledger.versions.get(mutation.base_rev or "")) or _unentitled(
        mutation, role
    )
    if refusal:
        return _rejected(mutation, refusal)
    decision = decide(
        mutation=mutation,
        current=current,
        base=ledger.versions.get(mutation.base_rev or ""),
        author=author,
        device=device,
        received_at=received_at,
    )
    if decision.version is None:
        return _waiting(mutation)
    errors = verdict(mutation.kind, decision.version.body)
    if errors:
        return _rejected(mutation, Refusal("invalid", "The record has something that cannot be.", errors))
    answer = _correction(ledger, mutation, role, author)
    if answer:
        return answer
    ledger.role, ledger.exists = role, True
    ledger.keep(decision.version)
    return Answer(mutation.mut, decision.outcome)


def target_of(mutation: Mutation) -> str | None:
    """The id of the entry that a mutation corrects, strikes out or points at; None when it does neither."""
    name = "of_id" if mutation.kind == "correction" else "corrects"
    target = mutation.body.get(name) if mutation.kind in LOG_KINDS else None
    return target if isinstance(target, str) else None


def _barred(ledger: Ledger, mutation: Mutation) -> Answer | None:
    if mutation.schema > SCHEMA:
        return _waiting(
            mutation, "schema_newer", "This server is older than the app: it waits for the new version."
        )
    if ledger.role is not None:
        return None
    if ledger.former:
        return _rejected(mutation, Refusal("not_a_member", "You no longer share this book."))
    makes_it = mutation.kind == "vehicle" and mutation.id == mutation.book and mutation.base_rev is None
    return None if makes_it and not ledger.exists else _waiting(mutation)


def _already(ledger: Ledger, mutation: Mutation, author: str) -> Answer | None:
    kept = ledger.kept.get(mutation.mut)
    if kept is None:
        return None
    if kept == (mutation.kind, mutation.id, mutation.base_rev, author):
        return Answer(mutation.mut, "duplicate")
    return _rejected(
        mutation, Refusal("mut_taken", "Another mutation has this name.", {"mut": ["This is taken."]})
    )


def _misfit(mutation: Mutation, current: Version | None, base: Version | None) -> Refusal | None:
    if (mutation.kind == "vehicle") != (mutation.id == mutation.book):
        return Refusal(
            "one_vehicle", "A book has one vehicle, and the vehicle has the book's id.", {"id": ["Not so."]}
        )
    if current is not None and current.kind != mutation.kind:
        return Refusal("id_taken", f"This id belongs to a {current.kind}.", {"id": ["This is taken."]})
    if mutation.kind in LOG_KINDS and (mutation.base_rev is not None or current is not None):
        return Refusal("entry_exists", "An entry of the log is never changed: enter a correction.")
    if base is not None and base.id != mutation.id:
        return Refusal(
            "other_record", "The revision is another record's.", {"base_rev": ["This is another record's."]}
        )
    return None


def _unentitled(mutation: Mutation, role: Role) -> Refusal | None:
    if may_write(role=role, kind=mutation.kind):
        return None
    return Refusal("not_yours", f"A {role.replace('_', '-')} does not write a {mutation.kind}.")


def _correction(ledger: Ledger, mutation: Mutation, role: Role, author: str) -> Answer | None:
    target = target_of(mutation)
    if target is None:
        return None
    entry = ledger.current.get(target)
    if entry is None:
        return _waiting(mutation)
    if entry.kind not in LOG_KINDS or (mutation.kind != "correction" and entry.kind != mutation.kind):
        message = f"This corrects a {entry.kind}, which is no {mutation.kind}."
        return _rejected(mutation, Refusal("other_kind", message, {"corrects": ["This is of another kind."]}))
    if not may_correct(role=role, kind=entry.kind, own=entry.author == author):
        return _rejected(
            mutation, Refusal("not_yours", "The entry is another's: its author or an owner corrects it.")
        )
    return None


def _rejected(mutation: Mutation, refusal: Refusal) -> Answer:
    return Answer(mutation.mut, "rejected", refusal)


def _waiting(
    mutation: Mutation, code: str = "not_arrived", message: str = "What this builds on has not arrived yet."
) -> Answer:
    outcome: Outcome = "wait"
    return Answer(mutation.mut, outcome, Refusal(code, message))
