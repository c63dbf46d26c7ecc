"""The password: where it is read, that nothing shows it, and how fast it can be guessed."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest

from logbook.serving.door import MOST_WAITING, PASSWORD_VARIABLE, Door, Password, read_password
from logbook.text import Refused

RIGHT = "wet hands, dim light"


def _file(folder: Path, text: str, mode: int = 0o600) -> Path:
    path = folder / "password"
    path.write_text(text, encoding="utf-8")
    path.chmod(mode)
    return path


def test_without_a_file_and_a_variable_there_is_none() -> None:
    assert read_password(None, {}) is None


def test_the_first_line_of_the_file_is_the_password(tmp_path: Path) -> None:
    password = read_password(_file(tmp_path, f"{RIGHT}\nthe rest is ours\n"), {})
    assert password is not None
    assert password.matches(RIGHT)
    assert not password.matches(f"{RIGHT}\n")
    assert not password.matches(RIGHT.upper())
    assert not password.matches("")


def test_the_variable_is_taken_out_so_that_no_tab_inherits_it() -> None:
    environment = {PASSWORD_VARIABLE: RIGHT, "LANG": "C"}
    password = read_password(None, environment)
    assert password is not None
    assert password.matches(RIGHT)
    assert environment == {"LANG": "C"}


def test_the_file_wins_over_the_variable(tmp_path: Path) -> None:
    environment = {PASSWORD_VARIABLE: "another one altogether"}
    password = read_password(_file(tmp_path, RIGHT), environment)
    assert password is not None
    assert password.matches(RIGHT)
    assert environment == {}


def test_no_words_for_it_hold_it() -> None:
    password = Password(RIGHT, "here")
    assert RIGHT not in repr(password)
    assert RIGHT not in str(vars(password))


@pytest.mark.parametrize("text", ["", "\n", "seven77"])
def test_a_short_password_is_refused_without_quoting_it(tmp_path: Path, text: str) -> None:
    with pytest.raises(Refused, match="use 8 characters or more") as refused:
        read_password(_file(tmp_path, text), {})
    assert "seven77" not in str(refused.value)


@pytest.mark.parametrize("mode", [0o644, 0o640, 0o620, 0o602])
def test_a_file_that_others_may_read_is_refused(tmp_path: Path, mode: int) -> None:
    with pytest.raises(Refused, match="chmod 600"):
        read_password(_file(tmp_path, RIGHT, mode), {})


def test_a_file_that_is_not_there_or_no_text_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="first line"):
        read_password(tmp_path / "nothing", {})
    broken = _file(tmp_path, "")
    broken.write_bytes(b"\xff\xfe\xff")
    with pytest.raises(Refused, match="first line"):
        read_password(broken, {})


def test_a_door_without_a_password_lets_everybody_in() -> None:
    door = Door(None)
    assert not door.locked
    assert door.knows("")


def test_the_right_password_gives_a_new_key_each_time() -> None:
    door = Door(Password(RIGHT, "here"), wrong_seconds=0)

    async def story() -> tuple[str | None, str | None, str | None]:
        return await door.key_for(RIGHT), await door.key_for(RIGHT), await door.key_for("wrong")

    one, other, none = asyncio.run(story())
    assert one is not None
    assert other is not None
    assert one != other
    assert len(one) >= 40
    assert none is None
    assert door.knows(one)
    assert not door.knows("")
    assert not door.knows(one[:-1])


def test_a_wrong_password_holds_up_the_next_from_there_and_nobody_elsewhere() -> None:
    async def story() -> None:
        door = Door(Password(RIGHT, "here"), wrong_seconds=3_600)
        guesser = "2001:db8::"
        guesses = [
            asyncio.create_task(door.key_for("guess", f"{guesser}{number}"))
            for number in range(MOST_WAITING)
        ]
        beside = asyncio.create_task(door.key_for(RIGHT, f"{guesser}abc"))
        elsewhere = asyncio.create_task(door.key_for(RIGHT, "192.0.2.7"))
        for _ in range(20):
            await asyncio.sleep(0)
        assert elsewhere.done()
        assert not beside.done()
        assert door.crowded(guesser)
        assert not door.crowded("192.0.2.7")
        for guess in guesses:
            guess.cancel()
        assert await beside is not None
        assert not door.crowded(guesser)

    asyncio.run(story())
