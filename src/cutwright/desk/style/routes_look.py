"""Questions a page asks of the paper: what is this edge, what did this sentence do, how far is it."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from pydantic import BaseModel, ConfigDict, Field

from cutwright.desk.style.compare import laid_under, touched_since
from cutwright.desk.style.controls import controls_of
from cutwright.desk.style.facts import facts, split_tag
from cutwright.desk.style.highlight import highlight
from cutwright.desk.style.measuring import Span, span
from cutwright.desk.style.offers import Selected, offers
from cutwright.desk.style.sentences import lines
from cutwright.desk.web.pages import fragment
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.drawing.show import frames
from cutwright.drawing.svg import svg
from cutwright.errors import StepError
from cutwright.style.replay import MOST_STEPS
from cutwright.wording.figures import how, what
from cutwright.wording.reasons import explained
from cutwright.wording.sentences import sentence
from cutwright.words import _, ngettext

router = APIRouter(prefix="/api/table/{style}/{body}")
Tag = Annotated[str, Query(max_length=200)]
Sentence = Annotated[int, Query(ge=0, le=MOST_STEPS)]


@router.get("/facts")
def about(shop: TheShop, style: Ident, body: Ident, tag: Tag) -> dict[str, Any]:
    """What can be said about an edge, a dart or a piece."""
    _table, laid, _document, _person = shop.laid(style, body)
    piece, name = split_tag(tag)
    found = facts(laid, piece, name)
    return {
        "html": fragment("facts.html", facts=found),
        "sentences": list(found.sentences),
        "partners": list(found.partners),
        "title": found.title,
    }


@router.get("/lit")
def lights(shop: TheShop, style: Ident, body: Ident, step: Sentence) -> dict[str, Any]:
    """What a sentence did: the edges it made or changed, and its traces where they still lie."""
    _table, laid, _document, _person = shop.laid(style, body)
    found = highlight(laid, step)
    return {"tags": list(found.tags), "pieces": list(found.pieces), "traces": found.traces}


@router.get("/show")
def show(shop: TheShop, style: Ident, body: Ident, step: Sentence) -> dict[str, Any]:
    """A sentence played: before, cut, turn, after."""
    _table, laid, _document, _person = shop.laid(style, body)
    if step >= len(laid.replay.stages):
        raise StepError(_("This sentence could not be done, so there is nothing to show."))
    stage = laid.replay.stages[step]
    return {
        "sentence": sentence(stage.step),
        "help": explained(type(stage.step)),
        "frames": [
            {
                "kind": frame.kind,
                "words": frame.words,
                "svg": svg(frame.drawing, title=frame.words, box=frame.box, margin=1.5),
            }
            for frame in frames(stage)
        ],
    }


@router.get("/offers")
def what_next(
    shop: TheShop, style: Ident, body: Ident, at: Sentence = MOST_STEPS, tag: Tag = ""
) -> dict[str, Any]:
    """Sentences that could be written at a place, for what is selected."""
    _table, laid, _document, _person = shop.laid(style, body)
    stages = laid.replay.stages
    at = min(at, len(stages))
    pattern = laid.replay.pattern if at == len(stages) else stages[at].before
    piece, name = split_tag(tag) if tag else ("", "")
    selected = Selected.of(pattern, piece, name)
    found = offers(pattern, laid.body, selected)
    groups: dict[str, list[Any]] = {}
    for step in found:
        row = step.model_dump(mode="json", exclude_defaults=True) | {"do": step.do}
        words = list(controls_of(step, pattern))
        groups.setdefault(_(type(step).GROUP), []).append(
            {"row": row, "parts": words, "help": explained(type(step))}
        )
    return {"html": fragment("offers.html", groups=groups, tag=tag, at=at), "count": len(found)}


@router.get("/compare")
def compare(
    shop: TheShop,
    style: Ident,
    body: Ident,
    what: Annotated[str, Query(max_length=80)],
) -> dict[str, Any]:
    """The same pieces before a sentence ("step:3"), on another body ("body:…") or size ("size:88,tall")."""
    _table, laid, _document, _person = shop.laid(style, body)
    under = laid_under(shop, laid, what)
    changes = touched_since(laid, under)
    differ = ngettext("{count} edge differs", "{count} edges differ", len(changes))
    return {
        "words": under.words,
        "head": f"{under.words}: {differ.format(count=len(changes))}",
        "pieces": under.pieces,
        "changes": changes,
    }


class Tape(BaseModel):
    """A tape laid from one place to another on a piece, in the piece's own cm."""

    model_config = ConfigDict(extra="forbid")
    piece: str = Field(min_length=1, max_length=60)
    start: tuple[float, float]
    end: tuple[float, float]


@router.post("/measure")
def measure(shop: TheShop, style: Ident, body: Ident, tape: Tape) -> Span:
    """How far it is between two places: straight across, and along the edge where both lie on one."""
    _table, laid, _document, _person = shop.laid(style, body)
    return span(laid, tape.piece, complex(*tape.start), complex(*tape.end))


@router.get("/letter")
def letter(shop: TheShop, style: Ident, body: Ident) -> dict[str, Any]:
    """The letter as plain text with its arithmetic, as a work sheet would print it."""
    _table, laid, document, _person = shop.laid(style, body)
    return {
        "name": laid.style.name,
        "revision": document.revision,
        "sentences": [
            {
                "text": line.plain,
                "figures": [
                    {"what": what(f), "value": f.value, "unit": f.unit.value, "how": how(f)}
                    for f in line.figures
                ],
                "trouble": line.trouble,
            }
            for line in lines(laid)
        ],
    }
