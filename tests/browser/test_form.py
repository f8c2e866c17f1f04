"""The form under a question in a real browser: everything by keyboard, every word against the judge."""

import html
import re
import sqlite3

import pytest

from splashlib.classroom.judges import judge
from splashlib.classroom.questions.wording import say, show
from tests.browser.harness import notebook_of
from tests.classroom.samples import EMPTY_FRAME, IN_TIME, TIME, TIME_FORMULA

CELLS = (
    "from tests.classroom.samples import sample_exercises\nexercises = sample_exercises()",
    'exercises.predict("empty frame")',
    'exercises.ask("time")',
    'exercises.ask("empty frame")',
    'exercises.ask("time formula")',
    'exercises.ask("in time")',
    'exercises.ask("lead")',
    'exercises.look_back("empty frame")',
    ("markdown", "## Why\n\n" + "A line of prose.\n\n" * 80),
    'exercises.check("time", 1, "s")',
)
PREDICT, NUMBER, CHOICE, FORMULA, SETTINGS, LEAD = range(6)


@pytest.fixture(scope="module")
def page(browser, server):
    """One notebook with a form of each kind, high enough that all of them are in the window."""
    from tests.browser.harness import NotebookPage

    with NotebookPage(browser, server, notebook_of(*CELLS), width=1200, height=3000) as opened:
        opened.run_all()
        opened.page.locator(".sl-form").nth(6).wait_for()
        # The last cell answers in code, and the form above shows that answer too: not while a test is at work there.
        opened.page.locator(".jp-OutputArea-output:not(:has(.sl-form)) a", has_text="Why").first.wait_for()
        opened.wait_idle()
        yield opened


class Form:
    """One form, as a learner without a mouse has it."""

    def __init__(self, page, number):
        self.page = page.page
        self.root = self.page.locator(".sl-form").nth(number)

    def keys(self, *keys):
        for key in keys:
            self.page.keyboard.press(key)
        return self

    def answered(self):
        """Wait until Python has answered."""
        self.page.wait_for_function("(root) => root.dataset.phase === 'rest'", arg=self.root.element_handle())
        return self

    def press(self, label):
        """Press a button with the keyboard."""
        self.root.get_by_role("button", name=label, exact=True).focus()
        return self.keys("Enter").answered()

    @property
    def reply(self):
        return self.root.get_by_role("status").inner_text().strip()

    @property
    def helps(self):
        return self.root.locator(".sl-helped > .sl-reply").all_inner_texts()

    @property
    def prompt(self):
        return self.root.locator(".sl-prompt").inner_text().strip()


def plain(markdown):
    """Markdown as it reads on the page."""
    return re.sub(r"\s+", " ", markdown.replace("**", "").replace("`", "")).strip()


def told(form):
    return re.sub(r"\s+", " ", form.reply)


def test_a_number_is_typed_checked_and_corrected(page):
    form = Form(page, NUMBER)
    v = judge.numbers(TIME)
    assert form.prompt == plain(say(TIME.prompt, v))
    form.root.get_by_label("Your answer").focus()
    form.page.keyboard.type(show(2 * v.height_cm / 100 / 9.81, "s"))
    form.keys("Enter").answered()
    assert told(form) == plain(str(judge.judge(TIME, show(2 * v.height_cm / 100 / 9.81, "s"))))
    assert "Take the root" in form.reply
    assert form.root.get_by_label("Your answer").evaluate("(node) => node === document.activeElement")
    form.keys("Control+a")
    form.page.keyboard.type(show(TIME.answer(v), "ms").split()[0])
    form.keys("Tab")
    form.page.keyboard.type("ms")
    assert form.root.get_by_label("Unit").input_value() == "ms"
    form.keys("Tab", "Enter").answered()
    assert form.reply.startswith("✓ Right.")
    assert TIME.meaning in form.reply
    assert form.root.get_attribute("data-outcome") == "right"


def test_hints_solution_and_new_numbers(page):
    form = Form(page, NUMBER)
    form.press("Hint").press("Hint").press("Hint")
    form.press("Worked solution")
    values = judge.numbers(TIME, 1)
    expected = [f"Hint 1 of 2. {TIME.hints[0]}", f"Hint 2 of 2. {TIME.hints[1]}"]
    expected.append("There are no more hints. Worked solution shows the whole way.")
    assert [plain(text) for text in form.helps] == [*expected, f"Worked solution. {TIME.worked(values)}"]
    form.press("New numbers")
    form.page.wait_for_function("(root) => !root.querySelector('.sl-helped > *')", arg=form.root.element_handle())
    assert form.prompt == plain(say(TIME.prompt, judge.numbers(TIME, 2)))
    assert "numbers no. 2" in form.root.inner_text()
    assert form.root.get_by_label("Your answer").input_value() == ""
    # The focus stays on the button that was pressed, although the question was built anew.
    assert form.page.evaluate("() => document.activeElement.textContent") == "New numbers"
    assert page.python("exercises.variant('time')") == 2


@pytest.mark.parametrize("place", [".sl-said", ".jp-OutputArea-output:not(:has(.sl-form))"], ids=["form", "cell"])
def test_look_again_leads_to_the_heading(page, place):
    """By keyboard, from the form and from the output of a cell below the heading."""
    form = Form(page, NUMBER)
    # Whatever test was here before: a unit may be chosen already.
    form.root.get_by_label("Unit").select_option("s")
    form.root.get_by_label("Your answer").fill("1")
    form.press("Check")
    link = page.page.locator(f"{place} a", has_text="Why").first
    link.focus()
    form.keys("Enter")
    page.page.wait_for_function("() => document.activeElement.textContent.startsWith('Why')")
    assert page.page.evaluate("() => document.activeElement.tagName") == "H2"
    box = page.page.locator("h2", has_text="Why").bounding_box()
    assert 0 <= box["y"] < page.page.viewport_size["height"]


def test_a_choice_by_arrow_keys(page):
    form = Form(page, CHOICE)
    letters = [option.key for option in judge.kind_of(EMPTY_FRAME).order(EMPTY_FRAME, 1)]
    form.root.locator("input[type=radio]").first.focus()
    form.keys("Space")
    for key in letters:
        form.press("Check")
        assert told(form) == plain(str(judge.judge(EMPTY_FRAME, key)))
        form.root.locator("input:checked").focus()
        form.keys("ArrowDown")


def test_a_formula(page):
    form = Form(page, FORMULA)
    form.root.get_by_label("t =").focus()
    for text in ("sqrt(2h/g)", "sqrt(h/g)", "sqrt(2*h/g)"):
        form.keys("Control+a")
        form.page.keyboard.type(text)
        form.keys("Enter").answered()
        assert told(form) == plain(str(judge.judge(TIME_FORMULA, text)))
    assert form.reply.startswith("✓ Right.")


def test_settings(page):
    form = Form(page, SETTINGS)
    form.press("Check")
    assert form.reply.startswith("○ Not answered yet.")
    field = form.root.get_by_label("beam height")
    for text in ("12", "30 cm"):
        field.focus()
        form.keys("Control+a")
        form.page.keyboard.type(text)
        form.keys("Enter").answered()
        expected = str(judge.judge(IN_TIME, {"beam.height": text}))
        assert told(form) == re.sub(r"\s+", " ", expected.replace("- ", ""))
    assert form.reply.startswith("✓ Right.")


def test_a_prediction_is_noted_and_shown_again_at_once(page):
    form, back = Form(page, PREDICT), Form(page, LEAD + 1)
    assert "no prediction" in back.reply
    assert not back.root.get_by_text("timing comes first").is_visible()
    form.root.get_by_label("The flash was too weak").focus()
    form.keys("Space")
    form.press("Note my prediction")
    assert "You think: The flash was too weak" in form.reply
    back.root.get_by_text("You thought").wait_for()
    assert "dark as well" in back.reply
    assert back.root.get_by_text("timing comes first").is_visible()


def test_plain_keys_stay_in_the_form(page):
    form, cells = Form(page, NUMBER), len(page.cells)
    field = form.root.get_by_label("Your answer")
    field.focus()
    form.keys("Control+a")
    form.page.keyboard.type("abxddm0")
    form.keys("ArrowUp", "ArrowDown", "Home", "End")
    assert field.input_value() == "abxddm0"
    form.root.get_by_role("button", name="Hint").focus()
    form.keys("a", "b", "d", "d", "x", "ArrowDown")
    form.answered()
    assert len(page.cells) == cells
    assert not page.errors


def test_what_is_typed_is_never_markup(page):
    form = Form(page, NUMBER)
    form.root.get_by_label("Your answer").focus()
    form.keys("Control+a")
    form.page.keyboard.type("<img src=x onerror='window.sung=1'>")
    form.keys("Enter").answered()
    assert "<img src=x" in form.reply
    assert form.root.locator(".sl-said img").count() == 0
    assert form.page.evaluate("() => window.sung") is None


def test_names_roles_and_axe(page):
    form = Form(page, NUMBER)
    names = form.root.evaluate(
        """(root) => [...root.querySelectorAll('input, select, button')].map((node) =>
               [node.tagName.toLowerCase(), node.labels?.[0]?.textContent || node.ariaLabel || node.textContent])"""
    )
    assert names == [
        ["input", "Your answer"],
        ["select", "Unit"],
        *(["button", words] for words in ("Check", "Hint", "Worked solution", "New numbers")),
    ]
    assert page.axe() == []
    assert page.complaints == []


def test_the_letter_of_an_option_stays_on_one_line_in_a_narrow_window(page):
    wide = page.page.viewport_size
    page.page.set_viewport_size({"width": 640, "height": wide["height"]})
    letters = page.page.locator(".sl-option > span:first-of-type")
    tall = letters.evaluate_all(
        "(all) => all.map((each) => each.offsetHeight / parseFloat(getComputedStyle(each).fontSize))"
    )
    page.page.set_viewport_size(wide)
    assert len(tall) > 4
    assert max(tall) < 2


def test_the_answers_are_in_the_learners_file(page):
    connection = sqlite3.connect(page.home / "my_progress.sqlite")
    rows = connection.execute("SELECT question, act, outcome, answer FROM attempts ORDER BY id").fetchall()
    connection.close()
    assert ("time formula", "answer", "right", '{"text": "sqrt(2*h/g)"}') in rows
    assert {act for _, act, _, _ in rows} == {"answer", "hint", "worked", "prediction", "fresh"}


def test_the_saved_notebook_shows_the_questions(page):
    saved = page.save()
    texts = [
        re.sub(r"<[^>]+>", "", output["data"]["text/html"])
        for cell in saved.cells
        for output in cell.get("outputs", [])
        if "data-splash-still" in output.get("data", {}).get("text/html", "")
    ]
    assert len(texts) == 7
    # On the live page nothing of it is seen twice.
    assert page.page.locator("[data-splash-still]").count() == 7
    assert not any(still.is_visible() for still in page.page.locator("[data-splash-still]").all())
    assert plain(say(TIME.prompt, judge.numbers(TIME))) in html.unescape(texts[1])


def test_a_stopped_kernel_is_told(page):
    form = Form(page, FORMULA)
    page.restart()
    form.root.get_by_role("alert").filter(has_text="Run the notebook again").wait_for()
    assert form.root.get_by_role("button", name="Check").is_disabled()
