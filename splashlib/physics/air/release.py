"""What the beam leaves of a release that is too high or too low."""

import numpy as np

from splashlib.physics.checks import between, plain, positive


def hand_in_picture(release_height, *, beam_height, height=0.0):
    """How far the body is moved in the picture, for each bit that the hand is too high.

    Parameters
    ----------
    release_height : float or array
        Height of the lowest point in the hand [m], above 0.
    beam_height : float or array
        Height of the beam [m], at least 0 and below the hand.
    height : float or array
        Height of the lowest point in the picture [m], at least 0 and at most the beam's.

    Returns
    -------
    float or ndarray
        A pure number: metres downwards in the picture per metre upwards at the hand.

    Notes
    -----
    k = sqrt((h - y)/(h - b)) - 1 with the release height h, the beam's height b and the picture's height y.
    A body from higher up passes the beam faster, so it is lower when the light comes, a set time later. Counted
    from the hand instead, the body would simply be 1 higher; the beam takes that 1 away and leaves k. Near the
    water k is about (b - y)/2h.
    First order in the error d of the hand: the next term is smaller by about d/4(h - b), 4 % for 3 mm with the
    beam 2 cm under the hand. The air is neglected: 1 % for a fruit, 6 % for a 5 mm drop, over half a metre.

    Sources
    -------
    The derivative of t(h) = sqrt(2(h - y)/g) - sqrt(2(h - b)/g) by h is 1/v(y) - 1/v(b), with v from free fall;
    times the speed v(y).
    """
    release_height = positive("release_height", release_height, "m")
    beam_height = between("beam_height", beam_height, 0.0, np.min(release_height), "m", open_high=True)
    height = between("height", height, 0.0, np.min(beam_height), "m")
    return plain(np.sqrt((release_height - height) / (release_height - beam_height)) - 1)
