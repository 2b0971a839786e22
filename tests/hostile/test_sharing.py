"""One rulebook serves many threads and processes: each comes to what one alone comes to."""

from __future__ import annotations

import multiprocessing
import subprocess
import sys
import threading
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from itertools import cycle
from pathlib import Path

import pytest

from processes import surroundings
from report.packs import write_pack
from tundish import Job, Rulebook, assess
from tundish.results.as_data import as_data, as_json
from tundish.text.bundled_folders import bundled_folder

SAMPLES = sorted(str(path) for path in bundled_folder("sample_jobs").glob("*.toml"))
STAGES = cycle(("enquiry", "commissioning"))
TASKS = list(zip(SAMPLES, STAGES, strict=False))


def whole(path: str, stage: str) -> str:
    """Return all findings of a job as text."""
    return as_json(as_data(assess(Job.from_file(path), stage=stage)))


@pytest.fixture(scope="module", name="alone")
def one_by_one() -> list[str]:
    return [whole(*task) for task in TASKS]


def test_eight_threads_come_to_what_one_comes_to(alone: list[str]) -> None:
    with ThreadPoolExecutor(8) as threads:
        assert list(threads.map(lambda task: whole(*task), TASKS)) == alone


def test_threads_mend_alike() -> None:
    rules = Rulebook.built_in()

    def mended(path: str) -> object:
        job = Job.from_file(path)
        return assess(job, rules, changes=True)

    with ThreadPoolExecutor(8) as threads:
        found = list(threads.map(mended, SAMPLES))
    assert found == [mended(path) for path in SAMPLES]


def test_threads_share_an_evaluator() -> None:
    rules = Rulebook.built_in()
    evaluator = rules.evaluator
    facts = [rules.facts(Job.from_file(path)).values for path in SAMPLES] * 8
    with ThreadPoolExecutor(8) as threads:
        assert list(threads.map(evaluator.verdicts, facts)) == [
            evaluator.verdicts(one) for one in facts
        ]


def test_processes_that_start_anew_come_to_the_same(
    alone: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    # They load this file by its name from the top of the tree.
    monkeypatch.syspath_prepend(str(Path(__file__).parents[2]))
    for name, value in surroundings().items():
        monkeypatch.setenv(name, value)
    spawning = multiprocessing.get_context("spawn")
    paths, stages = zip(*TASKS[:2], strict=True)
    with ProcessPoolExecutor(2, mp_context=spawning) as processes:
        assert list(processes.map(whole, paths, stages)) == alone[:2]


def test_threads_that_all_come_first_read_the_same_rulebook(tmp_path: Path) -> None:
    pack = write_pack(tmp_path / "pack")
    start, found = threading.Barrier(8), list[str]()

    def load() -> None:
        start.wait()
        found.append(Rulebook.load(pack, with_built_in=False).digest)

    threads = [threading.Thread(target=load) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 8
    assert len(set(found)) == 1


COLD = """
import sys, threading
from tundish import Job, assess

start, found = threading.Barrier(8), []

def work():
    start.wait()
    findings = assess(Job.from_file(sys.argv[1])).findings
    found.append(tuple((one.rule, one.item, one.verdict, one.statement) for one in findings))

threads = [threading.Thread(target=work) for _ in range(8)]
for thread in threads: thread.start()
for thread in threads: thread.join()
print(len(found), len(set(found)))
"""


def test_threads_that_all_come_before_anything_is_loaded_come_to_the_same() -> None:
    ran = subprocess.run(
        [sys.executable, "-c", COLD, SAMPLES[0]],
        env=surroundings(TUNDISH_CACHE="off"),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.stdout, ran.stderr) == ("8 1\n", "")
