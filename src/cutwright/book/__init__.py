"""The workshop's book: clients and their measures, styles, cloths, orders and fittings.

Open it with `cutwright.book.opening.open_book`; each noun has a module of functions that take the
open book: `clients`, `forgetting`, `measures`, `documents`, `history`, `cupboard`, `orders`, `fittings`, `search`,
`exchange`, `backup`, `restore`. All of them hand out the frozen nouns of `nouns`, never a row of
the database. This package is the only one that imports SQLAlchemy, so it is imported where it is
used and not at the start of the program; `errors`, `nouns` and `compare` are light.
"""
