"""What a plan forgets goes with what was added, and follows it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import number, vehicles

from server.domain.axles import Geometry
from server.domain.errors import OutOfRange
from server.domain.forgotten import FORGOTTEN_SHARE, counts, forgotten_after, forgotten_part
from server.domain.statics import Part

Vehicle = tuple[Geometry, list[Part]]
SHARES = number(0.001, 0.2, 3)


@given(vehicles(), SHARES)
def test_it_is_the_share_of_what_was_added_within_where_that_is(vehicle: Vehicle, share: float) -> None:
    own = [part for part in vehicle[1][2:] if counts(part=part)]
    found = forgotten_part(added=vehicle[1][2:], share=share)
    total = sum(part.mass_kg for part in own)
    if total == 0.0:
        assert found is None
        return
    assert found is not None
    assert found.mass_kg == pytest.approx(share * total)
    xs = [part.x_m for part in own if part.mass_kg > 0]
    assert min(xs) - 1e-9 <= found.x_m <= max(xs) + 1e-9
    assert 0.15 <= found.x_u_m <= 0.15 + max(xs) - min(xs) + 1e-9


@given(vehicles(), SHARES, st.data())
def test_it_follows_what_moves_as_if_computed_anew(
    vehicle: Vehicle, share: float, data: st.DataObject
) -> None:
    added = vehicle[1][2:]
    found = forgotten_part(added=added, share=share)
    if found is None:
        return
    moved = data.draw(st.lists(st.sampled_from(added), unique_by=lambda part: part.id))
    after = {part.id: replace(part, x_m=data.draw(number(-1, 6))) for part in moved}
    anew = forgotten_part(added=[after.get(part.id, part) for part in added], share=share)
    follows = forgotten_after(part=found, share=share, before=moved, after=list(after.values()))
    assert anew is not None
    assert follows.x_m == pytest.approx(anew.x_m, rel=1e-9, abs=1e-9)
    assert follows.x_u_m == pytest.approx(anew.x_u_m, rel=1e-9)
    assert replace(follows, x_m=anew.x_m, x_u_m=anew.x_u_m) == anew


def test_the_usual_share_is_the_middle_of_common_practice_and_its_u_that_of_its_range() -> None:
    item = Part("a", 1000.0, 0.0, 2.0)
    found = forgotten_part(added=[item], share=FORGOTTEN_SHARE)
    assert found is not None
    assert found.mass_kg == pytest.approx(45.0)
    assert found.mass_u_kg == pytest.approx((60.0 - 30.0) / 12**0.5)


@pytest.mark.parametrize("share", [-0.01, 0.21, float("nan")])
def test_a_share_that_cannot_be_is_refused(share: float) -> None:
    with pytest.raises(ValueError, match="share"):
        forgotten_part(added=[], share=share)
    with pytest.raises(OutOfRange):
        forgotten_part(added=[], share=0.5)
