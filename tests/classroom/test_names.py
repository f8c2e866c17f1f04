"""The names that the classroom shows, whatever was imported before."""

import subprocess
import sys

import pytest

ORDERS = [
    "from splashlib.classroom import live, keep",
    "import splashlib.classroom.widgets.panel, splashlib.classroom.widgets.decision_card; "
    "from splashlib.classroom import live, keep",
    "from splashlib.classroom.widgets.panel import Panel; from splashlib.classroom.widgets.decision_card import keep; "
    "from splashlib.classroom import live",
]


@pytest.mark.parametrize("order", ORDERS)
def test_functions_win_over_the_modules_they_live_in(order):
    code = f"{order}; assert live.__name__ == 'live' and callable(live); assert callable(keep)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr


def test_importing_the_package_loads_no_widgets():
    code = "import sys, splashlib.classroom; assert not {'ipywidgets', 'matplotlib', 'sympy'} & set(sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr
