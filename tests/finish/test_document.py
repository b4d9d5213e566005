"""pattern.json: valid by its own schema, closed outlines, lengths that can be measured again."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest

from cutwright.errors import LookupFailed
from cutwright.finish.document import (
    PatternDocument,
    pattern_document,
    pattern_json,
    pattern_schema,
)
from cutwright.finish.finished import finish
from cutwright.finish.read_document import read_document, read_edges, read_outlines, read_piece
from cutwright.geometry.outline import area, polygon
from cutwright.geometry.path import path_length
from cutwright.messages import Message
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.result import Finding, Severity
from cutwright.pattern.sum import EdgeLength, Figure, plus, rounded
from cutwright.words import set_language
from tests.finish.pieces import dress_front, flounced_skirt

HEM = plus(EdgeLength(Ref("front", "hem"), 27.41), EdgeLength(Ref("back", "hem"), 26.08))
FIGURE = Figure("sewn-to", rounded(HEM, "up", 1.0), "flounce", step=2)
FINDING = Finding("seam-walk", Severity.WARNING, "a ~ b", Message("differ", "They differ."), 0.2)


@pytest.fixture(scope="module")
def document() -> PatternDocument:
    finished = finish(flounced_skirt().with_pieces(dress_front()))
    return pattern_document(
        finished, style="Wren", body="Ada", figures=[FIGURE], findings=[FINDING]
    )


@pytest.fixture(scope="module")
def plain(document: PatternDocument) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(json.dumps(pattern_json(document)))
    return found


def test_it_keeps_its_own_schema(plain: dict[str, Any]) -> None:
    schema = pattern_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(plain, schema)


def test_the_schema_refuses_what_is_wrong(plain: dict[str, Any]) -> None:
    def spoilt(spoil: Callable[[Any], object]) -> Any:
        wrong = json.loads(json.dumps(plain))
        spoil(wrong)
        return wrong

    points = {"line": [[0, 0], [1, 1]], "cubic": [[0, 0]] * 4}
    for wrong in (
        spoilt(lambda d: d.pop("seams")),
        spoilt(lambda d: d["pieces"][0]["stitch_line"][0].update(points)),
        spoilt(lambda d: d["pieces"][0]["stitch_line"].append({"edge": "hem"})),
        spoilt(lambda d: d["findings"][0].update(level="grave")),
        spoilt(lambda d: d.update(unit="mm")),
    ):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(wrong, pattern_schema())


def test_reading_it_gives_the_same_document(
    plain: dict[str, Any], document: PatternDocument
) -> None:
    assert PatternDocument.model_validate(plain) == document


def test_the_structure_other_programs_count_on(plain: dict[str, Any]) -> None:
    assert (plain["format"], plain["unit"], plain["style"], plain["body"]) == (
        2, "cm", "Wren", "Ada",
    )  # fmt: skip
    front = plain["pieces"][0]
    assert front["name"] == "skirt front"
    assert front["cut"] == {"copies": 1, "mirrored": False, "on_fold": True, "material": "main"}
    assert {"name", "kind", "length", "allowance", "side"} == set(front["edges"][0])
    assert front["side"] == front["edges"][0]["side"] == "both"
    assert all(("line" in c) != ("cubic" in c) for c in front["stitch_line"] + front["cut_line"])
    gathered = next(s for s in plain["seams"] if s["kind"] == "gathered")
    assert gathered["a"][0]["piece"] == "flounce"
    assert [s["piece"] for s in gathered["b"]] == ["skirt back", "skirt front"]
    assert gathered["a_length"] / gathered["b_length"] == pytest.approx(1.7, abs=1e-5)
    assert plain["figures"][0]["value"] == FIGURE.value
    assert plain["findings"][0] == {
        "code": "seam-walk", "level": "warning", "where": "a ~ b", "text": "They differ.", "value": 0.2,
    }  # fmt: skip


def test_every_edge_but_a_dart_leg_tells_its_allowance(document: PatternDocument) -> None:
    """A dart is folded, not sewn edge to edge: nothing is left beside its legs; a fold has none either."""
    finished = finish(flounced_skirt().with_pieces(dress_front()))
    seen = set()
    for piece in document.pieces:
        kinds = {edge.label: edge.kind for edge in finished.pattern.piece(piece.name).edges}
        for edge in piece.edges:
            bare = kinds[edge.name] in (EdgeKind.LEG, EdgeKind.FOLD)
            assert (edge.allowance == 0.0) == bare, edge.name
            seen.add(bare)
    assert seen == {True, False}


def test_outlines_read_back_are_closed_and_as_long_as_written(document: PatternDocument) -> None:
    for piece in document.pieces:
        stitch, cut = read_outlines(piece)
        for outline in (stitch, cut):
            for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
                assert abs(a.end - b.start) < 2e-5
            assert area(outline) > 0
            assert polygon(outline).is_valid
        assert area(stitch) == pytest.approx(piece.area, abs=0.01)
        lengths = {label: path_length(curves) for label, curves in read_edges(piece.stitch_line)}
        for edge in piece.edges:
            assert lengths[edge.name] == pytest.approx(edge.length, abs=2e-4)


def test_seam_rows_read_back_walk(document: PatternDocument) -> None:
    lengths = {(p.name, e.name): e.length for p in document.pieces for e in p.edges}
    for seam in document.seams:
        for row, whole in ((seam.a, seam.a_length), (seam.b, seam.b_length)):
            total = sum(
                side.times * sum(lengths[side.piece, part] for part in side.parts) for side in row
            )
            assert total == pytest.approx(whole, abs=1e-3)


def test_looking_up_a_piece(document: PatternDocument) -> None:
    assert read_piece(document, "flounce").cut.copies == 2
    with pytest.raises(LookupFailed):
        read_piece(document, "sleeve")


def test_a_figure_carries_its_sum_without_words(plain: dict[str, Any]) -> None:
    (figure,) = plain["figures"]
    assert (figure["step"], figure["code"], figure["piece"]) == (2, "sewn-to", "flounce")
    term = figure["term"]
    assert (term["kind"], term["way"], term["value"]) == ("rounded", "up", 54.0)
    (added,) = term["terms"]
    assert (added["kind"], added["sign"], added["value"]) == ("operation", "+", 53.5)
    assert [(t["piece"], t["edge"], t["value"]) for t in added["terms"]] == [
        ("front", "hem", 27.4),
        ("back", "hem", 26.1),
    ]


def test_the_document_is_the_same_in_every_language() -> None:
    finished = finish(flounced_skirt())
    told = set()
    for language in ("en", "de", "ru"):
        set_language(language)
        figures = pattern_json(pattern_document(finished, figures=[FIGURE]))["figures"]
        told.add(json.dumps(figures))
    set_language("en")
    assert len(told) == 1


def test_a_document_of_format_1_is_still_read(plain: dict[str, Any]) -> None:
    how = "front 27.4 + back 26.1 = 53.5"
    old = {"step": "flounce", "what": "hem", "value": 53.5, "unit": "cm", "how": how}
    read = read_document({**plain, "format": 1, "figures": [old]})
    assert read.format == 2
    assert read.pieces == PatternDocument.model_validate(plain).pieces
    assert read.figures[0].value == 53.5
    assert how in (read.figures[0].term.text or "")
    assert read_document(plain).figures[0].code == "sewn-to"
