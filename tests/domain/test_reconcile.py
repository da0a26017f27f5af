"""What must hold when plan and weighings are put together."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy import stats
from strategies import bridges, readings, setups, vehicles

from server.domain.axles import Geometry
from server.domain.bridge import Bridge
from server.domain.nonnegative import nonnegative_masses
from server.domain.posterior import Reconciled
from server.domain.reconcile import Session, reconcile, update
from server.domain.statics import Loads, Part, base_parts, loads
from server.domain.weighing import Reading

Vehicle = tuple[Geometry, list[Part]]
ROWS = ("front", "rear", "gross")
DRIVER = Part("driver", 80.0, 3.0, 1.2, 0.02)
BRIDGE = Bridge("b")


@st.composite
def books(draw: st.DrawFn) -> tuple[Geometry, list[Part], list[Session]]:
    """A vehicle and up to three weighings of it."""
    geometry, parts = draw(vehicles(trailer=False))
    sessions = [
        Session(f"s{i}", tuple(parts), (DRIVER,), draw(readings()), draw(bridges()), draw(setups(geometry)))
        for i in range(draw(st.integers(1, 3)))
    ]
    return geometry, parts, sessions


Book = tuple[Geometry, list[Part], list[Session]]
FEW = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def posterior(book: Book) -> Reconciled:
    geometry, parts, sessions = book
    return reconcile(lasting=parts, geometry=geometry, sessions=sessions)


def assert_same(one: Loads, other: Loads) -> None:
    assert one.mean_kg == pytest.approx(other.mean_kg, rel=1e-9, abs=1e-6)
    scale = np.abs(np.array(one.cov_kg2)).max()
    assert np.array(one.cov_kg2) == pytest.approx(np.array(other.cov_kg2), rel=1e-7, abs=1e-9 * (1 + scale))


@FEW
@given(books(), st.randoms(use_true_random=False))
def test_order_of_weighings_does_not_matter(book: Book, random: object) -> None:
    geometry, parts, sessions = book
    mixed = list(sessions)
    random.shuffle(mixed)  # type: ignore[attr-defined]
    asked = {"lasting": parts, "passing": [DRIVER], "rows": ROWS}
    assert_same(posterior(book).loads(**asked), posterior((geometry, parts, mixed)).loads(**asked))


@FEW
@given(books(), st.integers(1, 5))
def test_of_copies_the_ones_there_now_learn_in_proportion(book: Book, now: int) -> None:
    """Four copies on the day of the weighing, and another number of them since."""
    geometry, parts, sessions = book
    four = replace(parts[-1], copies=4)
    share = now / 4
    left = replace(four, mass_kg=share * four.mass_kg, mass_u_kg=share * four.mass_u_kg, copies=now)
    days = [replace(one, lasting=(*parts[:-1], four)) for one in sessions]
    before, since = (posterior((geometry, [*parts[:-1], one], days)) for one in (four, left))
    for asked in ([*parts[:-1], four], [*parts[:-1], left]):
        passing = {"passing": [DRIVER], "rows": ROWS}
        assert_same(before.loads(lasting=asked, **passing), since.loads(lasting=asked, **passing))
    assert since.learnt(four.id).now_kg == pytest.approx(share * before.learnt(four.id).now_kg, abs=1e-6)


@FEW
@given(vehicles())
def test_without_a_weighing_the_plan_stands(vehicle: Vehicle) -> None:
    geometry, parts = vehicle
    found = posterior((geometry, parts, [])).loads(lasting=parts, passing=[DRIVER], rows=ROWS)
    assert_same(found, loads(parts=[*parts, DRIVER], geometry=geometry, rows=ROWS))


@FEW
@given(books())
def test_weighings_never_make_less_sure(book: Book) -> None:
    geometry, parts, _ = book
    plan = loads(parts=parts, geometry=geometry, rows=ROWS)
    learnt = posterior(book)
    found = learnt.loads(lasting=parts, passing=[], rows=ROWS)
    assert all(found.u_kg(row) <= plan.u_kg(row) + 1e-6 for row in ROWS)
    for part in parts:
        one = learnt.learnt(part.id)
        assert 0 <= one.told <= 1
        assert one.now_u_kg <= part.mass_u_kg * (1 + 1e-9)
        if part.mass_u_kg == 0:
            assert one.now_kg == part.mass_kg


@FEW
@given(books())
def test_variances_by_difference_and_in_joseph_form_agree(book: Book) -> None:
    learnt = posterior(book)
    _, cov = learnt.rows(np.eye(len(learnt.order)))
    for name, place in learnt.order.items():
        assert learnt.variance(name) == pytest.approx(cov[place, place], rel=1e-8, abs=1e-9)
        assert learnt.column(name) == pytest.approx(cov[:, place], rel=1e-6, abs=1e-7)


@FEW
@given(books(), st.randoms(use_true_random=False))
def test_a_book_is_its_weighings_one_after_the_other(book: Book, random: object) -> None:
    """The stacked update against the plain one with the full state, weighing by weighing in any order."""
    learnt = posterior(book)
    mean = np.array([one.mean for one in learnt.prior.values()])
    readings = learnt.innovation + learnt.design @ mean
    state = mean.tolist(), learnt.times(np.eye(len(mean))).tolist()
    sessions = list(book[2])
    random.shuffle(sessions)  # type: ignore[attr-defined]
    for session in sessions:
        own = [i for i, name in enumerate(learnt.reading_ids) if name.startswith(f"{session.id}:")]
        state = update(
            mean=state[0],
            cov=state[1],
            design=learnt.design[own].tolist(),
            readings=readings[own].tolist(),
            noise=learnt.noise[np.ix_(own, own)].tolist(),
        )[:2]
    _, cov = learnt.rows(np.eye(len(learnt.order)))
    assert np.array(state[0]) == pytest.approx(learnt.mean, rel=1e-8, abs=1e-6)
    assert np.array(state[1]) == pytest.approx(cov, rel=1e-6, abs=1e-7 * (1 + np.abs(cov).max()))


@FEW
@given(books())
def test_doubling_all_variances_of_a_book_leaves_its_masses(book: Book) -> None:
    learnt = posterior(book)
    prior = [one.mean for one in learnt.prior.values()]
    mean, _, chi2 = update(
        mean=prior,
        cov=(2 * learnt.times(np.eye(len(learnt.order)))).tolist(),
        design=learnt.design.tolist(),
        readings=(learnt.innovation + learnt.design @ np.array(prior)).tolist(),
        noise=(2 * learnt.noise).tolist(),
    )
    assert np.array(mean) == pytest.approx(learnt.mean, rel=1e-9, abs=1e-6)
    assert chi2 == pytest.approx(learnt.chi2 / 2, rel=1e-7, abs=1e-9)


def test_the_state_weighed_is_better_known_than_the_same_refilled() -> None:
    """One total says how base and driver add up that day, and little of another day's driver."""
    geometry = Geometry(3.2)
    parts = base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=20.0, rear_kg=1200.0, rear_u_kg=20.0)
    driver = replace(DRIVER, mass_u_kg=30.0)
    session = Session("s", parts, (driver,), (Reading("w", ("front", "rear"), 2600.0),), BRIDGE)
    found = reconcile(lasting=parts, geometry=geometry, sessions=[session])
    asked = {"lasting": parts, "passing": [driver], "rows": ["gross"]}
    assert found.loads(**asked, session="s").u_kg("gross") < 15 < 35 < found.loads(**asked).u_kg("gross")


@given(st.integers(0, 10_000))
def test_one_stacked_update_is_many_in_any_order(seed: int) -> None:
    """Weighing after weighing with the full state, against all at once."""
    rng = np.random.default_rng(seed)
    root = rng.normal(size=(5, 7))
    start = (rng.normal(size=5).tolist(), (root @ root.T).tolist())
    weighed = [
        (rng.normal(size=(2, 5)), rng.normal(size=2), np.diag(rng.uniform(0.1, 2, 2))) for _ in range(3)
    ]
    mean, cov, _ = update(
        mean=start[0],
        cov=start[1],
        design=np.vstack([h for h, _, _ in weighed]).tolist(),
        readings=np.concatenate([y for _, y, _ in weighed]).tolist(),
        noise=np.diag(np.concatenate([np.diag(v) for _, _, v in weighed])).tolist(),
    )
    state = start
    for i in rng.permutation(3):
        h, y, v = weighed[i]
        state = update(mean=state[0], cov=state[1], design=h.tolist(), readings=y.tolist(), noise=v.tolist())[
            :2
        ]
    assert state[0] == pytest.approx(mean, rel=1e-9, abs=1e-9)
    assert np.array(state[1]) == pytest.approx(np.array(cov), rel=1e-8, abs=1e-9)


@given(st.integers(0, 10_000))
def test_doubling_all_variances_leaves_the_mean(seed: int) -> None:
    rng = np.random.default_rng(seed)
    root = rng.normal(size=(4, 6))
    prior, noise = root @ root.T, np.diag(rng.uniform(0.1, 2, 2))
    common = {"mean": rng.normal(size=4).tolist(), "design": rng.normal(size=(2, 4)).tolist()}
    common["readings"] = rng.normal(size=2).tolist()
    once = update(**common, cov=prior.tolist(), noise=noise.tolist())
    twice = update(**common, cov=(2 * prior).tolist(), noise=(2 * noise).tolist())
    assert twice[0] == pytest.approx(once[0], rel=1e-9, abs=1e-9)
    assert np.array(twice[1]) == pytest.approx(2 * np.array(once[1]), rel=1e-9, abs=1e-9)


def test_a_wide_prior_against_a_sharp_reading_keeps_its_digits() -> None:
    """A prior of 10^6 kg against a reading of 10^-3 kg: P - KHP would return noise."""
    given_ = {"mean": [0.0, 0.0], "design": [[1.0, 0.0], [0.5, 1.0]], "readings": [500.0, 300.0]}
    _, cov, _ = update(**given_, cov=[[1e12, 0.0], [0.0, 1e12]], noise=[[1e-6, 0.0], [0.0, 1e-6]])
    # x = y1 with u 1e-3; the second is y2 - y1/2
    assert np.array(cov) == pytest.approx(np.array([[1e-6, -5e-7], [-5e-7, 1.25e-6]]), rel=1e-4)


def test_ten_visits_to_one_bridge_are_not_ten_bridges() -> None:
    """Half of the own error is met again on every visit (maths C.1): the total stays at 8 kg or so, not 4."""
    geometry = Geometry(3.2)
    parts = base_parts(geometry=geometry, front_kg=1400.0, front_u_kg=60.0, rear_kg=1400.0, rear_u_kg=60.0)
    whole = (Reading("w", ("front", "rear"), 2800.0),)

    def u(count: int, same: bool, repeats: float = 0.5) -> float:
        sessions = [
            Session(
                f"s{i}", parts, (), whole, replace(BRIDGE, key="one" if same else str(i), own_repeats=repeats)
            )
            for i in range(count)
        ]
        found = reconcile(lasting=parts, geometry=geometry, sessions=sessions)
        return found.loads(lasting=parts, passing=(), rows=["gross"]).u_kg("gross")

    assert u(10, same=True) > 1.7 * u(10, same=False)
    assert u(10, same=True) < u(1, same=True)
    assert u(10, same=True, repeats=0.0) < u(10, same=True) < u(10, same=True, repeats=1.0)


def test_an_uncoupled_trailer_does_not_press_on_the_vehicle() -> None:
    """Coupled less uncoupled is what the coupling does to the rear axle."""
    from server.domain.axles import Trailer

    geometry = Geometry(3.2, coupling_x_m=4.3, trailer=Trailer("t", 3.5, 140.0))
    vehicle = base_parts(geometry=geometry, front_kg=1300.0, rear_kg=1200.0)
    ball = Part("ball", 100.0, 40.0, 0.0, on="t")
    taken = (Reading("on", ("rear",), 1300.0), Reading("off", ("rear",), 1200.0, uncoupled=True))
    session = Session("s", (*vehicle, ball), (), taken, BRIDGE)
    found = reconcile(lasting=(*vehicle, ball), geometry=geometry, sessions=[session])
    row = found.design[:, found.order["ball"]]
    assert row == pytest.approx([4.3 / 3.2, 0.0])
    assert found.innovation[1] == pytest.approx(0.0)
    assert found.innovation[0] == pytest.approx(1300 - 1200 - 100 * 4.3 / 3.2 + (40 * 4.3 + 140) / 3.2)


def test_books_drawn_from_the_prior_are_calibrated() -> None:
    """3000 truths and readings drawn as the model has them: p is uniform and 95 % intervals hold 95 %."""
    rng = np.random.default_rng(11)
    geometry = Geometry(3.2)
    parts = [*base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=20.0, rear_kg=1200.0, rear_u_kg=20.0)]
    parts += [Part("box", 90.0, 12.0, 2.6, 0.1), Part("tail", 50.0, 8.0, 4.3)]
    taken = tuple(Reading(n, a, 2600.0) for n, a in (("r", ("rear",)), ("w", ("front", "rear"))))
    model = reconcile(
        lasting=parts, geometry=geometry, sessions=[Session("s", tuple(parts), (), taken, BRIDGE)]
    )
    prior_u = np.array([one.u for one in model.prior.values()])
    mean = np.array([one.mean for one in model.prior.values()])
    noise = np.linalg.cholesky(model.noise)
    spread = model.lower @ model.lower.T
    gain = np.linalg.solve(spread, model.design * prior_u**2).T
    u_box = model.learnt("box").now_u_kg
    box, chances, held = model.order["box"], [], 0
    for _ in range(3000):
        truth = mean + prior_u * rng.normal(size=len(mean))
        innovation = model.design @ (truth - mean) + noise @ rng.normal(size=len(noise))
        chances.append(stats.chi2.sf(innovation @ np.linalg.solve(spread, innovation), len(innovation)))
        held += abs(mean[box] + gain[box] @ innovation - truth[box]) <= 1.96 * u_box
    assert stats.kstest(chances, "uniform").pvalue > 0.01
    assert 0.935 <= held / 3000 <= 0.965


def test_p_of_whole_books_is_uniform() -> None:
    """3000 vehicles and visits drawn by hand from what the plan and the bridge state, each reconciled."""
    rng = np.random.default_rng(12)
    geometry = Geometry(3.2)
    parts = [*base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=20.0, rear_kg=1200.0, rear_u_kg=20.0)]
    parts.append(Part("box", 90.0, 12.0, 2.6, 0.1))
    # 20 kg bridge to 60 t at 1300 to 2600 kg: d/sqrt 12, gain 0.001/sqrt 3, zero 5/sqrt 3, all of it 20/sqrt 3
    gain, zero, step, whole = 0.001 / 3**0.5, 5 / 3**0.5, 20 / 12**0.5, 20 / 3**0.5
    placed = 0.1 * np.hypot(90.0, 12.0)
    chances = []
    for _ in range(3000):
        front, rear, box, moment = rng.normal((1300.0, 1200.0, 90.0, 0.0), (20.0, 20.0, 12.0, placed))
        on_rear = rear + (2.6 * box + moment) / 3.2
        common, session_zero = gain * rng.normal(), zero * rng.normal()
        taken = []
        for name, axles, load in (("r", ("rear",), on_rear), ("w", ("front", "rear"), front + rear + box)):
            own = (whole**2 - (gain * load) ** 2 - zero**2 + step**2) ** 0.5
            value = load * (1 + common) + session_zero + own * rng.normal()
            taken.append(Reading(name, axles, value))
        session = Session("s", tuple(parts), (), tuple(taken), BRIDGE)
        chances.append(reconcile(lasting=parts, geometry=geometry, sessions=[session]).p)
    assert stats.kstest(chances, "uniform").pvalue > 0.01


@FEW
@given(books(), st.data())
def test_the_first_readings_alone_are_the_first_weighings_alone(book: Book, data: st.DataObject) -> None:
    geometry, parts, sessions = book
    # a bridge that is entered anew with a greater gain error has had it all along
    sessions = [replace(session, bridge=sessions[0].bridge) for session in sessions]
    kept = data.draw(st.integers(0, len(sessions)))
    count = sum(len(session.readings) for session in sessions[:kept])
    asked = {"lasting": parts, "passing": [DRIVER], "rows": ROWS}
    some = posterior((geometry, parts, sessions)).upto(count)
    alone = posterior((geometry, parts, sessions[:kept]))
    assert_same(some.loads(**asked), alone.loads(**asked))
    assert some.dof == alone.dof
    assert some.chi2 == pytest.approx(alone.chi2, rel=1e-7, abs=1e-7)


def test_two_copies_below_zero_stop_where_the_lighter_one_is_gone() -> None:
    """They move as one, so the base is what it is with copies known to weigh 0 and 6 kg."""
    geometry = Geometry(3.2)
    base = base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=5.0, rear_kg=1100.0, rear_u_kg=5.0)

    def book(first: float, second: float, u: float) -> Reconciled:
        copies = (
            Part("a", first, u, 2.5, article="tent"),
            Part("b", second, u, 3.0, article="tent"),
        )
        readings = (Reading("r", ("rear",), 1040.0), Reading("w", ("front", "rear"), 2340.0))
        session = Session("s", (*base, *copies), (), readings, BRIDGE)
        return reconcile(lasting=(*base, *copies), geometry=geometry, sessions=[session])

    doubtful, sure = book(12.0, 18.0, 10.0), book(0.0, 6.0, 0.0)
    found = {one.id: one.possible_kg for one in nonnegative_masses(posterior=doubtful)}
    assert all(doubtful.learnt(name).now_kg < 0 for name in "ab")
    expected = {name: sure.learnt(name).now_kg for name in found}
    assert found == pytest.approx(expected, abs=1e-6)
