"""Draw the pictures of README and handbook anew: python -m tests.pictures."""

from __future__ import annotations

import os
from tempfile import TemporaryDirectory

from tests.pictures.shots import PICTURES, draw_all

if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        os.environ.update(XDG_STATE_HOME=folder, XDG_CONFIG_HOME=folder)
        drawn = draw_all()
    PICTURES.mkdir(exist_ok=True)
    for name, svg in drawn.items():
        (PICTURES / f"{name}.svg").write_text(svg, encoding="utf-8")
        print(f"{name}.svg  {len(svg):,} bytes")
