"""Every step of a style has a word of its own; labels may repeat."""

from __future__ import annotations

from cutwright.style.document import Style, parse_step, parse_style
from cutwright.style.replay import replay
from cutwright.style.step_ids import step_refs
from cutwright.workshop.gallery import know_all_steps, load_body

know_all_steps()

ROWS: list[dict[str, object]] = [
    {"do": "draft_dress"},
    {"do": "cut_apart", "pieces": ["front", "back"], "lower": ["skirt front", "skirt back"]},
    {"do": "cut_apart", "pieces": ["skirt front"], "lower": ["low front"], "at": "hip"},
    {
        "do": "join",
        "to": {"piece": "skirt front", "edge": "cut"},
        "other": {"piece": "low front", "edge": "cut"},
    },
    {"do": "cut_apart", "pieces": ["skirt back"], "lower": ["low back"], "at": "hip"},
]


def test_ids_are_unique_words_and_the_first_steps_keep_theirs() -> None:
    steps = [parse_step(row) for row in ROWS]
    ids = [ref.id for ref in step_refs(steps)]
    assert ids == ["draft_dress", "cut_apart", "cut_apart-2", "join", "cut_apart-3"]
    assert [ref.id for ref in step_refs(steps[:3])] == ids[:3]
    assert [ref.label for ref in step_refs(steps)].count("cut apart") == 3


def test_seams_tell_which_of_several_like_steps_made_them() -> None:
    done = replay([parse_step(row) for row in ROWS], load_body("the-alto"))
    assert done.trouble is None
    assert [stage.id for stage in done.stages] == [
        r.id for r in step_refs([s.step for s in done.stages])
    ]
    made = {seam.name: seam.made_by for seam in done.pattern.seams}
    assert made["front: waist ~ skirt front: waist"] == "cut_apart"
    assert made["skirt back: cut ~ low back: cut"] == "cut_apart-3"
    assert all(made.values())


def test_a_name_that_is_gone_tells_the_place_of_the_step_that_used_it_up() -> None:
    gone = {"do": "allow", "edges": [{"piece": "low front", "edge": "hem"}], "width": 2}
    done = replay([parse_step(row) for row in [*ROWS, gone]], load_body("the-alto"))
    assert "It was used up by step 4 (join)." in str(done.trouble)


def test_labels_may_repeat_and_the_document_holds_no_id() -> None:
    rows = [{**row, "name": "cut"} if row["do"] == "cut_apart" else row for row in ROWS]
    style = parse_style({"format": 1, "name": "twice", "steps": rows})
    assert isinstance(style, Style)
    assert len({ref.id for ref in step_refs(style.steps)}) == len(rows)
    assert all("id" not in row for row in style.document()["steps"])
