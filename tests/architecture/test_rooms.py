"""Who may import whom, in both languages."""

import posixpath
import sys
from collections.abc import Iterator

from architecture import python, typescript
from architecture.rooms import OUTSIDE, PYTHON, TYPESCRIPT, WIRING, Room
from architecture.tree import report, text, under

HOME = "server"


def room_of(name: str, top: str) -> str:
    """The first folder or file below the top."""
    return name.removeprefix(f"{top}/").split("/")[0].split(".")[0]


def python_arrows(name: str, room: Room) -> Iterator[str]:
    for one in python.imports(name):
        top, _, rest = one.module.partition(".")
        where = f"{name}:{one.line}"
        if top == HOME:
            target = rest.split(".")[0]
            types = bool(one.names) and all(word[0].isupper() for word in one.names)
            if target not in room.own and not (types and target in room.types_of):
                yield f"{where}: may not import {', '.join(one.names) or 'all'} of {HOME}/{target}"
        elif top in sys.stdlib_module_names:
            if room.no_outside and top in OUTSIDE:
                yield f"{where}: {top} brings time, chance or the outside world; take it as an argument"
        elif top not in room.others:
            yield f"{where}: may not import the package {top}"


def test_python_rooms() -> None:
    broken = []
    for name in under(HOME, suffixes=(".py",)):
        if name not in WIRING:
            room = PYTHON.get(room_of(name, HOME))
            broken += python_arrows(name, room) if room else [f"{name}: a room that the table does not know"]
    report(broken)


def typescript_arrows(name: str, top: str, room: Room) -> Iterator[str]:
    for one in typescript.imports(text(name)):
        where = f"{name}:{one.line}"
        if one.path.startswith(("@/", ".")):
            path = one.path.replace("@/", "web/src/")
            if path.startswith("."):
                path = posixpath.normpath(posixpath.join(posixpath.dirname(name), path))
            inside = path.startswith(f"{top}/")
            target = room_of(path, top) if inside and top != "service_worker" else path.split("/")[0]
            if target not in room.own and not (one.types_only and target in room.types_of):
                yield f"{where}: may not import {'types' if one.types_only else 'values'} of {path}"
        elif package(one.path) not in room.others:
            yield f"{where}: may not import the package {package(one.path)}"


def package(path: str) -> str:
    return "/".join(path.split("/")[: 2 if path.startswith("@") else 1])


def test_typescript_rooms() -> None:
    broken: list[str] = []
    for name in under("web/src", suffixes=(".ts", ".tsx")):
        inner = room_of(name, "web/src")
        if inner in TYPESCRIPT:
            broken += typescript_arrows(name, "web/src", TYPESCRIPT[inner])
        elif inner not in ("main", "solver", "vite-env"):
            broken.append(f"{name}: a room that the table does not know")
    for name in under("service_worker", suffixes=(".ts",)):
        broken += typescript_arrows(name, "service_worker", TYPESCRIPT["service_worker"])
    report(broken)


def test_only_units_knows_pint() -> None:
    report(
        [
            f"{name}:{one.line}: only {HOME}/units.py may import pint"
            for name in under(HOME, suffixes=(".py",))
            if name != f"{HOME}/units.py"
            for one in python.imports(name)
            if one.module.split(".")[0] == "pint"
        ]
    )
