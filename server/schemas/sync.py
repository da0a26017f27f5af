"""What travels in POST /api/sync. One body is one of many kinds: `kind` says which schema it must meet."""

from marshmallow import fields, validate

from .account import User
from .base import Strict
from .fields import Choice, Id, Instant, Whole
from .member import ROLES, Member
from .register import KINDS, PLAN_KINDS

SCHEMA = 1  # raised when a record kind changes in a way that an older reader would misread
MUTATIONS_AT_ONCE = 500
BOOKS_AT_ONCE = 500
VERSIONS_AT_ONCE = 1_000
HIGHEST = 2**53 - 1  # the largest whole number that JSON carries exactly in every language


def body_of(*names: str) -> fields.Dict:
    """A record's body that must meet one of the named schemas."""
    # anyOf, not oneOf: a short body such as {"name": "x"} meets several kinds; `kind` decides
    refs = [{"$ref": f"#/components/schemas/{name}"} for name in names]
    return fields.Dict(required=True, metadata={"anyOf": refs})


def change_name(kind: str) -> str:
    """The name of the schema of an edit: the same fields, none of them required."""
    return f"{KINDS[kind].__name__}Change"


WHOLE = [schema.__name__ for schema in KINDS.values()]
CHANGES = [change_name(kind) for kind in KINDS if kind in PLAN_KINDS]


class Mutation(Strict):
    """One thing that a person did: a whole new record, or the changed fields of a plan record."""

    mut = Id(required=True, metadata={"description": "names the mutation and is the revision that it makes"})
    book = Id(required=True)
    kind = Choice(*KINDS, required=True)
    id = Id(required=True)
    base_rev = Id(required=True, allow_none=True, metadata={"description": "null for a new record"})
    body = body_of(*WHOLE, *CHANGES)
    made_at = Instant(required=True)
    utc_offset_min = Whole(-900, 900, required=True)
    device_seq = Whole(0, HIGHEST, required=True)
    schema = Whole(1, 1_000, required=True)


class BookMark(Strict):
    """How far a device has read a book."""

    book = Id(required=True)
    checkpoint = Whole(0, HIGHEST, required=True)
    unsent = Whole(
        0, HIGHEST, metadata={"description": "entries of the book that the device holds besides `mutations`"}
    )


class SyncRequest(Strict):
    """What a device has done, and how far it has read."""

    device = Id(required=True)
    mutations = fields.List(
        fields.Raw(metadata={"oneOf": [{"$ref": "#/components/schemas/Mutation"}]}),
        required=True,
        validate=validate.Length(max=MUTATIONS_AT_ONCE),
    )
    books = fields.List(fields.Nested(BookMark), required=True, validate=validate.Length(max=BOOKS_AT_ONCE))
    heard_since = Instant(metadata={"description": "`now` of the answer whose `heard` the device has"})


class MutationError(Strict):
    """Why a mutation was refused or has to wait; `fields` maps a dotted path to sentences."""

    code = fields.String(required=True)
    message = fields.String(required=True)
    fields_ = fields.Dict(
        keys=fields.String(), values=fields.List(fields.String()), required=True, data_key="fields"
    )


class Answer(Strict):
    """What became of one mutation; `mut` is null when none could be read."""

    mut = fields.String(required=True, allow_none=True)
    outcome = Choice("applied", "duplicate", "conflict", "wait", "rejected", required=True)
    error = fields.Nested(MutationError)


class Version(Strict):
    """A mutation that was kept, with the whole record as it stood after it."""

    book = Id(required=True)
    seq = Whole(1, HIGHEST, required=True)
    rev = Id(required=True)
    kind = Choice(*KINDS, required=True)
    id = Id(required=True)
    base_rev = Id(required=True, allow_none=True)
    standing = Choice("applied", "conflict", required=True)
    body = body_of(*WHOLE)
    author = Id(required=True)
    device = Id(required=True)
    device_seq = Whole(0, HIGHEST, required=True)
    made_at = Instant(required=True)
    utc_offset_min = Whole(-900, 900, required=True)
    received_at = Instant(required=True)


class BookNews(Strict):
    """What is new in one book since the device's checkpoint; `more` says ask again."""

    book = Id(required=True)
    role = Choice(*ROLES, required=True)
    checkpoint = Whole(0, HIGHEST, required=True)
    more = fields.Boolean(required=True)
    members = fields.List(fields.Nested(Member), required=True)
    versions = fields.List(
        fields.Nested(Version), required=True, validate=validate.Length(max=VERSIONS_AT_ONCE)
    )


class Heard(Strict):
    """When another device of a book was last heard; it held `unsent` entries then, null if it did not tell."""

    book = Id(required=True)
    user = Id(required=True)
    device = Id(required=True)
    at = Instant(required=True)
    unsent = Whole(0, HIGHEST, required=True, allow_none=True)


class SyncAnswer(Strict):
    """An answer for each mutation in order, and the news of the user's books."""

    user = fields.Nested(User, required=True)
    now = Instant(required=True)
    generation = Id(required=True, metadata={"description": "another one after a restore: read from 0 again"})
    answers = fields.List(fields.Nested(Answer), required=True)
    books = fields.List(fields.Nested(BookNews), required=True)
    gone = fields.List(Id(), required=True)
    heard = fields.List(fields.Nested(Heard), required=True)
