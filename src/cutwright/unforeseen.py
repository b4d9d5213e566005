"""The one place where an exception nobody foresaw becomes a fault that can be told and reported.

A step, a check or a drawing that breaks must never lock a document: it is told in words, with a
short code that is the same wherever the same line of code breaks in the same way.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from pathlib import Path
from types import TracebackType
from zlib import crc32

from cutwright.errors import CutwrightError
from cutwright.messages import N_, Message, Typed

log = logging.getLogger("cutwright.unforeseen")
HERE = Path(__file__).parent


class UnforeseenError(CutwrightError):
    """A fault of the program itself; `code` is what to report."""

    def __init__(self, code: str, message: Message | None = None) -> None:
        self.code = code
        text = N_(
            "Something went wrong here that the program did not foresee (code {code}). Change or "
            "take out what was done last; nothing is lost. Please report the code."
        )
        super().__init__(message or Message("unforeseen", text, code=Typed(code)))


def foreseen(fault: Exception) -> CutwrightError:
    """The fault as it is told: our own as it stands, any other with its code, noted in the log.

    The log holds places in the code and nothing of what was worked on.
    """
    if isinstance(fault, CutwrightError):
        return fault
    first = _first(fault)
    log.error(
        "%s: %s at %s", code_of(fault), type(first).__name__, fault_trail(first.__traceback__)
    )
    return UnforeseenError(code_of(fault))


def code_of(fault: BaseException) -> str:
    """Six letters and digits for the kind of exception and the function of ours it came from."""
    first = _first(fault)
    codes = [at.tb_frame.f_code for at in _way(first.__traceback__)]
    ours = [
        f"{_short(code.co_filename)} {code.co_qualname}"
        for code in codes
        if Path(code.co_filename).is_relative_to(HERE)
    ]
    return f"{crc32(f'{type(first).__name__} {ours[-1:]}'.encode()) & 0xFFFFFF:06X}"


def fault_trail(trace: TracebackType | None) -> str:
    """The last places of the program that a fault went through, innermost last."""
    found = [f"{_short(at.tb_frame.f_code.co_filename)}:{at.tb_lineno}" for at in _way(trace)]
    return " > ".join(found[-6:])


def _way(trace: TracebackType | None) -> Iterator[TracebackType]:
    """From where a fault was noticed to where it began."""
    while trace is not None:
        yield trace
        trace = trace.tb_next


def _first(fault: BaseException) -> BaseException:
    """The fault that another one came of."""
    while fault.__cause__ is not None:
        fault = fault.__cause__
    return fault


def _short(file: str) -> str:
    path = Path(file)
    return path.relative_to(HERE).as_posix() if path.is_relative_to(HERE) else path.name
