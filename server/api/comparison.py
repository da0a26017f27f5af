"""Planned against weighed, recomputed by the server."""

from typing import Any

from server.schemas.comparison import Compared, ComparisonQuery
from server.services.comparison import comparison

from .bodies import Routes
from .door import user

routes = Routes(
    "comparison", __name__, url_prefix="/api/books/<id:book>", description="Planned against weighed"
)


@routes.serve("GET", "/comparison", query=ComparisonQuery, gives=Compared)
def compare_weighing(query: dict[str, Any], book: str) -> dict[str, Any]:
    """One weighing judged and compared with the plan of its day."""
    return {"comparison": comparison(book=book, user=user(), weighing_id=query.get("weighing"))}
