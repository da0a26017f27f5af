"""The people of the scenario, all invented. Their passwords open nothing but the demo."""

from dataclasses import dataclass

CAUTION = (
    "Everything in the demo is invented: people, vehicles, places, bridges and every figure. "
    "No figure of it may be used for a real vehicle."
)


@dataclass(frozen=True, slots=True)
class User:
    """Somebody who signs in; `role` is for the terminal."""

    name: str
    password: str
    role: str


FITTER = "brannock"

USERS = (
    User("orsolla", "dust-and-corrugation", "owner of the canopy utility"),
    User("tevrin", "second-tank-first", "owner of the long wagon and its camp trailer"),
    User("jelka", "kettle-on-by-four", "owner of the high van and its boat trailer"),
    User("minnow", "navigates-by-stars", "co-driver of the high van"),
    User(FITTER, "measure-twice-bolt-once", "fitter of all three, from the Saltwind workshop"),
)
