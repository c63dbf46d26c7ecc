"""Copies packed with xz: as they stream, in little memory, and unpacked again to see that all is there."""

from collections.abc import Callable, Iterator
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path
from types import ModuleType

from logbook.store.file.faults import CannotWrite, Damaged
from logbook.store.revision import APPLICATION_ID

SUFFIX = ".xz"
PIECE = 2**20
LIGHTEST = 0
"""Of xz's presets: ten years shrink to a tenth; the next takes twice as long for 2 % less."""


def is_packed(path: Path) -> bool:
    """Whether a path names a packed copy."""
    return path.suffix == SUFFIX


def can_pack() -> bool:
    """Whether this Python was built with xz."""
    return find_spec("_lzma") is not None


def _xz() -> ModuleType:
    try:
        import lzma
    except ImportError as fault:
        raise CannotWrite("This Python was built without xz (its module lzma).") from fault
    return lzma


def pack(plain: Path, target: Path, told: Callable[[int, int], None] | None = None) -> None:
    """Pack a file into one that is there and empty; `told` is told how many bytes of how many.

    Raises Damaged where the packed file does not unpack to the same bytes.
    """
    packer, digest = _xz().LZMACompressor(preset=LIGHTEST), sha256()
    done, whole = 0, plain.stat().st_size
    with plain.open("rb") as source, target.open("wb") as file:
        while piece := source.read(PIECE):
            digest.update(piece)
            file.write(packer.compress(piece))
            done += len(piece)
            if told is not None:
                told(done, whole)
        file.write(packer.flush())
    unpacked = sha256()
    for piece in pieces_of(target):
        unpacked.update(piece)
    if unpacked.digest() != digest.digest():
        raise Damaged(
            f"What was written to {target.parent} is not what was read; try another disk."
        )


def unpack(packed: Path, target: Path) -> None:
    """Unpack a copy into a file that is there and empty; raises Damaged where it is not whole."""
    with target.open("wb") as file:
        for piece in pieces_of(packed):
            file.write(piece)


def pieces_of(packed: Path) -> Iterator[bytes]:
    """The bytes in a packed copy, some at a time; raises Damaged where it is not whole."""
    xz = _xz()
    try:
        unpacker = xz.LZMADecompressor()
        with packed.open("rb") as source:
            while not unpacker.eof:
                given = source.read(PIECE) if unpacker.needs_input else b""
                if unpacker.needs_input and not given:
                    raise EOFError
                yield unpacker.decompress(given, PIECE)
    except (xz.LZMAError, EOFError) as fault:
        raise Damaged(f"The copy {packed} is itself damaged; use an older one.") from fault


def size_in(packed: Path) -> int:
    """How many bytes a packed book has, as its header says (sqlite.org/fileformat.html); 0 for none."""
    header = next(pieces_of(packed), b"")
    if not header.startswith(b"SQLite format 3\0"):
        return 0
    page = int.from_bytes(header[16:18], "big")
    return (65536 if page == 1 else page) * int.from_bytes(header[28:32], "big")


def check_packed(packed: Path) -> None:
    """Unpack a copy to nowhere; raises Damaged where it is not whole or holds no book."""
    pieces = pieces_of(packed)
    header = next(pieces, b"")
    for _ in pieces:
        pass
    if int.from_bytes(header[68:72], "big") != APPLICATION_ID:
        raise Damaged(f"{packed} holds no book of this program.")
