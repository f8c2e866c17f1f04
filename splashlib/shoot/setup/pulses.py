"""The light pulse of each flash head of a set-up."""

import math
from functools import lru_cache

from splashlib.physics.pulse import head_pulse


@lru_cache(maxsize=256)
def pulse_of(head):
    """Return the light pulse of a flash head at its power.

    Parameters
    ----------
    head : Flash

    Returns
    -------
    physics.pulse.Pulse
    """
    return head_pulse(head.kind, power=head.power, full_t05=head.full_t05, rise=head.rise, tail=head.tail)


@lru_cache(maxsize=256)
def pulse_times(head):
    """When the light of a head peaks, when half of it is out, and when it has faded to a tenth of its peak.

    Parameters
    ----------
    head : Flash

    Returns
    -------
    tuple of float
        Times after the start of the pulse [s].
    """
    pulse = pulse_of(head)
    ramp = min(getattr(pulse, "rise", 0.0), getattr(pulse, "cut", math.inf))
    # The rise is straight: a tenth of the peak is reached after a tenth of it, and t0.1 begins there.
    return ramp, pulse.half_energy, 0.1 * ramp + pulse.t01
