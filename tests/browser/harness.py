"""A real JupyterLab in a real browser, and handles to what a learner sees and touches there.

with notebook("01_start.ipynb") as page:
    page.run_all()
    panel = page.panel(0)
    panel.slider("Release height").press("ArrowRight")
    panel.wait()
    assert panel.slider("Release height").text == "45.5 cm"
    pixels, words, alt = panel.picture(), panel.readout, panel.alt
"""

import base64
import io
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
import numpy as np
from PIL import Image

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
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
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

    def panel(self, number=0, selector=".splash"):
        """The panel with this number, counted from 0, at rest."""
        self._show_output_of(number, selector)
        panel = Panel(self.page, self.page.locator(selector).nth(self._seen(number, selector)))
        panel.wait()
        return panel

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


class Panel:
    """One panel, as a learner has it."""

    def __init__(self, page, root):
        self.page, self.root = page, root

    def wait(self, phase="rest"):
        """Wait until the panel has come to rest: the full picture is there and nothing is under way."""
        self.root.wait_for()
        handle = self.root.element_handle()
        self.page.wait_for_function("([root, phase]) => root.dataset.phase === phase", arg=[handle, phase])
        self.page.evaluate("(root) => root.querySelector('img').decode().catch(() => {})", handle)
        return self

    def slider(self, label):
        """The slider with this label (its beginning is enough)."""
        return Slider(self.page, self._control("slider", label))

    def choice(self, label):
        """The group of choices with this label."""
        return Choice(self.page, self._control("group", label))

    def select(self, label):
        """The list that folds out, with this label."""
        return Select(self.page, self._control("combobox", label))

    def tick(self, label):
        """The box to tick with this label."""
        return Tick(self.page, self._control("checkbox", label))

    def button(self, label):
        """The button with this label."""
        return self._control("button", label)

    def _control(self, role, label):
        exact = self.root.get_by_role(role, name=label, exact=True)
        return exact if exact.count() else self.root.get_by_role(role, name=label)

    @property
    def controls(self):
        """The roles and names of everything that takes the focus, in the order of the Tab key."""
        return self.root.evaluate(
            """(root) => [...root.querySelectorAll('input, select, button, summary')]
                .filter((node) => node.offsetParent && !node.matches(':disabled'))
                .map((node) => [node.type || node.tagName.toLowerCase(),
                                node.labels?.[0]?.textContent ?? node.textContent])"""
        )

    def picture(self):
        """The pixels of the picture on show, uint8 (height, width, 3)."""
        return np.asarray(Image.open(io.BytesIO(self.picture_bytes())).convert("RGB"))

    def picture_bytes(self):
        """The picture on show, as it was sent."""
        text = self.root.locator("img").evaluate(
            """async (image) => {
                const data = new Uint8Array(await (await fetch(image.src)).arrayBuffer());
                return btoa(Array.from(data, (byte) => String.fromCharCode(byte)).join(''));
            }"""
        )
        return base64.b64decode(text)

    @property
    def alt(self):
        """The alternative text of the picture."""
        return self.root.locator("img").get_attribute("alt")

    @property
    def readout(self):
        """What stands beside the picture: label to value."""
        return dict(
            self.root.evaluate(
                """(root) => [...root.querySelectorAll('.splash-readout > div')]
                    .map((row) => [...row.children].map((cell) => cell.textContent))"""
            )
        )

    @property
    def line(self):
        """The verdict."""
        return self.root.locator(".splash-line").inner_text().strip()

    @property
    def tone(self):
        """How the verdict is meant: good, care, bad or nothing."""
        return self.root.locator(".splash-line").get_attribute("data-tone")

    @property
    def alert(self):
        """The line of what went wrong, or ""."""
        return self.root.get_by_role("alert").inner_text().strip()

    @property
    def notes(self):
        """The models' warnings."""
        return self.root.locator(".splash-notes li").all_inner_texts()

    @property
    def spoken(self):
        """What a screen reader was last told."""
        return self.root.locator(".splash-hidden[role=status]").text_content()

    @property
    def phase(self):
        """moving, rest, slow (no answer yet) or gone."""
        return self.root.get_attribute("data-phase")

    @property
    def box(self):
        """Where the picture stands in the window: x, y, width, height."""
        return self.root.locator("img").bounding_box()

    def screenshot(self, path):
        """Save the panel as it looks."""
        self.root.screenshot(path=str(path))


class _Control:
    def __init__(self, page, node):
        self.page, self.node = page, node

    def press(self, key, times=1):
        """Press a key on it, as a learner without a mouse does."""
        self.focus()
        for _ in range(times):
            self.page.keyboard.press(key)
        return self

    def focus(self):
        """Bring the focus to it."""
        self.node.focus()
        return self

    @property
    def focused(self):
        """Whether it has the focus."""
        return self.node.evaluate("(node) => node === document.activeElement")


class Slider(_Control):
    """A slider."""

    @property
    def text(self):
        """Its value in words, as spoken and shown."""
        spoken = self.node.get_attribute("aria-valuetext")
        shown = self.node.locator("xpath=..").locator(".splash-value").inner_text()
        assert spoken == shown, f"a screen reader hears {spoken!r}, the eye sees {shown!r}"
        return spoken

    @property
    def at(self):
        """The number of its position."""
        return int(self.node.input_value())

    @property
    def last(self):
        """The number of its last position."""
        return int(self.node.get_attribute("max"))

    def drag(self, *shares):
        """Drag it with the mouse over these shares of its length."""
        self.node.scroll_into_view_if_needed()
        box = self.node.bounding_box()
        mouse, y = self.page.mouse, box["y"] + box["height"] / 2
        here = 10 + (box["width"] - 20) * self.at / max(1, self.last)
        mouse.move(box["x"] + here, y)
        mouse.down()
        for share in shares:
            mouse.move(box["x"] + 10 + (box["width"] - 20) * share, y)
        mouse.up()
        return self


class Choice(_Control):
    """Choices side by side, one of which holds."""

    @property
    def text(self):
        """The choice that holds."""
        return self.node.locator("label:has(input:checked)").inner_text().strip()

    @property
    def texts(self):
        """All choices."""
        return [text.strip() for text in self.node.locator("label").all_inner_texts()]

    def focus(self):
        """Bring the focus to the choice that holds."""
        self.node.locator("input:checked").focus()
        return self

    def click(self, text):
        """Click one."""
        self.node.get_by_text(text, exact=True).click()
        return self


class Select(_Control):
    """A list that folds out."""

    @property
    def text(self):
        """The choice that holds."""
        return self.node.evaluate("(node) => node.selectedOptions[0].textContent")


class Tick(_Control):
    """A box to tick."""

    @property
    def on(self):
        """Whether it is ticked."""
        return self.node.is_checked()


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
    import ast

    return ast.literal_eval(text)
