"""What every test finds around it: a learner's home of its own, one BLAS thread, no screen."""

import os

import pytest
from hypothesis import settings

os.environ["OPENBLAS_NUM_THREADS"] = "1"
os.environ["MPLBACKEND"] = "Agg"

# In CI the same cases every time: what a search finds by luck must not stop a change that has nothing to do with it.
settings.register_profile("ci", derandomize=True, print_blob=True)
if os.environ.get("CI"):
    settings.load_profile("ci")


@pytest.fixture(scope="session", autouse=True)
def _away_from_home(tmp_path_factory):
    """No test reads or writes the files of whoever runs it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SPLASH_HOME", str(tmp_path_factory.mktemp("home")))
        yield


def pytest_collection_modifyitems(items):
    """Everything in tests/browser/ needs a browser."""
    for item in items:
        if item.path.parent.name == "browser":
            item.add_marker("browser")


def must_run(report, item) -> bool:
    """Whether a browser test was skipped where that is no excuse: in CI it counts as a failure."""
    return bool(os.environ.get("CI")) and report.skipped and item.path.parent.name == "browser"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if must_run(report, item) and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"a browser test must run in CI, but was skipped: {report.longrepr}"
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector):
    report = yield
    if must_run(report, collector):
        report.outcome = "failed"
        report.longrepr = f"browser tests must run in CI, but were skipped: {report.longrepr}"
    return report
