"""What travels between a device and the server; the page on the protocol is README.md beside this file."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal, cast

Body = Mapping[str, Any]
Standing = Literal["applied", "conflict"]
Outcome = Literal["applied", "duplicate", "conflict", "wait", "rejected"]
Role = Literal["owner", "co_driver", "fitter"]

SCHEMA = 1
PLAN_KINDS = frozenset({"vehicle", "trailer", "plate", "item", "tank", "seat", "person", "route"})
LOG_KINDS = frozenset({"aboard", "weighing", "fill", "dip", "transfer", "water", "event", "correction"})
KINDS = PLAN_KINDS | LOG_KINDS

_UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
_INSTANT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,6})?Z")
_IDS = ("mut", "book", "id")
_WHOLE = {"utc_offset_min": (-900, 900), "device_seq": (0, 2**53 - 1), "schema": (1, 1_000)}
_NAMES = frozenset((*_IDS, *_WHOLE, "kind", "base_rev", "body", "made_at"))


@dataclass(frozen=True, slots=True)
class Mutation:
    """One thing that a person did. `mut` names it for ever and is the revision that it makes."""

    mut: str
    book: str
    kind: str
    id: str
    base_rev: str | None
    body: Body
    made_at: str
    utc_offset_min: int
    device_seq: int
    schema: int


@dataclass(frozen=True, slots=True)
class Version:
    """A mutation that was kept, with the whole record after it; `seq` is 0 until the book has numbered it."""

    book: str
    seq: int
    rev: str
    kind: str
    id: str
    base_rev: str | None
    standing: Standing
    body: Body
    author: str
    device: str
    device_seq: int
    made_at: str
    utc_offset_min: int
    received_at: str


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a mutation was not kept: a code for programs, a sentence for people, the fields for forms."""

    code: str
    message: str
    fields: Mapping[str, list[str]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Answer:
    """What became of one mutation; `mut` is None when it could not be read."""

    mut: str | None
    outcome: Outcome
    error: Refusal | None = None


def name_of(raw: object) -> str | None:
    """The `mut` of something sent as a mutation, or None where there is none that can be repeated."""
    mut = raw.get("mut") if isinstance(raw, dict) else None
    return mut if isinstance(mut, str) and _UUID.fullmatch(mut) else None


def read(raw: object) -> Mutation | Refusal:
    """A mutation from JSON, its body still unjudged; a refusal that names what is wrong with the envelope.

    A name that is not of the protocol is refused too, so that nothing gets lost unseen.
    """
    if not isinstance(raw, dict):
        return Refusal("invalid", "A mutation is an object.")
    if raw.keys() != _NAMES:
        return _refuse(
            {name: ["This is missing."] for name in sorted(_NAMES - raw.keys())}
            | {str(name): ["This name is not known."] for name in sorted(raw.keys() - _NAMES)}
        )
    wrong = [name for name in _IDS if not _is_id(raw[name])]
    if raw["base_rev"] is not None and not _is_id(raw["base_rev"]):
        wrong.append("base_rev")
    errors = {name: ["This is not a UUID in lower case."] for name in wrong}
    for name, (low, high) in _WHOLE.items():
        value = raw[name]
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            errors[name] = [f"This must be a whole number from {low} to {high}."]
    if not isinstance(raw["kind"], str) or raw["kind"] not in KINDS:
        errors["kind"] = [f"This must be one of {', '.join(sorted(KINDS))}."]
    if not isinstance(raw["body"], dict):
        errors["body"] = ["This must be an object."]
    if not _is_instant(raw["made_at"]):
        errors["made_at"] = ["This is not a UTC instant like 2026-03-04T05:06:07Z."]
    return _refuse(errors) if errors else Mutation(**cast(dict[str, Any], raw))


def _refuse(errors: dict[str, list[str]]) -> Refusal:
    return Refusal("invalid", "The mutation's envelope is not of the agreed form.", errors)


def _is_id(value: object) -> bool:
    return isinstance(value, str) and _UUID.fullmatch(value) is not None


def _is_instant(value: object) -> bool:
    if not isinstance(value, str) or not _INSTANT.fullmatch(value):
        return False
    try:
        datetime.fromisoformat(value)
    except ValueError:
        return False
    return True
