"""A book's records as they stand."""

from typing import Any

from flask import Response

from server.schemas.record import Records, RecordsQuery
from server.services import records

from .bodies import Routes
from .door import user
from .versions import records_text

routes = Routes("records", __name__, url_prefix="/api/books/<id:book>", description="Records as they stand")


@routes.serve("GET", "/records", query=RecordsQuery, gives=Records)
def list_records(query: dict[str, Any], book: str) -> Response:
    """One page in the order of ids."""
    page = records.list_records(
        book=book, user=user(), after=query.get("after", ""), limit=query["limit"], kind=query.get("kind")
    )
    return Response(records_text(page), mimetype="application/json")
