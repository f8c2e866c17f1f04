"""The report of a small class on paper: one page for six people."""

import random
import re

import pytest

from splashlib.classroom.record.progress_file import FILE_NAME, Progress
from splashlib.desk import commands
from tests.desk.test_report import Truth, work_through


@pytest.fixture
def six(tmp_path):
    """Six learners with slips of all sorts, printed as a browser prints."""
    rng, truth = random.Random(6), Truth()
    for name in ("ann", "ben", "cleo", "dan", "eva", "finn"):
        (tmp_path / name).mkdir()
        work_through(Progress(tmp_path / name / FILE_NAME), name, rng, truth)
    assert commands.main(["report", str(tmp_path)]) == 0
    return tmp_path / "class_report.html"


def test_six_people_are_one_page(browser, six):
    page = browser.new_page()
    page.goto(six.as_uri())
    printed = page.pdf(prefer_css_page_size=True, path=six.with_suffix(".pdf"))
    page.close()
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1


def test_what_is_folded_can_be_opened_and_then_is_printed(browser, six):
    page = browser.new_page()
    page.goto(six.as_uri())
    folded = page.locator("details").first
    assert not folded.locator("table").is_visible()
    folded.locator("summary").press("Enter")
    page.emulate_media(media="print")
    assert folded.locator("table").is_visible()
    page.close()
