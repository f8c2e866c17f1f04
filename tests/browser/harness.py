"""A real JupyterLab in a real browser, and handles to what a learner sees and touches there.

with notebook("01_start.ipynb") as page:
    page.run_all()
    panel = page.panel(0)
    panel.slider("Release height").press("ArrowRight")
    panel.wait()
    assert panel.slider("Release height").text == "45.5 cm"
    pixels, words, alt = panel.picture(), panel.readout, panel.alt
"""

import ast
import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from dataclasses import dataclass
from pathlib import Path

import nbformat

from tests.browser.handles import Card, Panel

ROOT = Path(__file__).resolve().parents[2]
CHROMIUM_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
NO_NEWS = {"disabledExtensions": {"@jupyterlab/apputils-extension:announcements": True}}


def find_chromium(playwright):
    """The browser to drive: $CHROMIUM, one on the path, or one that playwright has installed; else None."""
    names = ("chromium", "chromium-browser")
    found = [os.environ.get("CHROMIUM"), *map(shutil.which, names), playwright.chromium.executable_path]
    return next((path for path in found if path and Path(path).exists()), None)


def notebook_of(*cells):
    """A notebook with these code cells; a pair ("markdown", text) makes a text cell."""
    made = []
    for number, cell in enumerate(cells):
        kind, source = cell if isinstance(cell, tuple) else ("code", cell)
        new = nbformat.v4.new_code_cell if kind == "code" else nbformat.v4.new_markdown_cell
        made.append(new(source, id=f"cell-{number:02d}"))
    spec = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}
    return nbformat.v4.new_notebook(cells=made, metadata={"kernelspec": spec})


class Server:
    """One JupyterLab on a free port, with a folder, settings and a token of its own."""

    def __init__(self, folder):
        self.folder = Path(folder)
        self.files = self.folder / "files"
        self.files.mkdir(parents=True)
        self.token = secrets.token_hex(16)
        self.log = self.folder / "server.log"
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}"

    def __enter__(self):
        command = [sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--ip=127.0.0.1"]
        command += [f"--port={self.port}", "--port-retries=0", f"--IdentityProvider.token={self.token}"]
        command += ["--LabApp.expose_app_in_browser=True", f"--ServerApp.root_dir={self.files}"]
        with self.log.open("w") as log:
            self.process = subprocess.Popen(command, env=self._environment(), stdout=log, stderr=log)
        self._wait_until_up()
        return self

    def __exit__(self, *_):
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()

    def _environment(self):
        # Without SPLASH_HOME the learner's home is the notebook's own folder: one for each notebook opened.
        env = {name: value for name, value in os.environ.items() if name != "SPLASH_HOME"}
        config = self.folder / "config"
        (config / "labconfig").mkdir(parents=True)
        (config / "labconfig" / "page_config.json").write_text(json.dumps(NO_NEWS))
        env["JUPYTER_CONFIG_PATH"] = str(config)
        own = {"JUPYTER_CONFIG_DIR": "me", "JUPYTER_DATA_DIR": "data", "JUPYTER_RUNTIME_DIR": "run"}
        own |= {"IPYTHONDIR": "ipython", "JUPYTERLAB_SETTINGS_DIR": "lab", "JUPYTERLAB_WORKSPACES_DIR": "spaces"}
        for name, place in own.items():
            (self.folder / place).mkdir()
            env[name] = str(self.folder / place)
        paths = [str(ROOT), *filter(None, [env.get("PYTHONPATH")])]
        return env | {"PYTHONPATH": os.pathsep.join(paths), "OPENBLAS_NUM_THREADS": "1"}

    def _wait_until_up(self, seconds=90):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if self.process.poll() is not None:
                raise RuntimeError(f"JupyterLab stopped at once:\n{self.log.read_text()[-3000:]}")
            try:
                urllib.request.urlopen(f"{self.url}/api/status?token={self.token}", timeout=5).close()
                return
            except OSError:
                time.sleep(0.2)
        raise RuntimeError(f"JupyterLab did not start in {seconds} s:\n{self.log.read_text()[-3000:]}")


@dataclass(frozen=True)
class Finding:
    """One thing that axe found."""

    rule: str
    impact: str
    target: str
    html: str


class NotebookPage:
    """One notebook, open in a fresh browser context."""

    def __init__(self, browser, server, notebook, *, width=1600, height=1000, dark=False):
        self._browser, self._server = browser, server
        self._size = {"width": width, "height": height}
        self._dark = dark
        self.home = server.files / secrets.token_hex(4)
        self.home.mkdir()
        self.path = self.home / _put(notebook, self.home)

    def __enter__(self):
        self.context = self._browser.new_context(viewport=self._size, reduced_motion="reduce")
        self.page = self.context.new_page()
        self.page.set_default_timeout(60_000)
        self.complaints = []
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.open()
        return self

    def __exit__(self, *_):
        try:
            self.page.evaluate("() => jupyterapp.shell.currentWidget?.sessionContext.shutdown()")
        finally:
            self.context.close()

    # ---- the notebook

    def open(self):
        """Open the notebook (again), and wait for its kernel."""
        place = self.path.relative_to(self._server.files).as_posix()
        self.page.goto(f"{self._server.url}/lab/tree/{place}?token={self._server.token}&reset")
        self.page.wait_for_function("() => window.jupyterapp?.shell?.currentWidget?.sessionContext")
        self.page.evaluate("() => jupyterapp.restored")
        self._set_theme()
        self.wait_idle()

    def _set_theme(self):
        # The server keeps the theme from one page to the next, so it is set each time.
        theme, light = ("JupyterLab Dark", "false") if self._dark else ("JupyterLab Light", "true")
        self.page.evaluate("(theme) => jupyterapp.commands.execute('apputils:change-theme', {theme})", theme)
        self.page.wait_for_function("(light) => document.body.dataset.jpThemeLight === light", arg=light)

    def wait_idle(self):
        """Wait until the kernel is there and has nothing to do."""
        self.page.wait_for_function(
            "() => jupyterapp.shell.currentWidget?.sessionContext?.session?.kernel?.status === 'idle'"
        )

    def run_all(self):
        """Run all cells; fails with the traceback when one raises."""
        self.page.evaluate("() => jupyterapp.commands.execute('notebook:run-all-cells')")
        self.wait_idle()
        # The page is held at its top until all is quiet.
        self.page.wait_for_function("() => !('slRunning' in document.body.dataset)")
        assert not self.errors, "\n".join(self.errors)

    def restart(self):
        """Restart the kernel, without running anything."""
        self.page.evaluate("() => jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()")

    def shut_down(self):
        """Stop the kernel for good."""
        self.page.evaluate("() => jupyterapp.shell.currentWidget.sessionContext.shutdown()")

    def save(self):
        """Save the notebook, and read it from the disk."""
        self.page.evaluate("() => jupyterapp.shell.currentWidget.context.save()")
        return nbformat.read(self.path, 4)

    @property
    def cells(self):
        """The notebook as the browser has it: kind, source, outputs of each cell."""
        return self.page.evaluate("() => jupyterapp.shell.currentWidget.content.model.toJSON().cells")

    @property
    def errors(self):
        """The error outputs of all cells, each on one line."""
        outputs = [each for cell in self.cells for each in cell.get("outputs", [])]
        return [f"{each['ename']}: {each['evalue']}" for each in outputs if each["output_type"] == "error"]

    @property
    def active_cell(self):
        """The number of the active cell."""
        return self.page.evaluate("() => jupyterapp.shell.currentWidget.content.activeCellIndex")

    def python(self, expression):
        """Evaluate an expression in the notebook's own kernel; it must give something that JSON can hold."""
        code = f"__import__('json').dumps({expression})"
        text = self.page.evaluate(
            """async (code) => {
                const kernel = jupyterapp.shell.currentWidget.sessionContext.session.kernel;
                const future = kernel.requestExecute({code: '', user_expressions: {it: code}, silent: true});
                const it = (await future.done).content.user_expressions.it;
                return it.status === 'ok' ? it.data['text/plain'] : '!' + it.evalue;
            }""",
            code,
        )
        assert not text.startswith("!"), text[1:]
        # The kernel gives the repr of a JSON string.
        return json.loads(_unquoted(text))

    # ---- what is in it

    def show_cell(self, number):
        """Scroll a cell into the window; JupyterLab takes far ones out of the page."""
        self.page.evaluate(
            """async (number) => {
                const notebook = jupyterapp.shell.currentWidget.content;
                notebook.activeCellIndex = number;
                await notebook.scrollToItem(number, 'start');
            }""",
            number,
        )

    def panel(self, number=0, selector=".splash", *, veiled=False):
        """The panel with this number, counted from 0, at rest; without its veil, unless that is wanted."""
        self._show_output_of(number, selector)
        veil = self.page.get_by_role("button", name="Show without a guess")
        if not veiled and veil.count() and veil.first.is_visible():
            veil.first.click()
        panel = Panel(self.page, self.page.locator(selector).nth(self._seen(number, selector)))
        panel.wait()
        return panel

    def keep(self, number=0):
        """The card that writes into my_setup.toml, with this number, counted from 0."""
        self._show_output_of(number, ".splash-keep")
        return Card(self.page, self.page.locator(".splash-keep").nth(self._seen(number, ".splash-keep")))

    def _widget_cells(self):
        """The numbers of the cells that show a widget, in order."""
        mime = "application/vnd.jupyter.widget-view+json"
        found = []
        for number, cell in enumerate(self.cells):
            found += [number for each in cell.get("outputs", []) if mime in each.get("data", {})]
        return found

    def _show_output_of(self, number, selector):
        for cell in self._widget_cells():
            if self.page.locator(selector).count() > number:
                break
            self.show_cell(cell)
            self.page.wait_for_timeout(300)
        self.page.locator(selector).nth(number).scroll_into_view_if_needed()

    def _seen(self, number, selector):
        return min(number, self.page.locator(selector).count() - 1)

    def axe(self, inside=".jp-OutputArea-output"):
        """What axe finds inside the outputs."""
        from axe_playwright_python.sync_playwright import Axe

        answer = Axe().run(self.page, context={"include": [[".jp-Notebook"]]}).response
        findings = []
        for rule in answer["violations"]:
            for node in rule["nodes"]:
                target = node["target"][0]
                if self.page.evaluate("([at, in_]) => !!document.querySelector(at)?.closest(in_)", [target, inside]):
                    findings.append(Finding(rule["id"], node["impact"], target, node["html"][:300]))
        return findings

    def screenshot(self, path):
        """Save what the window shows."""
        self.page.screenshot(path=str(path))


def _put(notebook, folder):
    """Write a notebook, or copy a built one, into a folder; returns its name there."""
    if isinstance(notebook, str | Path):
        source = Path(notebook)
        source = source if source.is_absolute() else ROOT / "notebooks" / source
        shutil.copy(source, folder / source.name)
        return source.name
    nbformat.write(notebook, folder / "demo.ipynb")
    return "demo.ipynb"


def _unquoted(text):
    return ast.literal_eval(text)
