"""The last net: a fault of the program becomes a sentence, its trace a private log file."""

import os
import traceback

from logbook.paths import private_folder, state_folder

MOST_BYTES = 200_000
MOST_FRAMES = 200


def keep_trace(fault: BaseException) -> str:
    """Append where a fault happened to the log file; returns the sentence for the grower.

    The log is kept below twice MOST_BYTES and one trace. It names files, lines and the kind of fault, never values: no notes get into it.
    """
    lines = [f"{type(fault).__module__}.{type(fault).__name__}\n"]
    lines += [
        f"  {frame.filename}:{frame.lineno} in {frame.name}\n"
        for frame in traceback.extract_tb(fault.__traceback__, -MOST_FRAMES)
    ]
    path = state_folder() / "faults.log"
    try:
        private_folder(path.parent)
        if path.exists() and path.stat().st_size > MOST_BYTES:
            path.replace(path.with_name("faults.log.old"))
        with os.fdopen(os.open(path, os.O_APPEND | os.O_CREAT | os.O_WRONLY, 0o600), "a") as file:
            file.writelines([*lines, "\n"])
    except OSError:
        return f"Something went wrong inside the program ({type(fault).__name__})."
    return (
        f"Something went wrong inside the program ({type(fault).__name__}). "
        f"The details are in {path}; everything the book confirmed is safe."
    )
