"""Our signs and what stands for them in ASCII, for screens and plain commands alike."""

DOTS = {0x2800 + dots: " .:*#"[(dots.bit_count() + 1) // 2] for dots in range(256)}
"""Braille, as charts use it: by how many of its eight dots are set."""
BOXES = dict.fromkeys(range(0x2500, 0x2580), "+") | dict.fromkeys(range(0x2580, 0x25A0), "#")
SIGNS = {
    "─": "-", "━": "-", "│": "|", "┃": "#", "▌": "|", "▁": "_", "▔": "-", "▏": "|", "▎": "|",
    "▊": "|", "▒": ":", "▓": "%", "░": ".", "–": "-", "—": "-", "−": "-", "…": "~", "·": ".", "→": ">", "←": "<", "↑": "^",
    "↓": "v", "×": "x", "÷": "/", "µ": "u", "²": "2", "³": "3", "¹": "1",
    "⁻": "-", "⁶": "6", "₁": "1", "₂": "2", "🔎": "? ",
    "•": "o", "●": "O", "◆": "@",
}  # fmt: skip
"""Each sign and what stands for it, of the same width."""
LATIN = {"°": "o", " ± ": "+/-", " ±": "+-", "±": "~"}
"""The same for what every console's font has, if the encoding lacks it: longer ones come first."""
TABLE = BOXES | DOTS | {ord(sign): plain for sign, plain in SIGNS.items()}


def encodes(encoding: str, letters: str) -> bool:
    """Whether an encoding has codes for letters; one that is not known has those of ASCII."""
    try:
        letters.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return letters.isascii()
    return True
