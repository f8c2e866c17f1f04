"""Handles to what a learner sees and touches in a page: panels, their controls, and the card at the end."""

import base64
import io

import numpy as np
from PIL import Image


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

    def expect(self, picture, told):
        """Hold the panel at rest to the library: words, alternative text, what rests, pixels, and no trouble.

        Parameters
        ----------
        picture : the same picture, drawn in the test and brought to the same state
        told : what its `update` gave
        """
        assert self.alert == ""
        assert self.readout == dict(told.readout)
        assert self.alt == told.alt
        assert told.line in self.line
        assert self.tone == told.tone
        assert self.resting == {name: why for name, why in told.idle if name in self.names}
        drawn = Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB")
        assert np.array_equal(self.picture(), np.asarray(drawn))

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

    @property
    def names(self):
        """What the controls set: paths of settings, and names of extras."""
        return self.root.evaluate(
            "(root) => [...root.querySelectorAll('[data-name]')].map((node) => node.dataset.name)"
        )

    @property
    def resting(self):
        """The controls that change nothing as things stand, by what they set, and why."""
        return dict(
            self.root.evaluate(
                """(root) => [...root.querySelectorAll('[data-idle]')]
                    .filter((node) => [...node.querySelectorAll('input, select')].every((each) => each.disabled))
                    .map((node) => [node.dataset.name, node.querySelector('.splash-idle').innerText])"""
            )
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
    def rests(self):
        """Whether it is out of use, since it would change nothing."""
        return self.node.is_disabled()

    @property
    def why(self):
        """The line beside it that says why it rests."""
        return self.node.locator("xpath=..").locator(".splash-idle").inner_text()

    @property
    def text(self):
        """Its value in words, as spoken and shown."""
        spoken = self.node.get_attribute("aria-valuetext")
        shown = self.node.locator("xpath=..").locator(".splash-value").input_value()
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

    def type(self, text):
        """Type a number into its field, and press Enter."""
        field = self.node.locator("xpath=..").locator(".splash-value")
        field.focus()
        self.page.keyboard.type(text)
        self.page.keyboard.press("Enter")
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


class Card:
    """The card at a lesson's end."""

    def __init__(self, page, root):
        self.page, self.root = page, root

    @property
    def rows(self):
        """The table: decision, in the file, from this lesson."""
        return self.root.evaluate(
            """(root) => [...root.querySelectorAll('tbody tr')]
                .map((row) => [...row.children].map((cell) => cell.textContent.trim()))"""
        )

    def write(self):
        """Press the button with the keyboard, and wait for the answer."""
        self.root.get_by_role("button").focus()
        self.page.keyboard.press("Enter")
        self.page.wait_for_function(
            "(root) => [...root.querySelectorAll('[role=status], [role=alert]')].some((node) => node.innerText)",
            arg=self.root.element_handle(),
        )
        return self

    @property
    def doubt(self):
        """The panel's verdict where it warns, or ""."""
        return self.root.locator(".splash-doubt").text_content().strip()

    @property
    def said(self):
        """What was written, and where."""
        return self.root.get_by_role("status").inner_text().strip()

    @property
    def alert(self):
        """Why nothing was written, or ""."""
        return self.root.get_by_role("alert").inner_text().strip()
