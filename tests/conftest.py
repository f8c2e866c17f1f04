"""What every test finds around it: a learner's home of its own, one BLAS thread, no screen."""

import os

import pytest

os.environ["OPENBLAS_NUM_THREADS"] = "1"
os.environ["MPLBACKEND"] = "Agg"


@pytest.fixture(scope="session", autouse=True)
def _away_from_home(tmp_path_factory):
    """No test reads or writes the files of whoever runs it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SPLASH_HOME", str(tmp_path_factory.mktemp("home")))
        yield


def pytest_collection_modifyitems(items):
    """Everything in tests/browser/ needs a browser."""
    for item in items:
        if "browser" in item.path.parts:
            item.add_marker("browser")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """Without a browser the browser tests are skipped; in CI that counts as a failure, not as a pass."""
    report = yield
    if (
        os.environ.get("CI")
        and report.skipped
        and not hasattr(report, "wasxfail")
        and "browser" in item.keywords
    ):
        report.outcome = "failed"
        report.longrepr = f"a browser test must run in CI, but was skipped: {report.longrepr}"
    return report
