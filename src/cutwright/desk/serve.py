"""Starting the desk: a socket on this machine, the browser, and a code for guests of the house."""

from __future__ import annotations

import socket
import sys
import threading
import webbrowser
from typing import TYPE_CHECKING

from cutwright.desk.web.guard import LOCAL, House
from cutwright.desk.web.log import set_up_log
from cutwright.errors import StoreError
from cutwright.words import _

if TYPE_CHECKING:
    from fastapi import FastAPI
    from uvicorn import Server

USUAL = 8365
"""The port the desk takes when nobody asks for another and nobody else has it."""


def listen(port: int | None, lan: bool) -> socket.socket:
    """A listening socket; without a wish for a port, the usual one or any free one."""
    host = "0.0.0.0" if lan else "127.0.0.1"
    for wish in (port,) if port is not None else (USUAL, 0):
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if sys.platform != "win32":
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            made.bind((host, wish))
        except OverflowError:
            made.close()
            raise StoreError(_("A port is a number from 1 to 65535.")) from None
        except OSError as fault:
            made.close()
            if port is None and wish:
                continue
            raise StoreError(
                _("Port {port} cannot be had: {why}. Choose another with --port.").format(
                    port=wish, why=fault.strerror or fault
                )
            ) from None
        return made
    raise StoreError(_("No free port was found on this machine."))


def serve(port: int | None = None, browser: bool = True, lan: bool = False) -> None:
    """Serve until stopped with Ctrl+C."""
    from cutwright.desk.app import make_app

    made = listen(port, lan)
    number = made.getsockname()[1]
    house, guest = House(), ""
    if lan:
        address = own_address()
        house = House((*LOCAL, address))
        guest = f"http://{address}:{number}/?token={house.token}"
    here = f"http://127.0.0.1:{number}/?token="
    _tell(here + house.token, guest)
    if browser:
        timer = threading.Timer(0.8, webbrowser.open, (here + house.ticket(),))
        timer.daemon = True
        timer.start()
    set_up_log()
    server_of(make_app(house=house)).run(sockets=[made])


def server_of(app: FastAPI) -> Server:
    """A server with bearable limits for what strangers ask of it."""
    from uvicorn import Config, Server

    from cutwright.desk.web.connections import QUEUED, CalmProtocol

    return Server(
        Config(
            app,
            http=CalmProtocol,
            ws="none",
            backlog=QUEUED,
            log_config=None,
            log_level="warning",
            access_log=False,
            server_header=False,
        )
    )


def own_address() -> str:
    """The address of this machine in the house; nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address for documentation; no packet leaves
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"


def _tell(here: str, guest: str) -> None:
    out = sys.stdout
    out.write(
        _("The desk is running at {address} (stop it with Ctrl+C).").format(address=here) + "\n"
    )
    if guest:
        import segno

        out.write(
            _("For a tablet in the same house, scan this or open {address}").format(address=guest)
            + "\n"
        )
        segno.make(guest, error="m").terminal(out=out, compact=True)
        out.write(
            _("Anyone who has this code can see the book. It is valid until the desk stops.") + "\n"
        )
    out.flush()
