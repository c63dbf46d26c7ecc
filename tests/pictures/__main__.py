"""Draw the pictures of README and handbook anew: python -m tests.pictures.

`python -m tests.pictures FOLDER` draws every screen of the sample there instead, at three sizes in
all themes and in sixteen colours, to be looked at one by one.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.pictures.shots import PICTURES, draw_all, draw_every_screen

if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        os.environ.update(XDG_STATE_HOME=folder, XDG_CONFIG_HOME=folder)
        drawn = draw_every_screen() if sys.argv[1:] else draw_all()
    into = Path(sys.argv[1]) if sys.argv[1:] else PICTURES
    into.mkdir(exist_ok=True)
    for name, svg in drawn.items():
        (into / f"{name}.svg").write_text(svg, encoding="utf-8")
        print(f"{name}.svg  {len(svg):,} bytes")
