"""What becomes of mutations: any order, any repetition, and nothing is lost."""

from typing import Any

from factories import edit, new_id, seat
from hypothesis import given
from hypothesis import strategies as st

from server.sync.decide import Decision, decide
from server.sync.ledger import Ledger, receive, target_of
from server.sync.mutation import Answer, Mutation, Version, read

BOOK, AUTHOR, DEVICE, AT = new_id(), new_id(), new_id(), "2026-03-04T05:06:07.000Z"


def read_one(raw: dict[str, Any]) -> Mutation:
    made = read(raw)
    assert isinstance(made, Mutation)
    return made


def settle(mutation: Mutation, current: Version | None, base: Version | None) -> Decision:
    return decide(mutation=mutation, current=current, base=base, author=AUTHOR, device=DEVICE, received_at=AT)


def take(ledger: Ledger, raw: dict[str, Any]) -> Answer:
    return receive(
        ledger=ledger,
        mutation=read_one(raw),
        verdict=lambda kind, body: {} if "name" in body else {"name": ["This is missing."]},
        author=AUTHOR,
        device=DEVICE,
        received_at=AT,
    )


def member() -> Ledger:
    return Ledger(exists=True, role="owner")


def test_an_edit_of_the_current_revision_is_applied() -> None:
    made = seat(BOOK)
    current = settle(read_one(made), None, None).version
    decision = settle(read_one(edit(made, x_m=1.0)), current, current)
    assert decision.outcome == "applied"
    assert decision.version is not None
    assert decision.version.body == {"name": "driver", "x_m": 1.0}


def test_without_its_base_an_edit_waits() -> None:
    assert settle(read_one(edit(seat(BOOK), x_m=1.0)), None, None) == Decision("wait")


def test_the_current_revision_itself_is_a_duplicate() -> None:
    made = read_one(seat(BOOK))
    assert settle(made, settle(made, None, None).version, None) == Decision("duplicate")


def chain(length: int) -> list[dict[str, Any]]:
    """A record and edits, some chained and some from the beginning."""
    made = [seat(BOOK)]
    for number in range(1, length):
        start = made[-1] if number % 3 else made[0]
        made.append(edit(made[0], start["mut"], x_m=float(number % 20)))
    return made


@given(st.permutations(list(range(7))), st.lists(st.integers(0, 6), max_size=10))
def test_any_order_and_repetition_ends_with_all_kept_once(order: list[int], again: list[int]) -> None:
    sent = chain(7)
    ledger, waiting = member(), [sent[place] for place in [*order, *again]]
    while waiting:
        answers = [(raw, take(ledger, raw).outcome) for raw in waiting]
        left = [raw for raw, outcome in answers if outcome == "wait"]
        assert len(left) < len(waiting)
        assert {outcome for _, outcome in answers} <= {"applied", "conflict", "duplicate", "wait"}
        waiting = left
    assert sorted(one.rev for one in ledger.fresh) == sorted(raw["mut"] for raw in sent)
    assert_one_line(ledger.fresh)


def assert_one_line(versions: list[Version]) -> None:
    applied = [one for one in versions if one.standing == "applied"]
    assert [one.base_rev for one in applied] == [None, *(one.rev for one in applied[:-1])]


def test_a_refused_record_leaves_the_ledger_as_it_was() -> None:
    ledger = member()
    assert take(ledger, {**seat(BOOK), "body": {}}).outcome == "rejected"
    assert (ledger.fresh, ledger.kept, ledger.versions, ledger.current) == ([], {}, {}, {})


def test_what_a_mutation_points_at() -> None:
    fill = {**seat(BOOK), "kind": "fill", "body": {"corrects": "x"}}
    strike = {**seat(BOOK), "kind": "correction", "body": {"of_id": "y", "corrects": "x"}}
    odd = {**seat(BOOK), "kind": "fill", "body": {"corrects": 5}}
    plan = {**seat(BOOK), "body": {"corrects": "x"}}
    assert [target_of(read_one(one)) for one in (fill, strike, odd, plan)] == ["x", "y", None, None]
