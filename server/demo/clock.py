"""Days counted back from today, and the hours of the one zone in which the scenario plays."""

from datetime import UTC, date, datetime, time, timedelta, timezone

ZONE = "Etc/GMT-9"  # nine hours east of Greenwich, without summer time and without a place
OFFSET_MIN = 540


def day_of(today: date, back: int) -> date:
    """The calendar day so many days before today."""
    return today - timedelta(days=back)


def moment(today: date, back: int, at: str) -> datetime:
    """The instant of an hour "HH:MM" of a day."""
    zone = timezone(timedelta(minutes=OFFSET_MIN))
    local = datetime.combine(day_of(today, back), time.fromisoformat(at), tzinfo=zone)
    return local.astimezone(UTC)


def stamp(when: datetime) -> str:
    """An instant as records write it."""
    return when.strftime("%Y-%m-%dT%H:%M:%S.") + f"{when.microsecond // 1000:03d}Z"
