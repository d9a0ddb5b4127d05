"""The reader's copy of the notebooks: made once, updated where untouched, never overwritten."""

import pytest

from workbook.start import own_copy, places
from workbook.start.refusal import Refusal

PAGE, OTHER = "notebooks/01_page.ipynb", "notebooks/lanes/house.csv"


@pytest.fixture
def content(tmp_path):
    folder = tmp_path / "content"
    (folder / "notebooks/lanes").mkdir(parents=True)
    (folder / PAGE).write_text("first")
    (folder / OTHER).write_text("oil")
    return folder


@pytest.fixture
def mine(tmp_path, content):
    """A copy, made at the first start."""
    target = tmp_path / "mine"
    assert own_copy.bring(content, target) == []
    return target


def pages(folder):
    return {
        file.relative_to(folder).as_posix(): file.read_text()
        for file in folder.rglob("*") if file.is_file() and file.name != own_copy.MANIFEST
    }  # fmt: skip


def test_all_files_are_copied_at_the_first_start(mine):
    assert pages(mine) == {PAGE: "first", OTHER: "oil"}


def test_the_second_start_brings_nothing_back_and_changes_nothing(content, mine):
    (mine / PAGE).write_text("my notes")
    (mine / OTHER).unlink()
    assert own_copy.bring(content, mine) == []
    assert pages(mine) == {PAGE: "my notes"}


def test_an_update_replaces_a_page_that_was_left_as_it_was(content, mine):
    (content / PAGE).write_text("second")
    assert own_copy.bring(content, mine) == []
    assert pages(mine) == {PAGE: "second", OTHER: "oil"}


def test_an_update_lies_beside_a_changed_page_and_is_offered_once(content, mine):
    (mine / PAGE).write_text("my notes")
    (content / PAGE).write_text("second")
    assert own_copy.bring(content, mine) == ["notebooks/01_page.new.ipynb"]
    assert pages(mine) == {
        PAGE: "my notes", "notebooks/01_page.new.ipynb": "second", OTHER: "oil"
    }  # fmt: skip
    assert own_copy.bring(content, mine) == []
    (content / PAGE).write_text("third")
    assert own_copy.bring(content, mine) == ["notebooks/01_page.new.ipynb"]
    assert pages(mine)["notebooks/01_page.new.ipynb"] == "third"
    (mine / "notebooks/01_page.new.ipynb").write_text("notes in the new one")
    (content / PAGE).write_text("fourth")
    assert own_copy.bring(content, mine) == ["notebooks/01_page.new2.ipynb"]
    assert pages(mine)["notebooks/01_page.new.ipynb"] == "notes in the new one"


def test_an_update_adds_a_new_page(content, mine):
    (content / "notebooks/02_more.ipynb").write_text("more")
    own_copy.bring(content, mine)
    assert pages(mine)["notebooks/02_more.ipynb"] == "more"


@pytest.mark.parametrize("manifest", [None, "", "[1]", "{"])
def test_without_a_manifest_whatever_differs_counts_as_the_readers(content, mine, manifest):
    if manifest is None:
        (mine / own_copy.MANIFEST).unlink()
    else:
        (mine / own_copy.MANIFEST).write_text(manifest)
    (mine / PAGE).write_text("my notes")
    assert own_copy.bring(content, mine) == ["notebooks/01_page.new.ipynb"]
    assert pages(mine)[PAGE] == "my notes"


def test_a_folder_that_cannot_be_written_is_named(tmp_path, content, monkeypatch):
    package = tmp_path / "workbook"
    package.mkdir()
    content.rename(package / "_content")
    monkeypatch.setattr(places, "PACKAGE", package)
    (tmp_path / places.COPY_NAME).write_text("a file where the folder should be")
    with pytest.raises(Refusal, match=rf"^Cannot write the notebooks to .*{places.COPY_NAME}: "):
        places.notebooks_root(tmp_path)
