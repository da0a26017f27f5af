"""Instants as text: one fixed form, so that text sorts as time does."""

from datetime import UTC, datetime


def stamp(moment: datetime) -> str:
    """UTC with milliseconds, such as 2026-03-04T05:06:07.089Z."""
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def moment_of(text: str) -> datetime:
    """The instant of a stamp."""
    return datetime.fromisoformat(text)
