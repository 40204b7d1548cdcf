"""Books to test with: one a test, in each database that a book can be kept in."""

import os
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from functools import cache
from itertools import count
from pathlib import Path

import pytest
from farm import Farm
from hypothesis import settings
from sqlalchemy import Engine, create_engine, make_url

from colony.acts.book.sample import make_sample_book
from colony.notation.house import HouseUnits, use_units
from colony.store.book import Book, open_book

settings.register_profile("colony", deadline=None)
settings.load_profile("colony")
# A busy machine is no counterexample.

POSTGRES_VARIABLE = "COLONY_TEST_POSTGRES"
"""URL of a PostgreSQL server that tests may fill with databases; `.ci/postgres` starts one."""

ENGINES = ("sqlite", "postgresql") if os.environ.get(POSTGRES_VARIABLE) else ("sqlite",)


class Server:
    """A PostgreSQL server, and a database of its own for each test."""

    def __init__(self, url: str, worker: str) -> None:
        self._url = make_url(url)
        self._name = f"colony_{worker}"
        self._numbers = count()
        self._admin: Engine = create_engine(self._url, isolation_level="AUTOCOMMIT")

    def url_of(self, name: str) -> str:
        """The URL of one database."""
        return self._url.set(database=name).render_as_string(hide_password=False)

    def new(self, *, begun: bool) -> str:
        """Make a database, empty or with a book that has just begun in it."""
        name = f"{self._name}_{next(self._numbers)}"
        self.run(f"CREATE DATABASE {name} TEMPLATE {self._begun() if begun else 'template0'}")
        return name

    def drop(self, name: str) -> None:
        """Drop a database, whoever is still in it."""
        self.run(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")

    def run(self, statement: str) -> None:
        """Run one statement as the server's owner."""
        with self._admin.connect() as connection:
            connection.exec_driver_sql(statement)

    def close(self) -> None:
        """Drop the template and let go."""
        self.drop(f"{self._name}_begun")
        self._admin.dispose()

    def _begun(self) -> str:
        name = f"{self._name}_begun"
        with self._admin.connect() as connection:
            query = "SELECT 1 FROM pg_database WHERE datname = %s"
            if connection.exec_driver_sql(query, (name,)).first() is None:
                connection.exec_driver_sql(f"CREATE DATABASE {name}")
                open_book(self.url_of(name), begin=True).close()
        return name


@pytest.fixture(autouse=True)
def _usual_units() -> None:
    """Every test begins in the usual units, whichever house was opened before."""
    use_units(HouseUnits())


@pytest.fixture(scope="session")
def server(worker_id: str) -> Iterator[Server]:
    """The PostgreSQL server; a test that needs it is passed over where there is none."""
    url = os.environ.get(POSTGRES_VARIABLE)
    if url is None:
        pytest.skip(f"no PostgreSQL: set {POSTGRES_VARIABLE}")
    server = Server(url, worker_id)
    yield server
    server.close()


@pytest.fixture
def database(server: Server) -> Iterator[str]:
    """The URL of an empty PostgreSQL database."""
    name = server.new(begun=False)
    yield server.url_of(name)
    server.drop(name)


@pytest.fixture(params=ENGINES)
def location(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Where a book can be begun: a path that is free, or the URL of an empty database."""
    if request.param == "sqlite":
        yield str(tmp_path / "farm.colony")
        return
    yield request.getfixturevalue("database")


@pytest.fixture(params=ENGINES)
def begun_location(
    request: pytest.FixtureRequest, begun: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[str]:
    """Where a book has just begun."""
    yield from _begun_location(request, begun, tmp_path_factory)


@pytest.fixture(scope="module", params=ENGINES)
def lasting_location(
    request: pytest.FixtureRequest, begun: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[str]:
    """Where a book has just begun that all tests of a module share."""
    yield from _begun_location(request, begun, tmp_path_factory)


def _begun_location(
    request: pytest.FixtureRequest, begun: Path, folders: pytest.TempPathFactory
) -> Iterator[str]:
    if request.param == "sqlite":
        yield str(shutil.copy(begun, folders.mktemp("farm") / "farm.colony"))
        return
    server: Server = request.getfixturevalue("server")
    name = server.new(begun=True)
    yield server.url_of(name)
    server.drop(name)


@pytest.fixture
def book(begun_location: str) -> Iterator[Book]:
    """A book that has just begun."""
    opened = open_book(begun_location)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a book that has just begun: copied in no time, begun in some."""
    path = tmp_path_factory.mktemp("begun") / "begun.colony"
    open_book(str(path), begin=True).close()
    return path


@pytest.fixture(scope="session")
def sample_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[date], Path]:
    """The sample colony of a day: made once a run, and a copy for whoever asks."""

    @cache
    def made(today: date) -> Path:
        path = tmp_path_factory.mktemp("sample") / "sample.colony"
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("COLONY_WHO", "keeper")
            make_sample_book(location=str(path), today=today)
        return path

    def copied(today: date) -> Path:
        return Path(shutil.copy(made(today), tmp_path_factory.mktemp("copy") / "sample.colony"))

    return copied


@pytest.fixture
def farm(begun_location: str) -> Iterator[Farm]:
    """A book to tell a story in, in each database."""
    farm = Farm(begun_location)
    yield farm
    farm.book.close()


@pytest.fixture
def farm_file(begun: Path, tmp_path: Path) -> Iterator[Farm]:
    """A farm whose book is a file, for what is only asked of files."""
    farm = Farm(shutil.copy(begun, tmp_path / "farm.colony"))
    yield farm
    farm.book.close()
