"""The tables, the migrations and their numbers say the same."""

from __future__ import annotations

from pathlib import Path

from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import text

from cutwright.book import migrations
from cutwright.book.book import Book
from cutwright.book.health import VERSION_TABLE
from cutwright.book.opening import open_book
from cutwright.book.tables import Base


def test_the_migrations_make_exactly_the_tables(book: Book) -> None:
    with book.engine.connect() as line:
        context = MigrationContext.configure(line, opts={"version_table": VERSION_TABLE})
        found = [
            change
            for change in compare_metadata(context, Base.metadata)
            if not (change[0] == "remove_table" and change[1].name == VERSION_TABLE)
        ]
    assert found == []


def test_the_comparison_can_fail(file_book: Book) -> None:
    with file_book.writing() as session:
        session.execute(text("ALTER TABLE client ADD COLUMN shoe_size TEXT"))
    with file_book.engine.connect() as line:
        context = MigrationContext.configure(line, opts={"version_table": VERSION_TABLE})
        assert compare_metadata(context, Base.metadata)


def test_the_known_steps_are_the_files_in_order() -> None:
    config = Config()
    config.set_main_option("script_location", str(Path(migrations.__file__).parent))
    steps = [one.revision for one in ScriptDirectory.from_config(config).walk_revisions()]
    assert tuple(reversed(steps)) == migrations.KNOWN
    assert migrations.KNOWN[-1] == migrations.HEAD


def test_opening_twice_changes_nothing(address: str) -> None:
    for _time in range(2):
        with open_book(address) as book, book.reading() as session:
            rows = session.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).all()
            assert [tuple(row) for row in rows] == [(migrations.HEAD,)]
