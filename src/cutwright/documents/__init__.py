"""Documents on the disk: read whole with every problem named, written whole or not at all.

All documents are JSON with a `"format"` number. Reading refuses what is too large, too deep, cut
short or not JSON, with line and column. Writing puts a complete new file in the place of the old
one; if anything goes wrong the old file stays as it was.
"""

from __future__ import annotations

from cutwright.documents.disk import read_json, read_large, write_bytes, write_json
from cutwright.documents.reading import read_document, validated
from cutwright.documents.sentences import Problem, place_of, problems_of
from cutwright.documents.text import (
    DEEPEST,
    LARGEST,
    json_text,
    more_values_than,
    parse_json,
)

__all__ = [
    "DEEPEST",
    "LARGEST",
    "Problem",
    "json_text",
    "more_values_than",
    "parse_json",
    "place_of",
    "problems_of",
    "read_document",
    "read_json",
    "read_large",
    "validated",
    "write_bytes",
    "write_json",
]
