"""The test of single errors, against fitting the error itself."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import number

from server.domain.axles import Geometry
from server.domain.bridge import Bridge
from server.domain.gross import Signature, shortlist, suspects, suspects_of
from server.domain.posterior import Reconciled
from server.domain.reconcile import Session, reconcile
from server.domain.statics import Part, base_parts
from server.domain.weighing import Reading


def drawn(seed: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Innovation, its covariance and some columns."""
    rng = np.random.default_rng(seed)
    root = rng.normal(size=(4, 6))
    return 3 * rng.normal(size=4), root @ root.T, rng.normal(size=(4, 5))


@given(st.integers(0, 10_000))
def test_t_is_what_chi2_falls_by_when_the_error_is_fitted(seed: int) -> None:
    e, s, h = drawn(seed)
    signatures = [Signature(str(i), "mass", tuple(column)) for i, column in enumerate(h.T)]
    found = suspects(innovation=e.tolist(), spread=s.tolist(), signatures=signatures)
    white = np.linalg.inv(np.linalg.cholesky(s))
    for one, column in zip(found, h.T, strict=True):
        fit, rest, *_ = np.linalg.lstsq((white @ column)[:, None], white @ e, rcond=None)
        assert one.bias_kg == pytest.approx(fit[0], rel=1e-7, abs=1e-9)
        assert one.statistic == pytest.approx((white @ e) @ (white @ e) - rest[0], rel=1e-6, abs=1e-7)


@given(number(-60, 60), number(-60, 60), number(-60, 60))
def test_t_is_what_the_book_s_chi2_falls_by_when_the_plan_is_corrected(
    front: float, rear: float, whole: float
) -> None:
    """Entering the mass that fits best brings the global test down by T."""
    geometry = Geometry(3.2)
    base = base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=10.0, rear_kg=1200.0, rear_u_kg=10.0)
    parts = [*base, Part("crate", 260.0, 6.0, 2.4), Part("bar", 340.0, 4.0, -0.2)]
    taken = (
        Reading("f", ("front",), 1730.0 + front),
        Reading("r", ("rear",), 1370.0 + rear),
        Reading("w", ("front", "rear"), 3100.0 + whole),
    )

    def book(planned: list[Part]) -> Reconciled:
        session = Session("s", tuple(planned), (), taken, Bridge("b"))
        return reconcile(lasting=planned, geometry=geometry, sessions=[session])

    learnt = book(parts)
    for one in suspects_of(posterior=learnt):
        if one.kind == "mass" and one.possible_kg == one.bias_kg:
            corrected = [
                replace(part, mass_kg=part.mass_kg + one.bias_kg) if part.id == one.id else part
                for part in parts
            ]
            assert learnt.chi2 - book(corrected).chi2 == pytest.approx(one.statistic, rel=1e-6, abs=1e-7)


@given(st.integers(0, 10_000), number(0, 5))
def test_what_is_possible_explains_no_more(seed: int, mass: float) -> None:
    e, s, h = drawn(seed)
    signatures = [Signature(str(i), "mass", tuple(column), mass) for i, column in enumerate(h.T)]
    for one in suspects(innovation=e.tolist(), spread=s.tolist(), signatures=signatures):
        assert one.possible_kg >= -mass
        assert one.possible_statistic <= one.statistic + 1e-9


@given(st.integers(0, 10_000))
def test_scale_and_sign_make_no_other_class(seed: int) -> None:
    e, s, h = drawn(seed)
    twins = [Signature("a", "mass", tuple(h[:, 0])), Signature("b", "mass", tuple(-3 * h[:, 0]))]
    others = [Signature(str(i), "mass", tuple(column)) for i, column in enumerate(h[:, 1:].T)]
    found = suspects(innovation=e.tolist(), spread=s.tolist(), signatures=[*others, *twins])
    groups = {one.id: one.group for one in found}
    assert groups["a"] == groups["b"]
    assert len(set(groups.values())) == 5
    assert shortlist(suspects=found).groups == 5


def test_a_forgotten_load_is_on_the_shortlist_and_so_is_its_neighbour() -> None:
    """150 kg too many over the rear axle; a tank at the same place as the crate shares its class."""
    geometry = Geometry(3.2)
    parts = [*base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=10.0, rear_kg=1200.0, rear_u_kg=10.0)]
    parts += [Part("crate", 60.0, 6.0, 3.0), Part("bar", 40.0, 4.0, -0.2), Part("home", 20.0, 2.0, 2.0)]
    water = Part("water", 40.0, 2.0, 3.0)
    plan = (1300 + 60 * 0.0625 + 40 * 1.0625 + 40 * 0.0625, 1200 + 60 * 0.9375 - 40 * 0.0625 + 40 * 0.9375)
    taken = (Reading("f", ("front",), plan[0] + 9.0), Reading("r", ("rear",), plan[1] + 141.0))
    session = Session("s", tuple(parts[:-1]), (water,), taken, Bridge("b", 5.0, 5.0))
    found = suspects_of(posterior=reconcile(lasting=parts, geometry=geometry, sessions=[session]))
    listed = shortlist(suspects=found)
    names = [one.id for one in listed.suspects]
    assert listed.found
    assert {"crate", "s:water"} <= set(names)
    assert "bar" not in names
    assert "home" not in {one.id for one in found}
    by_id = {one.id: one for one in found}
    assert by_id["crate"].group == by_id["s:water"].group
    assert by_id["crate"].bias_kg == pytest.approx(150.0, abs=25.0)
