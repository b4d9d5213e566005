"""The desk as a web application: guard, pages, commands, and the files they need."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from fastapi import FastAPI
from starlette.staticfiles import StaticFiles

from cutwright import __version__
from cutwright.desk import routes_start
from cutwright.desk.body import routes_body
from cutwright.desk.book import routes_book, routes_clients, routes_orders
from cutwright.desk.cloth import routes_lay
from cutwright.desk.paper import routes_paper
from cutwright.desk.sheet import routes_sheet
from cutwright.desk.shop import Shop
from cutwright.desk.style import routes_look, routes_table
from cutwright.desk.web.faults import tell_faults
from cutwright.desk.web.guard import Guard, House
from cutwright.desk.web.interpreter import tuned_interpreter
from cutwright.desk.web.locale import LocaleMiddleware
from cutwright.desk.web.pages import STATIC
from cutwright.drawing.type import FONTS
from cutwright.workshop.gallery import know_all_steps

ROUTERS = (
    routes_start.router,
    routes_table.router,
    routes_look.router,
    routes_body.router,
    routes_paper.router,
    routes_lay.router,
    routes_sheet.router,
    routes_book.router,
    routes_clients.router,
    routes_orders.router,
)


def make_app(where: str | Path | None = None, house: House | None = None) -> FastAPI:
    """An application on a book: a file, an address, or None for the user's own.

    Without a house the token that opens it is a new one, in `state.house` of the application.
    """
    know_all_steps()
    house = house or House()
    shop = Shop(where)

    @asynccontextmanager
    async def life(_app: FastAPI) -> AsyncIterator[None]:
        with tuned_interpreter():
            yield
        shop.close()

    app = FastAPI(
        title="Cutwright desk", version=__version__, docs_url=None, redoc_url=None, lifespan=life
    )
    app.state.shop = shop
    app.state.house = house
    tell_faults(app)
    for router in ROUTERS:
        app.include_router(router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    app.mount("/fonts", StaticFiles(directory=FONTS), name="fonts")
    app.add_middleware(Guard, house=house)
    app.add_middleware(LocaleMiddleware)  # outermost, so that the guard speaks it too
    return app
