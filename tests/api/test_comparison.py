"""Planned against weighed by the server, where an older version let in what cannot be read."""

import pytest
from factories import Person, weighing

from server.schemas.weighing import Bridge, Weighing


@pytest.fixture
def beyond(owner: Person, monkeypatch: pytest.MonkeyPatch) -> str:
    """A weighing that the schema did not know to refuse: 12 t on a scale that reaches 10 t."""
    with monkeypatch.context() as older:
        older.setattr(Bridge, "together", lambda self, data: {})
        older.setattr(Weighing, "together", lambda self, data: {})
        one = weighing(owner.book, 12_000, bridge={"interval_kg": 1})
        assert owner.outcomes(one) == ["applied"]
    return str(one["id"])


def test_it_says_what_is_wrong_and_the_others_are_compared(owner: Person, beyond: str) -> None:
    good = weighing(owner.book, 2_310)
    assert owner.outcomes(good) == ["applied"]
    path = f"/api/books/{owner.book}/comparison"
    told = owner.ask("GET", f"{path}?weighing={beyond}")
    assert (told.status_code, (told.json or {})["code"]) == (422, "out_of_range")
    assert "value_kg is 12000" in (told.json or {})["message"]
    for query in ("", f"?weighing={good['id']}"):
        answer = owner.ask("GET", path + query)
        assert (answer.json or {})["comparison"]["weighing_id"] == good["id"]


def test_alone_it_is_no_weighing(owner: Person, beyond: str) -> None:
    assert beyond
    answer = owner.ask("GET", f"/api/books/{owner.book}/comparison")
    assert answer.json == {"comparison": None}


def test_a_phone_with_older_code_is_told_the_field(owner: Person) -> None:
    one = weighing(owner.book, 12_000, bridge={"interval_kg": 1})
    told = owner.answer(one)
    assert told["outcome"] == "rejected"
    (sentence,) = told["error"]["fields"]["readings.0.value_kg"]
    assert sentence.startswith("12000 is not possible: it must be 0 to 10000 kg")
