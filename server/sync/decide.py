"""What becomes of a mutation that may be kept; the device decides the same way before it has heard."""

from dataclasses import dataclass

from .merge import merge_edit
from .mutation import Mutation, Outcome, Standing, Version


@dataclass(frozen=True, slots=True)
class Decision:
    """An outcome, and the version to keep if there is one."""

    outcome: Outcome
    version: Version | None = None


def decide(
    *,
    mutation: Mutation,
    current: Version | None,
    base: Version | None,
    author: str,
    device: str,
    received_at: str,
) -> Decision:
    """Applied, kept beside, or waiting.

    A new record or an edit of the current revision is applied; an edit of an earlier one, or of one that itself
    conflicts, is kept beside; an edit of what has not arrived waits. A second creation of one record is an edit
    from nothing, and conflicts. `current` is the record's current version, `base` the one that the edit started
    from, None where the server has none.
    """
    if current is not None and current.rev == mutation.mut:
        return Decision("duplicate")
    if mutation.base_rev is None:
        standing: Standing = "applied" if current is None else "conflict"
        start = None
    elif current is not None and current.rev == mutation.base_rev:
        standing, start = "applied", current
    elif base is not None:
        standing, start = "conflict", base
    else:
        return Decision("wait")
    version = Version(
        book=mutation.book,
        seq=0,
        rev=mutation.mut,
        kind=mutation.kind,
        id=mutation.id,
        base_rev=mutation.base_rev,
        standing=standing,
        body=mutation.body if start is None else merge_edit(start.body, mutation.body),
        author=author,
        device=device,
        device_seq=mutation.device_seq,
        made_at=mutation.made_at,
        utc_offset_min=mutation.utc_offset_min,
        received_at=received_at,
    )
    return Decision(standing, version)
