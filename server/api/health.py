"""Whether the server can serve."""

from server.schemas.health import Health
from server.services.health import check

from .bodies import Routes

routes = Routes("health", __name__, url_prefix="/api", description="Whether the server can serve")


@routes.serve("GET", "/health", gives=Health)
def health() -> dict[str, str]:
    """The database answers, and this is its generation."""
    return {"status": "ok", "generation": check()}
