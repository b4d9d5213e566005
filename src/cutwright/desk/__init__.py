"""The local page at which a pattern is drafted and looked at. `run` opens it."""

from __future__ import annotations


def run(port: int | None = None, browser: bool = True, lan: bool = False) -> None:
    """Serve the desk on this machine until it is stopped, and open it in the browser.

    Parameters
    ----------
    port : the port to listen at; None takes the usual one, or a free one when that is taken
    browser : whether to open the page in the user's browser
    lan : whether other devices in the house may come in, with the token that is shown
    """
    from cutwright.desk.serve import serve

    serve(port, browser, lan)
