"""Objects that wait for an application."""

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy.orm import DeclarativeBase


class Base(DeclarativeBase):
    """What all tables' classes derive from."""


db = SQLAlchemy(model_class=Base)
