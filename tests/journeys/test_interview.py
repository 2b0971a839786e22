"""An interview through a pipe about what `tundish new` wrote, each answer as its question says."""

import re
import tomllib

from journeys.walking import Printed, Walk

QUESTIONS = 4


def answer_to(asked: Printed) -> str:
    """Return an answer to the last question, as it says one is given."""
    last = asked.out.split("QUESTION ")[-1]
    answer = Printed("", 0, last, "").entries("answer")[0]
    example = re.search(r"such as (.+?)(?: or .+)?$", answer)
    if example:
        return example[1]
    if answer.startswith("1 "):
        return "1"
    return "yes" if answer.startswith("yes") else "none"


def stated(data: object, path: str) -> object:
    """Return what a file says of a fact."""
    for key in path.split("."):
        assert isinstance(data, dict)
        data = data.get(key, {})
    return data


def test_answers_from_a_pipe_are_judged_compared_and_not_asked_again(walk: Walk) -> None:
    new = walk("tundish new job.toml --stage survey --region GB")
    job = new.written[0]
    starter, sheet = walk.read(job), walk.read("unit.toml")
    walk.save("starter.toml", starter)
    answers, asked = list[str](), walk(f"tundish ask {job}")
    for _ in range(QUESTIONS):
        answers.append(answer_to(asked))
        # Whoever comes back is asked anew what decides most, so all is answered in one go.
        walk.save(job, starter)
        walk.save("unit.toml", sheet)
        asked = walk(f"tundish ask {job}", typed="\n".join(answers))
    paths = re.findall(r"^  written +([\w.\[\]]+) = ", asked.out, re.MULTILINE)
    assert asked.entries("answered") == ["Four questions"], asked.out
    assert len(paths) >= 2
    walk.check(asked.next)
    compared = walk(f"tundish compare starter.toml {job}").text
    survey = walk(f"tundish survey {job}")
    texts = [tomllib.loads(walk.read(name)) for name in (job, "unit.toml")]
    for path in paths:
        assert f"({path.partition('[')[0]}" in compared, path
        assert path not in survey.entries("write in")
        assert "[" in path or any(stated(text, path) != {} for text in texts), path
