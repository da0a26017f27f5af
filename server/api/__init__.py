"""The HTTP side: one module per resource, one error body, one door."""

from flask import Flask

from . import accounts, bodies, comparison, door, errors, health, members, records, session, spec, sync

RESOURCES = (health, accounts, session, sync, members, records, comparison)


def register(app: Flask, entrance: door.Door) -> None:
    """All routes of an application, behind its door."""
    errors.register(app)
    door.register(app, entrance)
    bodies.register(app)
    api = spec.describe(app, entrance.settings.cookie)
    for resource in RESOURCES:
        api.register_blueprint(resource.routes)
