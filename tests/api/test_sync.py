"""POST /api/sync: what becomes of mutations, and who is told."""

from collections.abc import Callable
from typing import Any

from factories import AT, Person, edit, fill, mutation, new_id, seat, vehicle, weighing

People = Callable[[], Person]


def news_of(answer: dict[str, Any], book: str) -> dict[str, Any]:
    return next(one for one in answer["books"] if one["book"] == book)


def test_a_vehicle_makes_its_book_and_its_sender_the_owner(person: People) -> None:
    ada, book = person(), new_id()
    answer = ada.sync(vehicle(book), seat(book))
    assert [one["outcome"] for one in answer["answers"]] == ["applied", "applied"]
    news = news_of(answer, book)
    assert (news["role"], news["checkpoint"], news["more"]) == ("owner", 2, False)
    assert news["members"] == [{"user": ada.id, "name": ada.name, "role": "owner"}]
    assert [one["seq"] for one in news["versions"]] == [1, 2]


def test_a_version_says_all_that_was_sent_and_who_sent_it(owner: Person) -> None:
    sent = seat(owner.book, "left rear", x_m=2.5, as_typed={"x_m": ["250", "cm"]})
    owner.sync(sent)
    kept = owner.versions(owner.book)[-1]
    names = ("book", "kind", "id", "base_rev", "body", "made_at", "utc_offset_min", "device_seq")
    assert {name: kept[name] for name in names} == {name: sent[name] for name in names}
    assert (kept["rev"], kept["author"], kept["device"]) == (sent["mut"], owner.id, owner.device)
    assert (kept["standing"], kept["received_at"]) == ("applied", "2026-03-04T05:06:07.000Z")


def test_after_a_lost_answer_the_same_again_is_a_duplicate(owner: Person) -> None:
    sent = [seat(owner.book), fill(owner.book)]
    owner.sync(*sent)
    before = owner.versions(owner.book)
    assert owner.outcomes(*sent) == ["duplicate", "duplicate"]
    assert owner.versions(owner.book) == before


def test_twice_in_one_batch_is_kept_once(owner: Person) -> None:
    sent = fill(owner.book)
    assert owner.outcomes(sent, sent) == ["applied", "duplicate"]


def test_edits_chain_within_a_batch(owner: Person) -> None:
    made = seat(owner.book)
    first = edit(made, name="first")
    second = edit(made, first["mut"], x_m=1.2)
    assert owner.outcomes(made, first, second) == ["applied"] * 3
    assert owner.versions(owner.book)[-1]["body"] == {"name": "first", "x_m": 1.2}


def test_an_edit_of_an_older_revision_is_kept_beside(owner: Person) -> None:
    made = seat(owner.book)
    mine, yours = edit(made, name="mine"), edit(made, x_m=1.5)
    assert owner.outcomes(made, mine, yours) == ["applied", "applied", "conflict"]
    beside = owner.versions(owner.book)[-1]
    assert (beside["standing"], beside["body"]) == ("conflict", {"name": "driver", "x_m": 1.5})


def test_an_edit_of_a_conflicting_edit_joins_its_branch(owner: Person) -> None:
    made = seat(owner.book)
    mine, yours = edit(made, name="mine"), edit(made, x_m=1.5)
    further = edit(made, yours["mut"], y_m=0.4)
    owner.sync(made, mine, yours)
    assert owner.outcomes(further) == ["conflict"]
    assert owner.versions(owner.book)[-1]["body"] == {"name": "driver", "x_m": 1.5, "y_m": 0.4}


def test_a_person_settles_a_conflict_by_an_edit_of_the_current_one(owner: Person) -> None:
    made = seat(owner.book)
    mine, yours = edit(made, name="mine"), edit(made, name="yours")
    owner.sync(made, mine, yours)
    assert owner.outcomes(edit(made, mine["mut"], name="ours")) == ["applied"]


def test_what_builds_on_something_not_arrived_waits(owner: Person) -> None:
    made, first = seat(owner.book), new_id()
    chained = edit(made, first, name="later")
    assert owner.outcomes(edit(made, name="before its record"), chained) == ["wait", "wait"]
    assert owner.outcomes(fill(owner.book, corrects=new_id())) == ["wait"]


def test_one_bad_mutation_never_hurts_the_others(owner: Person) -> None:
    good = [seat(owner.book), fill(owner.book)]
    bad = [
        seat(owner.book, ""),
        mutation(owner.book, "seat", {"name": "x", "unheard_of": 1}),
        {"mut": new_id()},
        "not even an object",
    ]
    assert owner.outcomes(good[0], *bad, good[1]) == ["applied", *["rejected"] * 4, "applied"]


def test_a_refusal_names_the_fields_with_their_range(owner: Person) -> None:
    answer = owner.answer(fill(owner.book, 9_000))
    assert answer["error"]["code"] == "invalid"
    assert answer["error"]["fields"]["lines.0.litres_l"] == [
        "9000.0 is not possible: it must be 0 to 5000 L."
    ]


def test_an_edit_is_judged_as_the_whole_record_that_it_makes(owner: Person) -> None:
    made = seat(owner.book, x_m=2.5, as_typed={"x_m": ["250", "cm"]})
    owner.sync(made)
    wrong = edit(made, x_m=2.6, as_typed={"x_m": ["250", "cm"]})
    assert list(owner.answer(wrong)["error"]["fields"]) == ["as_typed.x_m"]
    assert owner.outcomes(edit(made, x_m=2.6)) == ["applied"]
    assert owner.versions(owner.book)[-1]["body"] == {"name": "driver", "x_m": 2.6}


def test_an_entry_of_the_log_is_never_changed(owner: Person) -> None:
    made = fill(owner.book)
    owner.sync(made)
    again = {**fill(owner.book), "id": made["id"]}
    assert owner.answer(again)["error"]["code"] == "entry_exists"
    assert owner.answer(edit(made, note="changed"))["error"]["code"] == "entry_exists"


def test_a_correction_points_at_an_entry_of_its_kind(owner: Person) -> None:
    made = fill(owner.book)
    struck = mutation(owner.book, "correction", {**AT, "of_id": made["id"], "what": "struck_out"})
    assert owner.outcomes(made, fill(owner.book, 41, corrects=made["id"]), struck) == ["applied"] * 3
    other = weighing(owner.book, corrects=made["id"])
    assert owner.answer(other)["error"]["code"] == "other_kind"


def test_a_second_creation_of_one_record_is_kept_beside(owner: Person) -> None:
    made = seat(owner.book)
    assert owner.outcomes(made, {**seat(owner.book, "other"), "id": made["id"]}) == ["applied", "conflict"]


def test_names_that_are_taken(owner: Person) -> None:
    made = seat(owner.book)
    owner.sync(made)
    assert owner.answer({**fill(owner.book), "mut": made["mut"]})["error"]["code"] == "mut_taken"
    assert owner.answer({**fill(owner.book), "id": made["id"]})["error"]["code"] == "id_taken"
    second = mutation(owner.book, "vehicle", {"name": "second"})
    assert owner.answer(second)["error"]["code"] == "one_vehicle"
    foreign = edit(seat(owner.book), made["mut"], name="x")
    assert owner.answer(foreign)["error"]["code"] == "other_record"


def test_a_newer_app_than_the_server_waits(owner: Person) -> None:
    answer = owner.answer({**seat(owner.book), "schema": 2})
    assert (answer["outcome"], answer["error"]["code"]) == ("wait", "schema_newer")
