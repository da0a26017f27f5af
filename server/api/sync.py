"""Both ways in one request: what a device has done, and what is new for it."""

import json
from dataclasses import asdict
from typing import Any

from flask import Response

from server.schemas.sync import SyncAnswer, SyncRequest
from server.services.clock import stamp
from server.services.heard import hear, still_held
from server.services.pull import Reader, pull
from server.services.push import Sender, push
from server.sync.mutation import Answer

from .bodies import Routes
from .door import now, user
from .verdict import verdict
from .versions import news_text

routes = Routes("sync", __name__, url_prefix="/api", description="Mutations in, versions out")


@routes.serve("POST", "/sync", takes=SyncRequest, gives=SyncAnswer)
def sync(asked: dict[str, Any]) -> Response:
    """Take in mutations, answer each of them, and tell what is new."""
    at, who = now(), user()
    sender = Sender(user=who, device=asked["device"], now=at, verdict=verdict)
    answers = push(raw=asked["mutations"], sender=sender)
    told = {one["book"]: one.get("unsent") for one in asked["books"]}
    held = still_held(unsent=told, raw=asked["mutations"], answers=answers)
    hear(user=who, device=asked["device"], unsent=held, now=at)
    marks = {one["book"]: one["checkpoint"] for one in asked["books"]}
    news = pull(Reader(who, asked["device"], marks, asked.get("heard_since")))
    head = {
        "user": asdict(who),
        "now": stamp(at),
        "generation": news.generation,
        "answers": [_plain(answer) for answer in answers],
        "gone": news.gone,
        "heard": [asdict(one) for one in news.heard],
    }
    return Response(f'{json.dumps(head)[:-1]},"books":{news_text(news.books)}}}', mimetype="application/json")


def _plain(answer: Answer) -> dict[str, Any]:
    plain: dict[str, Any] = {"mut": answer.mut, "outcome": answer.outcome}
    return plain if answer.error is None else {**plain, "error": asdict(answer.error)}
