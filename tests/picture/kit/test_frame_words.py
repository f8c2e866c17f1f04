"""The judgement in words: what spoils a frame comes before where the body is, and no frame is praised in vain."""

import re

import pytest

from splashlib.picture.kit.frame_words import HIDES, TONES, WORDS, fault, verdict
from splashlib.picture.photo.photograph import described
from splashlib.picture.start.start_picture import StartPicture
from splashlib.shoot import change
from splashlib.shoot.decide.judgement import FAULTS, judge
from tests.shoot.decide.test_judgement import CASES, SCENE, at


@pytest.mark.parametrize("name", CASES)
def test_a_fault_is_said_first_or_with_the_body(name):
    tone, line = verdict(judge(CASES[name]))
    assert tone == TONES[name]
    assert ("Caught" in line) == (name not in HIDES)
    if name:
        said = fault(judge(CASES[name]))
        assert said[1:] in line
        assert re.fullmatch(r"[A-Z ]+", WORDS[name])


def test_every_fault_has_a_tone_a_word_and_a_sentence():
    assert set(FAULTS) == set(WORDS) == set(TONES) - {""} == set(CASES) - {""}


def test_a_frame_that_the_room_drowns_is_neither_caught_nor_well_exposed():
    told = StartPicture().update(at(room__lux=500.0))
    assert told.tone == "bad"
    assert told.line == "The room drowns the flash: its light is 4.1 stops stronger."
    assert dict(told.readout)["The frame is"] == "burnt out"
    assert "drowns the flash" in told.alt
    assert "well exposed" not in told.alt


def test_a_merged_drop_is_gone_in_the_verdict_as_in_the_photograph():
    milk = change(CASES["no_flash"], "beam.width", 0.003)
    late = change(milk, "trigger.delay", 0.06)
    assert verdict(judge(late))[1].startswith("Too late. The drop of milk met the water")
    assert "no drop of milk" in described(late)


def test_a_room_that_is_plain_to_see_is_said_beside_the_catch():
    tone, line = verdict(judge(at(room__lux=10.0)))
    assert tone == "warning"
    assert line.endswith("But the room is plain to see: it lies only 1.5 stops under the flash.")
    assert verdict(judge(at(room__lux=0.1)))[0] == "good"


def test_a_body_behind_the_curtain_is_not_caught():
    tone, line = verdict(judge(CASES["covered"]))
    assert (tone, "Caught" in line) == ("bad", False)
    assert "behind the curtain" in described(CASES["covered"])
    assert SCENE.drop.name in line
