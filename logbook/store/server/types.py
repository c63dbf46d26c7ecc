"""How the tables' types are spelled on PostgreSQL, so that they hold what the file's tables hold.

A moment is seconds since 1970 (to_timestamp(at) shows it), a truth 0 or 1, and text is in the order
of its bytes, whatever the database's language. One statement then means the same in both.
"""

from typing import Any

from sqlalchemy import Boolean, DateTime, String
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.elements import False_

DOMAINS = (
    "CREATE DOMAIN moment AS double precision",
    "CREATE DOMAIN truth AS smallint CHECK (VALUE IN (0, 1))",
)
"""What a new book's database is told first."""


@compiles(DateTime, "postgresql")
def _moment(_type: Any, _compiler: Any, **_: Any) -> str:
    return "moment"


@compiles(Boolean, "postgresql")
def _truth(_type: Any, _compiler: Any, **_: Any) -> str:
    return "truth"


@compiles(String, "postgresql")
def _text(_type: Any, _compiler: Any, **_: Any) -> str:
    return 'VARCHAR COLLATE "C"'


@compiles(False_, "postgresql")
def _no(_element: Any, _compiler: Any, **_: Any) -> str:
    return "0"
