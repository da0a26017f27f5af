"""Who may do what in a book: one table."""

from .mutation import KINDS, LOG_KINDS, PLAN_KINDS, Role

ROLES: tuple[Role, ...] = ("owner", "co_driver", "fitter")

# Kinds that a role may write; a fitter writes the plan but not people, and weighings of his own.
_WRITES: dict[Role, frozenset[str]] = {
    "owner": KINDS,
    "co_driver": LOG_KINDS,
    "fitter": (PLAN_KINDS - {"person"}) | {"weighing", "correction"},
}


def may_write(*, role: Role, kind: str) -> bool:
    """Whether a role may write records of a kind at all."""
    return kind in _WRITES[role]


def may_correct(*, role: Role, kind: str, own: bool) -> bool:
    """Whether a role may correct an entry of a kind: it needs the right to the entry, and a fitter its authorship."""
    return may_write(role=role, kind=kind) and (own or role != "fitter")


def may_share(*, role: Role) -> bool:
    """Whether a role may give and take roles."""
    return role == "owner"
