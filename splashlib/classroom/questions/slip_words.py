"""What each known slip means, in words that a teacher reads without the lesson open.

The names are short and stay, since progress is counted by them; the options of a choice speak for themselves.
"""

SLIP_WORDS = {
    # units and arithmetic
    "thousandfold": "right digits, a thousand times too large",
    "thousandth": "right digits, a thousand times too small",
    "hundredfold": "right digits, a hundred times too large",
    "hundredth": "right digits, a hundred times too small",
    "tenfold": "right digits, ten times too large",
    "half": "half of the right number",
    "double": "twice the right number",
    "wrong sign": "right size, wrong sign",
    "turned round": "divided the wrong way round",
    "wrong way": "went the wrong way: farther instead of nearer",
    "multiplied for divided": "multiplied instead of divided",
    "divided for multiplied": "divided instead of multiplied",
    "added": "added two times that run side by side",
    "centimetres for metres": "put centimetres where metres belong",
    "in centimetres": "gave centimetres where metres were asked for",
    "per cent without its sign": "left out the % sign",
    "no root": "forgot the square root",
    "lost two": "lost a factor of 2",
    "lost square": "forgot to square",
    "root for square": "took the root instead of the square",
    "square for root": "squared instead of taking the root",
    "one not subtracted": "forgot to subtract one at the end",
    "factor forgotten": "left out the measured number 1.73",
    "diameter for radius": "took the diameter for the radius",
    "law with letters swapped": "put the letters into the law in each other's place",
    # the fall
    "from the hand": "counted from the hand instead of the beam",
    "from rest": "let the body start from rest at the beam",
    "down to the beam": "gave the fall from the hand to the beam",
    "whole fall": "gave the whole fall instead of the difference",
    "fall alone": "gave the fall to the beam alone",
    "mean for final": "took the mean speed for the speed at the water",
    "at full speed": "took the speed at the water for the whole way",
    "final speed all the way": "took the speed at the water for the whole way",
    "sign of gravity": "added what gravity does instead of taking it away",
    "time for height": "gave a time instead of a height",
    "speed for height": "raised the height as much as the speed",
    # beam and camera
    "hand for picture": "took the hand's error for that in the picture",
    "height for fall": "took the beam's height for the fall down to it",
    "lag forgotten": "forgot the lag",
    "lag added": "added the lag instead of taking it away",
    "lag alone": "gave the lag without the way of the fruit",
    "one lag alone": "looked at one head's lag only",
    "lead forgotten": "forgot the way from the beam to the water",
    "delay forgotten": "raised the beam and left the delay at zero",
    "delay to repair lateness": "set a delay although the light is too late already",
    "delay for the old beam": "moved the beam and kept the old delay",
    "open shutter without delay": "held the shutter open and set no delay",
    "beam the wrong way": "lowered the beam, which leaves less time",
    "beam under the hand": "left the beam right under the hand",
    "beam in the frame": "put the beam so low that it is in the picture",
    "rest for part": "gave the other part of the whole",
    "part for rest": "gave the part that has passed instead of the rest",
    "share of the wrong whole": "took the share of the wrong whole",
    # the water
    "drops alone": "waited for the drops only, and forgot the open shutter",
    "deaf for the drops alone": "waited for the drops only, and forgot the open shutter",
    "clock from the contact": "counted the delay from the contact instead of the beam",
    # light
    "marks not steps": "counted the marks on the dial instead of the steps",
    "marks for steps": "counted the values instead of the steps between them",
    "ratio for stops": "gave how many times, instead of how many stops",
    "tens for stops": "counted factors of ten instead of two",
    "stops as a factor": "divided by the number of stops instead of halving",
    "heads for stops": "counted a stop for each further head",
    "other logarithm": "took the natural logarithm",
    "tenfold logarithm": "took the logarithm to base 10",
    "debts added": "counted the higher ISO as a loss",
    "time forgotten": "forgot how long the shutter is open",
    "faster than sync": "set a shutter faster than the sync speed",
    "ISO to part them": "changed the ISO, which flash and room share",
    "full power": "left the flash near full power",
    "t0.5 for t0.1": "used t0.5 instead of t0.1",
    "fall taken as straight": "let the light fade along a straight line",
    "one pixel": "gave the time for one pixel",
    "whole frame": "gave the time for the whole frame",
    "high-speed sync freezes": "took high-speed sync for a short flash",
    "kind mistaken": "took a voltage-controlled head for one that gets shorter",
    "not paid for": "made the flash shorter and forgot the light",
    "into the spray": "moved the lamp into the spray",
    "iso pays": "paid with the ISO, which lets the room in",
    "aperture pays": "paid with the aperture, which lets the room in",
    # the class
    "one set alone": "counted one set instead of all",
    "per minute": "gave the number for a minute",
}


def in_words(question, slip):
    """A slip as it is said: what was chosen, where the question is a choice, else its words, or its name.

    Parameters: question, one of the five kinds; slip, the name that was kept.
    """
    for option in getattr(question, "options", ()):
        if option.key == slip and isinstance(option.text, str):
            return f"chose “{option.text.replace('*', '')}”"
    return SLIP_WORDS.get(slip, str(slip).replace("_", " "))
