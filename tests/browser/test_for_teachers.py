"""The page for teachers in a real browser: three panels by keyboard, its two questions, nothing that axe finds."""

from lessons.for_teachers import panel as built


def same(shown, panel):
    """The page says what the same panel says here."""
    assert panel.alert == ""
    assert panel.readout == dict(shown.told.readout)
    assert panel.alt == shown.told.alt


def test_three_demonstrations_by_keyboard(notebook):
    with notebook("90_for_teachers.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        here, panel = built.cameras(), page.panel(0)
        same(here, panel)
        assert panel.readout["1 Mirror down"].endswith("gone")
        panel.choice("Which delay").press("ArrowDown")
        panel.slider("Beam height").press("ArrowRight", 27)
        panel.wait()
        here.set("aim", "contact")
        here.set("beam.height", 0.255)
        same(here, panel)
        assert all(panel.readout[name].endswith("caught") for name in panel.readout if name[:2] in ("1 ", "4 "))

        here, panel = built.beams(), page.panel(1)
        panel.slider("Beam height").press("ArrowLeft", 14)
        panel.wait()
        here.set("beam.height", 0.05)
        same(here, panel)
        assert "11.7 cm" in panel.line

        here, panel = built.lights(), page.panel(2)
        panel.slider("Second head later by").press("Home")
        panel.wait()
        here.set("apart", 0.0)
        same(here, panel)

        page.panel(2).slider("Flash power").press("a").press("b").press("x")
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
