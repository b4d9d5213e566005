"""The steps by which a book made by an older Cutwright becomes one of today.

Each file in `versions` is one step and is never changed once it has been released. `HEAD` is
the newest step; a test holds it, the files and `tables` together.
"""

from __future__ import annotations

HEAD = "0002"
KNOWN = ("0001", "0002")
