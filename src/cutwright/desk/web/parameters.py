"""What every route needs: the shop, and numbers of the book as they come in an address."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Path, Request

from cutwright.desk.shop import Shop
from cutwright.desk.web.alarm import heed


async def shop_of(request: Request) -> Shop:
    """The shop of the application that was asked."""
    shop = request.app.state.shop
    assert isinstance(shop, Shop)
    heed(shop)  # here and not in a thread, so that the page that is made later knows it
    return shop


TheShop = Annotated[Shop, Depends(shop_of)]
Ident = Annotated[str, Path(min_length=1, max_length=64, pattern="^[0-9a-f]+$")]
