"""A job from a stranger reads no job outside the folder that it lies in, and tells none of it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tundish import Job, Refused
from tundish.text.bounds import LARGEST_FILE, LONGEST_LIST, MOST_PROBLEMS

SECRET = "[job]\ntitle = 'hunter2'\n[site]\naltitude = 'hunter2'\nhunter2 = 1\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The folder of the stranger's job, beside which lies what is none of their business."""
    (tmp_path / "secret.toml").write_text(SECRET)
    (tmp_path / "secrets").mkdir()
    (tmp_path / "secrets/inner.toml").write_text(SECRET)
    inside = tmp_path / "inside"
    (inside / "below").mkdir(parents=True)
    return inside


def refused(path: Path) -> str:
    with pytest.raises(Refused) as caught:
        Job.from_file(path)
    told = str(caught.value)
    assert "hunter2" not in told.replace(str(path.parent), "")
    return told


def named(folder: Path, path: str) -> str:
    text = path.replace("\\", "\\\\")
    (folder / "job.toml").write_text(f'based_on = "{text}"\n')
    return refused(folder / "job.toml")


@pytest.mark.parametrize(
    "path",
    [
        "../secret.toml",
        "..\\secret.toml",
        "below/../../secret.toml",
        "below\\..\\..\\secret.toml",
        "./../secret.toml",
        "../inside/below/../../secret.toml",
        "../none.toml",
        "..",
    ],
)
def test_a_path_that_leads_up_is_refused_whether_or_not_a_file_is_there(
    folder: Path, path: str
) -> None:
    assert "leads out of the folder of the job" in named(folder, path)


@pytest.mark.parametrize(
    "path", ["{}/secret.toml", "C:\\secret.toml", "C:secret.toml", "\\\\host\\share\\secret.toml"]
)
def test_a_path_that_begins_elsewhere_is_refused(folder: Path, path: str) -> None:
    assert "absolute path" in named(folder, path.format(folder.parent))


def test_a_home_folder_is_not_looked_up(folder: Path) -> None:
    assert "There is no file" in named(folder, "~/secret.toml")


@pytest.mark.parametrize(
    ("link", "target", "path"),
    [
        ("link.toml", "../secret.toml", "link.toml"),
        ("link.toml", "{}/secret.toml", "link.toml"),
        ("below/link.toml", "../../secret.toml", "below/link.toml"),
        ("link", "../secrets", "link/inner.toml"),
        ("link", "{}", "link/secrets/inner.toml"),
        ("link.toml", "../none.toml", "link.toml"),
    ],
)
def test_a_link_that_leads_out_is_refused(folder: Path, link: str, target: str, path: str) -> None:
    (folder / link).symlink_to(target.format(folder.parent))
    assert "leads out of the folder of the job" in named(folder, path)


def test_a_link_that_leads_out_by_way_of_another_is_refused(folder: Path) -> None:
    (folder / "first.toml").symlink_to("second.toml")
    (folder / "second.toml").symlink_to("../secret.toml")
    assert "leads out of the folder of the job" in named(folder, "first.toml")


def test_a_link_that_stays_inside_is_followed(folder: Path) -> None:
    (folder / "below/type.toml").write_text("[site]\naltitude = '4 m'\n")
    (folder / "link.toml").symlink_to("below/type.toml")
    (folder / "job.toml").write_text("based_on = 'link.toml'\n")
    job = Job.from_file(folder / "job.toml")
    assert job.site is not None and str(job.site.altitude) == "4 m"


def test_a_base_of_a_base_leads_no_further(folder: Path) -> None:
    for path in ("../../secret.toml", "../type.toml"):
        (folder / "below/type.toml").write_text(f"based_on = '{path}'\n")
        told = named(folder, "below/type.toml")
        assert "leads out of the folder of the job" in told
        assert "below/type.toml:1:13" in told


def test_a_linked_folder_that_leads_out_and_a_link_back_do_not_open_what_is_outside(
    folder: Path,
) -> None:
    (folder / "below/type.toml").write_text("based_on = 'inner.toml'\n")
    (folder.parent / "secrets/back.toml").symlink_to(folder / "below/type.toml")
    (folder / "away").symlink_to("../secrets")
    assert "leads out of the folder of the job" in named(folder, "away/back.toml")


def test_a_job_that_is_a_link_itself_reads_beside_the_link(folder: Path) -> None:
    (folder / "job.toml").write_text("based_on = 'type.toml'\n")
    (folder / "type.toml").write_text("[site]\naltitude = '4 m'\n")
    (folder.parent / "link.toml").symlink_to(folder / "job.toml")
    assert "There is no file 'type.toml'" in refused(folder.parent / "link.toml")


def test_a_folder_that_is_reached_by_a_link_is_a_tree_like_any_other(folder: Path) -> None:
    (folder / "job.toml").write_text("based_on = 'below/type.toml'\n")
    (folder / "below/type.toml").write_text("[site]\naltitude = '4 m'\n")
    (folder.parent / "link").symlink_to(folder)
    assert Job.from_file(folder.parent / "link/job.toml").site is not None


@pytest.mark.parametrize(
    "text",
    ["word = 'hunter2'\n", "[login]\nhunter2 = 1\n[unit]\nmodel = 'hunter2'\n", "hunter2 = ["],
)
def test_nothing_is_told_of_a_file_inside_that_is_no_job(folder: Path, text: str) -> None:
    (folder / "below/other.toml").write_text(text)
    named(folder, "below/other.toml")


def test_a_base_of_any_size_is_refused_by_its_size(folder: Path) -> None:
    with (folder / "large.toml").open("wb") as file:
        file.truncate(LARGEST_FILE + 1)
    assert "the most that is read" in named(folder, "large.toml")


@pytest.mark.parametrize("make", [os.mkfifo, lambda path: path.symlink_to("odd.toml")])
def test_what_is_no_plain_file_is_not_waited_for(folder: Path, make: object) -> None:
    make(folder / "odd.toml")  # type: ignore[operator]
    assert "There is no file" in named(folder, "odd.toml")


def test_bases_full_of_items_are_laid_together_soon(folder: Path) -> None:
    items = "".join(f"[[water.run]]\nname = 'run {at}'\n" for at in range(LONGEST_LIST))
    for at in range(4):
        (folder / f"b{at}.toml").write_text(f"based_on = 'b{at + 1}.toml'\n{items}")
    (folder / "b4.toml").write_text(items)
    job = Job.from_file(folder / "b0.toml")
    assert job.water is not None and len(job.water.run or ()) == LONGEST_LIST


def test_mistakes_by_the_thousand_in_each_base_are_told_in_part(folder: Path) -> None:
    wrong = "[site]\n" + "".join(f"snow_depht_{at} = 1\n" for at in range(1_000))
    (folder / "job.toml").write_text("based_on = 'b.toml'\n" + wrong)
    (folder / "b.toml").write_text(wrong)
    told = refused(folder / "job.toml")
    assert told.count("\n") <= 2 * (MOST_PROBLEMS + 1)
