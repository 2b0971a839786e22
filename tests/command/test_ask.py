"""`tundish ask`: questions and answers through a pipe and at a terminal."""

import os
import pty
import select
import signal
import subprocess
import sys
import time
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from command.conftest import GOOD_JOB, OPEN_JOB, Run, Write
from processes import started, surroundings
from tundish.text.bundled_folders import bundled_folder

ENVIRONMENT = surroundings(NO_COLOR="1", PROMPT_TOOLKIT_NO_CPR="1", TERM="xterm")
READY = "\x1b[?2004h"
BARE_JOB = '[job]\nstage = "design"\nregion = "GB"\n'


def data(path: Path) -> dict:
    return tomllib.loads(path.read_text())


def test_an_answer_from_a_pipe_is_written_and_told(run: Run, write: Write) -> None:
    job = write("job.toml", OPEN_JOB)
    ran = run("ask", "job.toml", stdin=b"100 mm\n")
    assert ran.code == 0, ran.err
    assert data(job)["site"]["snow_depth"] == "100 mm"
    assert "> 100 mm\n" in ran.out
    assert 'written     site.snow_depth = "100 mm", in job.toml' in ran.out
    assert "decided     One met." in ran.out
    assert "No question left to find out at this stage" in ran.out


def test_a_question_tells_all_that_helps_to_answer_it(run: Run, write: Write) -> None:
    write("job.toml", OPEN_JOB)
    out = run("ask", "job.toml").out
    assert "QUESTION 1, 0 MORE OPEN" in out
    assert "What snow depth is expected at the unit?\n" in out
    assert "find out    From the national snow map, or ask neighbours." in out
    assert "answer      a length with its unit, such as 250 mm" in out
    assert "decides     one possible danger" in out
    assert "written as  site.snow_depth in job.toml" in out


def test_a_breach_is_told_with_its_rule(run: Run, write: Write) -> None:
    write("job.toml", OPEN_JOB)
    out = run("ask", "job.toml", stdin=b"1 m\n").out
    assert "decided     One danger: " in out
    assert "(tundish explain placement/snow)" in " ".join(out.split())


def test_at_the_end_of_the_input_it_says_where_it_stands(run: Run, write: Write) -> None:
    job = write("job.toml", BARE_JOB)
    ran = run("ask", "job.toml", stdin=b"250 mm")
    assert ran.code == 0
    assert data(job)["placement"] == {"height_below": "250 mm"}
    assert "answered    One question" in ran.out
    assert "open        Two questions left" in ran.out
    assert "next        tundish check job.toml" in ran.out


def test_a_wrong_answer_is_told_and_the_question_asked_again(run: Run, write: Write) -> None:
    job = write("job.toml", OPEN_JOB)
    out = run("ask", "job.toml", stdin=b"100 kg\n100\ny\n").out
    assert "'100 kg' is not a length but of the kind mass" in out
    assert "'100' has no unit. Did you mean '100 mm'?" in out
    assert out.count("What snow depth is expected at the unit?") == 3
    assert data(job)["site"]["snow_depth"] == "100 mm"


def test_back_and_a_question_mark_from_a_pipe(run: Run, write: Write) -> None:
    job = write("job.toml", BARE_JOB)
    out = run("ask", "job.toml", stdin=b"250 mm\nback\n?\nstop\n").out
    assert "tundish explain placement/snow" in out
    assert job.read_text() == BARE_JOB
    assert "No question; " not in out


def test_a_list_that_was_begun_is_told_as_unfinished(run: Run, write: Write) -> None:
    write("job.toml", BARE_JOB)
    out = run("ask", "job.toml", stdin=b"\n\nflow\nstop\n").out
    assert "run 'flow': " in out
    assert "unfinished  water.run has one item so far" in out


def test_what_is_no_text_is_refused_and_asked_again(run: Run, write: Write) -> None:
    job = write("job.toml", BARE_JOB)
    ran = run("ask", "job.toml", stdin=b"\n\n\xff\xfe\nstop\n")
    assert ran.code == 0
    assert "holds control characters" in ran.out
    assert job.read_text() == BARE_JOB


def test_where_nothing_is_open_it_says_so_and_ends(run: Run, write: Write) -> None:
    write("job.toml", GOOD_JOB)
    ran = run("ask", "job.toml", stdin=b"x\n")
    assert ran.code == 0
    assert "All that is due is known; --stage asks for a later stage." in ran.out


def test_a_job_that_is_not_there_is_told_how_to_begin(run: Run) -> None:
    ran = run("ask", "job.toml")
    assert (ran.code, ran.out) == (2, "")
    assert "There is no file job.toml. This writes one: tundish new job.toml" in ran.err


@pytest.mark.parametrize(
    ("text", "says"),
    [("[job", "The header is not closed"), ('of_job = "other.toml"\n', "ask about the job itself")],
)
def test_what_cannot_be_asked_about_is_refused(
    run: Run, write: Write, text: str, says: str
) -> None:
    write("other.toml", GOOD_JOB)
    write("job.toml", text)
    ran = run("ask", "job.toml")
    assert ran.code == 2
    assert says in ran.err


def test_standard_input_is_no_job_to_write_into(run: Run) -> None:
    ran = run("ask", "-")
    assert ran.code == 2
    assert "name it, not '-'" in ran.err


def test_in_order_it_asks_as_one_goes_through_the_house(run: Run, write: Write) -> None:
    write("job.toml", BARE_JOB)
    first = [line for line in run("ask", "job.toml", "--in-order").out.splitlines() if "?" in line]
    assert "What snow depth" in first[1]


# -- whole processes --------------------------------------------------------------------------


@pytest.fixture(name="townhouse")
def sample(tmp_path: Path) -> Path:
    text = (bundled_folder("sample_jobs") / "surveyed-townhouse.toml").read_text()
    (tmp_path / "job.toml").write_text(text)
    return tmp_path


def piped(
    work: Path, *arguments: str, answers: str = "", columns: int = 80
) -> subprocess.CompletedProcess[str]:
    return started(
        *arguments, cwd=work, env={**ENVIRONMENT, "COLUMNS": str(columns)}, input=answers
    )


@pytest.mark.parametrize("columns", [40, 80])
def test_a_starter_answered_through_a_pipe_is_a_job_that_check_reads(
    tmp_path: Path, columns: int
) -> None:
    piped(tmp_path, "new", "job.toml", "--stage", "design")
    written = (tmp_path / "job.toml").read_text().splitlines()
    answers = "\n".join(["heat pump", *["", "y", "none", "1"] * 4, "?", "40 L", "back", "q"])
    ran = piped(tmp_path, "ask", "job.toml", answers=answers, columns=columns)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert "\x1b" not in ran.stdout
    assert max(len(line) for line in ran.stdout.splitlines()) <= columns
    assert data(tmp_path / "job.toml")["electricity"]["circuit"][0]["name"] == "heat pump"
    # What stood there as a comment gave up its place, and nothing else did.
    filled = (tmp_path / "job.toml").read_text().splitlines()
    gone = [line for line in written if line not in filled]
    assert gone and all(line.startswith("# ") for line in gone)
    assert not _paths(filled, "") & _paths(filled, "# ")
    checked = piped(tmp_path, "check", "job.toml")
    assert checked.returncode in (0, 1)
    assert checked.stderr == ""


WITH_NATION = {
    "altitude": "140 m",
    "exposure": "town",
    "prevailing_wind": "west",
    "nation": "England",
}


def _paths(lines: list[str], mark: str) -> set[str]:
    """Return the whole paths of facts in lines that begin with a mark."""
    keys = {line.partition(" = ")[0] for line in lines if " = " in line}
    return {key.removeprefix(mark) for key in keys if key.startswith(mark) and "." in key}


class Terminal:
    """A command at a terminal of its own."""

    def __init__(self, work: Path, columns: int) -> None:
        self.shown = ""
        self._leading, following = pty.openpty()
        import fcntl
        import struct
        import termios

        size = struct.pack("HHHH", 24, columns, 0, 0)
        fcntl.ioctl(following, termios.TIOCSWINSZ, size)
        environment = {name: text for name, text in ENVIRONMENT.items() if name != "COLUMNS"}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tundish", "ask", "job.toml", "--in-order"],
            cwd=work,
            env=environment,
            stdin=following,
            stdout=following,
            stderr=following,
            start_new_session=True,
            preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),
        )
        os.close(following)

    def until(self, text: str, seconds: float = 60) -> None:
        """Wait until a text has been shown since the last time."""
        end = time.monotonic() + seconds
        while text not in self.shown:
            assert time.monotonic() < end, self.shown
            if select.select([self._leading], [], [], 0.2)[0]:
                self._take()
        self.shown = self.shown.partition(text)[2]

    def _take(self) -> None:
        try:
            self.shown += os.read(self._leading, 65_536).decode("utf-8", "replace")
        except OSError:  # the other side has gone
            self.shown += "\n[gone]\n"

    def type(self, text: str) -> None:
        os.write(self._leading, text.encode())

    def ended(self) -> int:
        """Wait for the end, reading on, and return what it ended with."""
        end = time.monotonic() + 60
        while self.process.poll() is None and time.monotonic() < end:
            if select.select([self._leading], [], [], 0.2)[0]:
                self._take()
        return self.process.wait(timeout=1)

    def close(self) -> None:
        self.process.kill()
        self.process.wait()
        os.close(self._leading)


@pytest.fixture(name="terminal")
def opened(townhouse: Path) -> Iterator[Terminal]:
    terminal = Terminal(townhouse, 80)
    yield terminal
    terminal.close()


def test_ctrl_c_loses_nothing(terminal: Terminal, townhouse: Path) -> None:
    terminal.until("In which part of the country is it")
    terminal.until(READY)
    terminal.type("England\r")
    terminal.until("QUESTION 2")
    terminal.until(READY)
    terminal.type("\x03")
    assert terminal.ended() == 130
    assert "One answer written into job.toml." in terminal.shown
    assert data(townhouse / "job.toml")["site"] == WITH_NATION
    assert sorted(path.name for path in townhouse.iterdir()) == ["job.toml"]


@pytest.mark.parametrize(
    ("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)], ids=["INT", "TERM"]
)
def test_a_signal_from_elsewhere_loses_nothing(
    terminal: Terminal, townhouse: Path, number: int, code: int
) -> None:
    terminal.until("In which part of the country is it")
    terminal.until(READY)
    terminal.type("England\r")
    terminal.until("QUESTION 2")
    terminal.until(READY)
    terminal.process.send_signal(number)
    assert terminal.ended() == code
    assert "Traceback" not in terminal.shown
    assert data(townhouse / "job.toml")["site"] == WITH_NATION


def test_ctrl_d_is_enough_for_now(terminal: Terminal) -> None:
    terminal.until("In which part of the country is it")
    terminal.until(READY)
    terminal.type("\x04")
    terminal.until("HOW IT STANDS")
    assert terminal.ended() == 0


def test_a_choice_is_completed_at_a_terminal(terminal: Terminal, townhouse: Path) -> None:
    terminal.until("In which part of the country is it")
    terminal.until(READY)
    terminal.type("Sco\t\r")
    terminal.until("QUESTION 2")
    assert data(townhouse / "job.toml")["site"] == WITH_NATION | {"nation": "Scotland"}
