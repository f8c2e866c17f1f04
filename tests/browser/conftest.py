"""What the browser tests share: one JupyterLab, one browser, and `notebook(...)` to open one in it."""

import pytest

from tests.browser.harness import CHROMIUM_FLAGS, NotebookPage, Server, find_chromium


@pytest.fixture(scope="session")
def server(tmp_path_factory):
    """One JupyterLab for all browser tests."""
    with Server(tmp_path_factory.mktemp("jupyter")) as running:
        yield running


@pytest.fixture(scope="package")
def browser():
    """One headless browser; without one the tests are skipped, except in CI, where that counts as a failure."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        pytest.skip("playwright is not installed: uv run --group dev pytest")
    with sync_playwright() as playwright:
        chromium = find_chromium(playwright)
        if chromium is None:
            pytest.skip("no Chromium found: install one, or name it in the environment variable CHROMIUM")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def notebook(browser, server):
    """Open a notebook: `with notebook("01_start.ipynb") as page:`, or one made by `notebook_of`."""

    def open_one(which, **window):
        return NotebookPage(browser, server, which, **window)

    return open_one
