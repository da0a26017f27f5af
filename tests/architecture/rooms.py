"""The rooms of the house and who may import whom: an arrow that is not listed is forbidden."""

from dataclasses import dataclass, field

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "server", "web", "service_worker", "tests"}

# What has to be there, so that no rule passes because its room stands empty.
PLACES = (
    *(f"server/{room}" for room in ("domain", "sync", "schemas", "store", "services", "api", "demo")),
    *(f"web/src/{room}" for room in ("domain", "sync", "units", "store", "services", "ui/screens")),
    *("web/src/ui/parts", "web/src/ui/text", "service_worker"),
    *(f"tests/{room}" for room in ("domain", "sync", "schemas", "store", "services", "api", "demo", "web")),
    *(f"tests/{room}" for room in ("vectors", "parity", "reference", "e2e", "architecture", "docs", "bench")),
    "tests/calibration",
)

# Modules of the standard library that bring time, chance or the outside world.
OUTSIDE = {
    *("time", "random", "secrets", "os", "io", "pathlib", "tempfile", "shutil", "sqlite3", "socket", "ssl"),
    *("http", "urllib", "subprocess", "threading", "multiprocessing", "asyncio", "logging", "sys"),
}


@dataclass(frozen=True)
class Room:
    """What a room may import: rooms of ours, packages of others, and rooms of which only types may come."""

    own: set[str] = field(default_factory=set)
    others: set[str] = field(default_factory=set)
    types_of: set[str] = field(default_factory=set)
    no_outside: bool = False


# They wire the house together, so they may import all of it.
WIRING = {f"server/{name}.py" for name in ("__init__", "app", "cli", "extensions", "config", "build_web")}
WIRING |= {"server/api/contract.py"}  # a command that makes an app to write down its contract

# In Python a type is a name in capitals: a class, an error or a constant, never a function.
PYTHON = {
    "domain": Room(own={"domain"}, others={"numpy"}, no_outside=True),
    "sync": Room(own={"sync"}, no_outside=True),
    "units": Room(others={"pint"}, no_outside=True),
    "schemas": Room(own={"schemas", "units"}, others={"marshmallow"}, types_of={"domain", "sync"}),
    "store": Room(
        own={"store", "extensions"}, others={"sqlalchemy", "flask_sqlalchemy", "alembic"}, types_of={"sync"}
    ),
    "services": Room(own={"services", "domain", "sync", "store"}, others={"argon2"}),
    "api": Room(
        own={"api", "schemas", "services", "extensions"},
        others={"flask", "flask_smorest", "marshmallow", "webargs", "werkzeug", "whitenoise"},
        types_of={"domain", "sync", "config"},
    ),
    "demo": Room(own={"demo", "services", "schemas"}, others={"numpy"}),
}

# `contract` is the generated file with the types of the JSON; types come by `import type`.
TYPESCRIPT = {
    "domain": Room(own={"domain"}),
    "sync": Room(own={"sync"}, types_of={"contract"}),
    "units": Room(own={"units"}, types_of={"contract"}),
    "store": Room(own={"store"}, others={"dexie"}, types_of={"sync", "contract"}),
    "services": Room(
        own={"services", "domain", "sync", "store", "units"},
        others={"@preact/signals"},
        types_of={"contract"},
    ),
    "ui": Room(
        own={"ui", "services", "units"},
        others={"preact", "@preact/signals"},
        types_of={"domain", "contract"},
    ),
    "service_worker": Room(own={"service_worker"}, others={"workbox-precaching", "workbox-routing"}),
}

# --- sizes -------------------------------------------------------------------------------------------------

FILE_LINES, FUNCTION_LINES = 400, 60
DATA_TABLES: dict[str, str] = {}  # files that may be longer, with the reason
TABLES = (  # folders whose functions are tables written out: cases of vectors, columns of the database
    "tests/vectors/makers/",
    "server/store/migrations/",
)

# --- the two languages -------------------------------------------------------------------------------------

# Public functions with no twin, as "file" or "file:function", with the reason.
TUPLES = "numpy arrays leave a function as tuples; the other side has plain arrays all along"
NUMPY = "numpy does this on the other side"
STACK = "several estimates in one block, changed in place for speed; on the other side numpy, inside filter and journal"
PIECES = (
    "a page reads a long log piece by piece, so that it can be touched meanwhile; the server reads it at once"
)
PLACE = "a page just opened goes on from a place that the device kept; the server reads the whole log"
DEVICE = "the device's part of sync: the server keeps no queue, sends nothing and retries nothing"
SERVER = "the server's part of sync: it alone judges rights and what came in"
ONLY_PYTHON = {
    "domain/linalg:asSquare": TUPLES,
    "domain/linalg:tuples": TUPLES,
    "domain/statics:asTuple": TUPLES,
    "domain/statics:asTuples": TUPLES,
    "sync/ledger": SERVER,
    "sync/redact": SERVER,
    "sync/roles": SERVER,
    "sync/mutation:nameOf": SERVER,
    "sync/mutation:read": SERVER,
}
ONLY_TYPESCRIPT = {
    "domain/visit:measuredOf": "on the other side a method, Visit.of",
    "domain/placing:byTime": "comparing two entries; Python sorts by a key",
    "domain/placing:finding": "blanks of a finding are the defaults of its dataclass in Python",
    "domain/tank_reader:rowOf": "blanks of a row are the defaults of its dataclass in Python",
    **{
        f"domain/linalg:{name}": NUMPY
        for name in ("add", "diag", "dot", "identity", "matmul", "matvec", "outer", "scale", "subtract")
    },
    "domain/linalg:transpose": NUMPY,
    "domain/stack": STACK,
    "domain/mixed": STACK,
    "domain/running": STACK,
    "domain/fuel_order": "what fuel_log.py does in one file: it is not continued entry by entry there",
    "domain/fuel_reader": "likewise",
    "domain/fuel_closed": "likewise",
    "domain/fuel_rest": PLACE,
    "domain/book_rest": PLACE,
    **{
        f"domain/fuel_log:{name}": PLACE
        for name in ("classesOf", "filled", "isWhole", "plainOf", "readingOf")
    },
    "domain/supplies:goneOnOf": PLACE,
    "domain/fuel_log:fuelLogPieces": PIECES,
    "domain/fuel_log:finished": PIECES,
    "domain/supplies:fuelPiecesOf": PIECES,
    "domain/journal:continuedFrom": PIECES,
    **{f"domain/notice:{name}": STACK for name in ("noticeOf", "noticeOn", "watchOf")},
    "sync/merge:changeBetween": DEVICE,
    "sync/backoff": DEVICE,
    "sync/fold": DEVICE,
    "sync/ids": DEVICE,
    "sync/outbox": DEVICE,
    "sync/pull": DEVICE,
    "sync/restore": DEVICE,
}
