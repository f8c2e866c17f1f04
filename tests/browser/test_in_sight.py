"""Picture and handle are seen together: every handle of every panel, on small screens, by keyboard."""

import pytest

from splashlib.desk.house import notebook_name, written

# Width and height of the window that a browser leaves [CSS pixels]. With JupyterLab's own bars the first leaves 520 px
# of page; the last is a window of 1366 x 640 at 200 %.
WINDOWS = {"1366 x 768": (1366, 640), "1024 x 768": (1024, 640), "200 %": (683, 320)}
SHARE = 0.9
LOOK = """async (root) => {
    const frames = (count) => new Promise((done) => {
        const wait = (left) => (left ? requestAnimationFrame(() => wait(left - 1)) : done());
        wait(count);
    });
    const seen = (image) => new Promise((done) => {
        const watch = new IntersectionObserver(([entry]) => {
            watch.disconnect();
            done(entry.intersectionRatio);
        });
        watch.observe(image);
    });
    const image = root.querySelector('.splash-picture');
    const found = [];
    for (const handle of root.querySelectorAll('input, select, button')) {
        if (handle.matches(':disabled') || !handle.offsetParent) continue;
        handle.focus();
        await frames(3);
        found.push([handle.labels?.[0]?.textContent ?? handle.textContent, await seen(image), await seen(handle)]);
    }
    return found;
}"""


def narrow(page, size):
    """Give the window another size, and let the panels follow."""
    page.page.set_viewport_size({"width": size[0], "height": size[1]})
    page.page.wait_for_timeout(600)


@pytest.mark.parametrize("lesson", written(), ids=lambda lesson: lesson.name)
def test_every_handle_is_seen_together_with_the_picture(notebook, lesson):
    with notebook(notebook_name(lesson)) as page:
        page.run_all()
        page.page.evaluate("() => jupyterapp.shell.collapseLeft()")
        missed = []
        for number in range(panels_of(page)):
            for window, size in WINDOWS.items():
                narrow(page, size)
                panel = page.panel(number)
                found = panel.root.evaluate(LOOK)
                assert len(found) >= 4
                missed += [(window, number, *each) for each in found if min(each[1:]) < SHARE]
        assert missed == []


def panels_of(page):
    """How many cells show a panel."""
    return sum("panel" in cell["metadata"].get("tags", []) for cell in page.cells)
