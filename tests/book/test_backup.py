"""Backups, damage and coming back from it."""

from __future__ import annotations

import json
import shutil
import sqlite3
import stat
import subprocess
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from cutwright.book import backup as backup_module
from cutwright.book import documents, fittings, forgetting, orders, search
from cutwright.book.backup import KEPT, back_up, keep_backup
from cutwright.book.book import Book
from cutwright.book.dump import read_tables, write_tables
from cutwright.book.errors import BusyBookError, DamagedBookError, NewerBookError
from cutwright.book.health import automatic_backups, newest_backup
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.book.place import find_place
from cutwright.book.restore import restore
from cutwright.book.scraps import SCRATCH, scrap_folder
from cutwright.cli import main
from cutwright.desk.app import make_app
from cutwright.errors import CutwrightError, DocumentError, StoreError
from tests.book.conftest import Clock
from tests.book.samples import full_order, style
from tests.desk.conftest import visitor


def fill(book: Book) -> None:
    _client, order = full_order(book, "Ελένη “Quill” O’Feather")
    note = fittings.note(book, order.id, "hem dips")
    assert order.style is not None
    wish = fittings.propose(book, note.id, order.style.document_id, style(9), base=1)
    fittings.accept(book, wish.id)
    documents.add(book, DocumentKind.STYLE, {"name": "bare", "text": "\u0000 \U0001faa1 ''"})


def path_of(book: Book) -> Path:
    assert book.place.path
    return book.place.path


@pytest.mark.parametrize("name", ["copy.json", "copy.sqlite"])
def test_a_backup_restores_into_a_new_place(book: Book, tmp_path: Path, name: str) -> None:
    fill(book)
    copy = tmp_path / name
    if book.place.path is None and name.endswith(".sqlite"):
        with pytest.raises(StoreError, match=r"ends in \.json"):
            back_up(book, copy)
        return
    back_up(book, copy)
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    wanted = read_tables(book)
    assert restore(copy, tmp_path / "elsewhere" / "book.sqlite") is None
    with open_book(tmp_path / "elsewhere" / "book.sqlite") as again:
        assert read_tables(again) == wanted
        assert len(search.find(again, "quill")) == 3


def test_a_file_is_restored_into_a_server_and_back(
    file_book: Book, server: str, tmp_path: Path
) -> None:
    fill(file_book)
    wanted = read_tables(file_book)
    back_up(file_book, tmp_path / "one.sqlite")
    restore(tmp_path / "one.sqlite", server)
    with open_book(server) as on_server:
        assert read_tables(on_server) == wanted
        back_up(on_server, tmp_path / "two.json")
    restore(tmp_path / "two.json", tmp_path / "back.sqlite")
    with open_book(tmp_path / "back.sqlite") as back:
        assert read_tables(back) == wanted


def test_a_backup_with_a_document_that_cannot_be_read_says_which_before_it_is_taken(
    book: Book, tmp_path: Path
) -> None:
    """The rows are sound; only the document in one of them would never open."""
    fill(book)
    odd = {"name": "Odd cloth", "width": -3}
    documents.add(book, DocumentKind.CLOTH, odd)
    back_up(book, tmp_path / "copy.json")
    place = tmp_path / "elsewhere" / "book.sqlite"
    seen: list[DocumentKind] = []

    def check(kind: DocumentKind, content: object) -> None:
        seen.append(kind)
        if content == odd:
            raise StoreError("no cloth is so narrow")

    with pytest.raises(DocumentError, match="no cloth is so narrow") as told:
        restore(tmp_path / "copy.json", place, check=check)
    assert [str(where) for where, _text in told.value.problems] == ["Odd cloth (1)"]
    assert "nothing was changed" in str(told.value.title)
    assert not place.exists()
    assert set(seen) == {DocumentKind.BODY, DocumentKind.CLOTH}, (
        "at every revision, and as orders froze them"
    )
    restore(tmp_path / "copy.json", place)
    with open_book(place) as again:
        assert read_tables(again) == read_tables(book)


def test_a_row_that_was_altered_on_the_server_is_told_and_nobody_is_locked_out(
    server_book: Book, server: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with server_book.writing() as session:
        write_tables(session, {})
    fill(server_book)
    with open_book(server) as sound:
        assert sound.altered == ()
    with server_book.writing() as session:
        session.execute(text("UPDATE document SET title = 'Bare skirt' WHERE title = 'bare'"))
    with open_book(server) as opened:
        assert opened.altered == ("Bare skirt",)
        documents.add(opened, DocumentKind.STYLE, style(3))
    with pytest.raises(SystemExit) as ended:
        main(["book", "backup", str(tmp_path / "copy.json"), "--book", server])
    assert not ended.value.code
    assert "Altered outside of the program: Bare skirt." in capsys.readouterr().err
    app = make_app(server)
    with visitor(app) as web:
        assert "Altered outside of the program: Bare skirt." in web.get("/book").text
    app.state.shop.close()


def test_restoring_keeps_the_book_that_was_there(file_book: Book, tmp_path: Path) -> None:
    first = documents.add(file_book, DocumentKind.STYLE, style())
    copy = back_up(file_book, tmp_path / "copy.sqlite")
    second = documents.add(file_book, DocumentKind.STYLE, style(2))
    with pytest.raises(StoreError, match="there already"):
        back_up(file_book, copy)

    kept = restore(copy, path_of(file_book))

    assert [one.id for one in documents.entries(file_book)] == [first.id], "also for an open book"
    assert kept is not None
    restore(kept, path_of(file_book))
    assert {one.id for one in documents.entries(file_book)} == {first.id, second.id}
    assert not list(path_of(file_book).parent.glob(".*")), "no scraps left"


def test_a_book_in_use_is_not_restored_under_the_users_hands(
    file_book: Book, tmp_path: Path
) -> None:
    copy = back_up(file_book, tmp_path / "copy.sqlite")
    with file_book.writing() as session:
        session.connection()
        with pytest.raises(BusyBookError):
            restore(copy, path_of(file_book), wait=0.2)


@pytest.mark.parametrize("name", ["copy.json", "copy.sqlite"])
def test_a_backup_that_cannot_be_written_says_which(
    file_book: Book, tmp_path: Path, name: str
) -> None:
    (tmp_path / "in the way").write_text("a file")
    with pytest.raises(StoreError, match="in the way"):
        back_up(file_book, tmp_path / "in the way" / name)


def test_automatic_backups_are_kept_daily_and_few(file_book: Book, clock: Clock) -> None:
    for day in range(KEPT + 3):
        documents.add(file_book, DocumentKind.STYLE, style(day))
        made = keep_backup(file_book)
        assert made is not None
        assert keep_backup(file_book) is None, "not twice on one day"
        clock.time += timedelta(days=1)
    found = automatic_backups(file_book.place)
    assert len(found) == KEPT
    assert found[-1] == made == newest_backup(file_book.place)
    assert stat.S_IMODE(found[0].stat().st_mode) == 0o600
    assert stat.S_IMODE(found[0].parent.stat().st_mode) == 0o700
    restore(found[0], path_of(file_book))
    assert len(documents.entries(file_book)) == 4


def test_opening_keeps_a_backup_and_goes_on_when_it_cannot(tmp_path: Path, clock: Clock) -> None:
    path = tmp_path / "book.sqlite"
    with open_book(path, clock=clock) as book:
        documents.add(book, DocumentKind.STYLE, style())
        assert automatic_backups(book.place) == []
    with open_book(path, clock=clock) as book:
        assert len(automatic_backups(book.place)) == 1
        assert book.place.backups
        shutil.rmtree(book.place.backups)
        book.place.backups.write_text("in the way")
    with open_book(path, clock=clock) as book:
        assert len(documents.entries(book)) == 1
        assert book.no_backup is not None
        assert "cannot" in str(book.no_backup)


def _scribbled(path: Path) -> None:
    size = path.stat().st_size
    with path.open("r+b") as file:
        for page in range(1, size // 4096):
            file.seek(page * 4096 + 100)
            file.write(b"\xaa" * 500)


def _letter_altered(path: Path) -> None:
    raw = bytearray(path.read_bytes())
    at = raw.index(b"Heron skirt")
    raw[at + 1] ^= 4
    path.write_bytes(raw)


def _not_a_book(path: Path) -> None:
    path.write_bytes(b"dear diary " * 2000)


def _cut_short(path: Path) -> None:
    with path.open("r+b") as file:
        file.truncate(path.stat().st_size // 2)


def _emptied(path: Path) -> None:
    path.write_bytes(b"")


def _gone(path: Path) -> None:
    path.unlink()


def _index_astray(path: Path) -> None:
    with closing(sqlite3.connect(path)) as line:
        (root,) = line.execute(
            "SELECT rootpage FROM sqlite_master WHERE name = 'ix_document_kind_changed_at'"
        ).fetchone()
    raw = bytearray(path.read_bytes())
    at = raw.index(b"style", (root - 1) * 4096)
    raw[at : at + 5] = b"cloth"
    path.write_bytes(raw)


def _link_astray(path: Path) -> None:
    with closing(sqlite3.connect(path)) as line:
        line.execute("DELETE FROM document WHERE id = (SELECT min(id) FROM document)")
        line.commit()


@pytest.mark.parametrize(
    "harm",
    [
        _scribbled,
        _letter_altered,
        _not_a_book,
        _cut_short,
        _emptied,
        _gone,
        _index_astray,
        _link_astray,
    ],
)
def test_a_damaged_book_names_the_backup_that_brings_it_back(
    tmp_path: Path, clock: Clock, harm: Callable[[Path], None]
) -> None:
    path = tmp_path / "book.sqlite"
    with open_book(path, clock=clock) as book:
        made = [documents.add(book, DocumentKind.STYLE, style(n)).id for n in range(40)]
        backup = keep_backup(book)
    harm(path)
    left = path.read_bytes() if path.exists() else None

    with pytest.raises(DamagedBookError, match=r"newest automatic backup is of 2031-05-04") as told:
        open_book(path)
    assert (told.value.book, told.value.backup) == (path, backup)
    assert str(backup) in str(told.value)
    assert (path.read_bytes() if path.exists() else None) == left, "nothing was changed"

    assert told.value.backup is not None
    kept = restore(told.value.backup, path)
    assert (kept.read_bytes() if kept else None) == left
    with open_book(path) as book:
        assert {one.id for one in documents.entries(book)} == set(made)


def test_a_damaged_book_without_backup_says_so(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    _not_a_book(path)
    with pytest.raises(DamagedBookError, match="no automatic backup") as told:
        open_book(path)
    assert told.value.backup is None


def test_damage_that_comes_while_the_book_is_open_is_told(file_book: Book) -> None:
    for number in range(40):
        documents.add(file_book, DocumentKind.STYLE, style(number))
    keep_backup(file_book)
    file_book.close()
    _scribbled(path_of(file_book))
    with pytest.raises(DamagedBookError):
        documents.entries(file_book)


def test_a_forgotten_client_is_told_of_damaged_copies(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with open_book(path) as book:
        client, _order = full_order(book)
        keep_backup(book)
    _cut_short(path)
    kept = restore(newest_backup(find_place(path)) or Path(), path)
    with open_book(path) as book:
        assert forgetting.forget(book, client.id).copies == (kept,)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.json", "{"),
        ("a.json", "[]"),
        ("a.json", "[" * 100_000),
        ("a.json", '{"kind": "cutwright book", "format": 1}'),
        ("a.json", '{"kind": "cutwright book", "format": 1, "schema": "0001", "tables": [1]}'),
        ("a.sqlite", "SQLite format 3\x00 and no more"),
        ("a.sqlite", ""),
    ],
)
def test_what_is_no_backup_is_refused_and_nothing_changes(
    file_book: Book, tmp_path: Path, name: str, text: str
) -> None:
    made = documents.add(file_book, DocumentKind.STYLE, style())
    (tmp_path / name).write_text(text)
    with pytest.raises(CutwrightError):
        restore(tmp_path / name, path_of(file_book))
    with pytest.raises(StoreError, match="no backup file"):
        restore(tmp_path / "missing.json", path_of(file_book))
    assert [one.id for one in documents.entries(file_book)] == [made.id]


def test_a_backup_that_does_not_hold_together_changes_nothing(book: Book, tmp_path: Path) -> None:
    fill(book)
    copy = back_up(book, tmp_path / "copy.json")
    dump = json.loads(copy.read_text())
    address = str(book.place.path or book.place.url.render_as_string(hide_password=False))
    before = read_tables(book)
    harms: list[Callable[[Any], Any]] = [
        lambda rows: rows["client"].clear(),
        lambda rows: rows["revision"].append(rows["revision"][0]),
        lambda rows: rows["client"][0].update(shoe_size=38),
        lambda rows: rows.update(songs=[{"name": "x"}]),
    ]
    for harm in harms:
        harmed = json.loads(copy.read_text())
        harm(harmed["tables"])
        (tmp_path / "harmed.json").write_text(json.dumps(harmed))
        with pytest.raises(CutwrightError, match="is damaged"):
            restore(tmp_path / "harmed.json", address)
        assert read_tables(book) == before
    (tmp_path / "newer.json").write_text(json.dumps(dump | {"schema": "9999"}))
    with pytest.raises(NewerBookError):
        restore(tmp_path / "newer.json", address)
    assert len(orders.listed(book)) == 1


def test_a_wrong_clock_costs_no_backup(file_book: Book, clock: Clock) -> None:
    documents.add(file_book, DocumentKind.STYLE, style())
    clock.time += timedelta(days=40_000)
    for _n in range(KEPT):
        keep_backup(file_book, even_if_recent=True)
    clock.time -= timedelta(days=40_000)
    documents.add(file_book, DocumentKind.STYLE, style(2))
    made = keep_backup(file_book)
    assert made is not None
    assert made.exists()
    assert made == newest_backup(file_book.place)
    assert len(automatic_backups(file_book.place)) == KEPT
    kept = restore(made, path_of(file_book))
    assert kept is not None
    assert kept.exists()
    assert len(documents.entries(file_book)) == 2


def test_backups_of_an_older_program_go_first(file_book: Book, clock: Clock) -> None:
    documents.add(file_book, DocumentKind.STYLE, style())
    made = keep_backup(file_book)
    assert made is not None
    old = made.with_name("book-20991231T235959.000000Z.sqlite")
    shutil.copy(made, old)
    assert automatic_backups(file_book.place) == [old, made]


def test_a_backup_that_does_not_read_back_is_told_and_taken_away(
    file_book: Book, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    documents.add(file_book, DocumentKind.STYLE, style())
    written = backup_module._written_into

    def lossy(part: Path, line: sqlite3.Connection) -> dict[str, int] | None:
        counts = written(part, line)
        with closing(sqlite3.connect(part)) as copy:
            copy.execute("DELETE FROM history")
            copy.commit()
        return counts

    monkeypatch.setattr(backup_module, "_written_into", lossy)
    with pytest.raises(StoreError, match="does not read back"):
        back_up(file_book, tmp_path / "copy.sqlite")
    with pytest.raises(StoreError, match="does not read back"):
        keep_backup(file_book)
    assert automatic_backups(file_book.place) == []
    assert not (tmp_path / "copy.sqlite").exists()
    monkeypatch.setattr("cutwright.book.dump.write_json", lambda to, value: to.write_text("{}"))
    with pytest.raises(CutwrightError):
        back_up(file_book, tmp_path / "copy.json")


_TRIGGER = "CREATE TRIGGER wipe AFTER INSERT ON client BEGIN DELETE FROM client; END"


@pytest.mark.parametrize(
    "harm",
    [
        _TRIGGER,
        "CREATE VIEW more AS SELECT * FROM client",
        "CREATE TABLE songs (name TEXT)",
        "DROP INDEX ix_document_client_id",
        "ALTER TABLE client ADD COLUMN shoe_size TEXT",
        "UPDATE client SET notes = 'altered'",
        "UPDATE revision SET content = '{}'",
        "UPDATE document SET current = 9",
        "UPDATE document SET changed_at = 'yesterday'",
        "UPDATE orders SET due = '2031-02-30'",
        "UPDATE orders SET version = 'x'",
        "DELETE FROM history",
        "DELETE FROM fitting",
        "DELETE FROM revision WHERE number > 1",
    ],
)
def test_a_file_that_was_tampered_with_is_not_trusted(
    file_book: Book, tmp_path: Path, harm: str
) -> None:
    fill(file_book)
    copy = back_up(file_book, tmp_path / "copy.sqlite")
    with closing(sqlite3.connect(copy)) as line:
        line.execute(harm)
        line.commit()
    before = read_tables(file_book)
    if harm == "DELETE FROM fitting":  # whole again: what hung on it went, too
        with closing(sqlite3.connect(copy)) as line:
            line.execute("DELETE FROM correction")
            line.commit()
        restore(copy, path_of(file_book))
        return
    with pytest.raises(CutwrightError, match="is damaged"):
        restore(copy, path_of(file_book))
    assert read_tables(file_book) == before


def test_a_trigger_in_the_book_itself_is_damage(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with open_book(path) as book:
        documents.add(book, DocumentKind.STYLE, style())
        keep_backup(book)
    with closing(sqlite3.connect(path)) as line:
        line.execute(_TRIGGER)
        line.commit()
    with pytest.raises(DamagedBookError):
        open_book(path)


def test_what_killed_programs_left_is_cleared_and_what_the_living_hold_is_not(
    file_book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    client, _order = full_order(file_book)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    home = path_of(file_book).parent
    child = subprocess.Popen(["true"])
    child.wait()
    left = []
    for folder in (home, tmp_path):
        dead = folder / f"{SCRATCH}{child.pid}-abc"
        dead.mkdir()
        (dead / "book.sqlite").write_bytes(b"waist 74.5")
        left.append(dead)
    with scrap_folder(home) as mine:
        forgetting.forget(file_book, client.id)
        assert mine.exists()
    assert not any(one.exists() for one in left)
