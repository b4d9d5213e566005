"""A sentence that was stored and that this version of the program cannot read."""

from __future__ import annotations

import json
from copy import deepcopy
from typing import Any, ClassVar

from pydantic import PrivateAttr

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result
from cutwright.style.step import Step

_SHOWN = 160


class Unread(Step):
    """Kept and shown as it stands in the document; it cannot be worked, and so stops the work."""

    SENTENCE: ClassVar[str] = "{written}"
    HELP: ClassVar[str] = N_(
        "It was written by another version of the program, or altered outside of it."
    )

    _row: Any = PrivateAttr(default=None)
    _why: Message | str = PrivateAttr(default="")

    @classmethod
    def of(cls, row: object, why: Message | str) -> Unread:
        """The sentence of a row of a document, with the reason why it cannot be read."""
        tag = row.get("do") if isinstance(row, dict) else None
        step = cls(do=tag[:60] if isinstance(tag, str) and tag.strip() else "unread")
        step._row, step._why = deepcopy(row), why
        return step

    def row(self) -> Any:
        """The row just as it was stored."""
        return deepcopy(self._row)

    @property
    def written(self) -> str:
        """What stands in the document, as it is written there."""
        text = json.dumps(self._row, ensure_ascii=False)
        return text if len(text) <= _SHOWN else text[:_SHOWN] + " …"

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Refused, with the reason."""
        raise StepError(
            Message(
                "sentence-unread",
                N_(
                    "This version cannot read this sentence: {why} Take it out and write it again, or go back to "
                    "an earlier state."
                ),
                why=self._why,
            )
        )
