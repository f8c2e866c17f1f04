"""Reading formulas without running anything of them, and comparing them as mathematics."""

import builtins
import os
import random
import re
import subprocess
import sys
import time
import tokenize

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from lessons.fall.exercises import HEIGHT
from splashlib.classroom import read_formula
from splashlib.classroom.formulas.expression import FUNCTIONS, evaluate, parse
from splashlib.classroom.judges.judge import judge
from splashlib.classroom.questions.question_kinds import Formula, Slip
from tests.classroom.samples import TIME_FORMULA

H, G = sympy.symbols("h g")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("sqrt(2*h/g)", sympy.sqrt(2 * H / G)),
        ("√(2·h/g)", sympy.sqrt(2 * H / G)),
        ("(2*h/g)^(1/2)", sympy.sqrt(2 * H / G)),
        ("(2*h/g)**0.5", sympy.sqrt(2 * H / G)),
        ("½·g·h²", G * H**2 / 2),
        ("-h^2", -(H**2)),
        ("2^-h", 2**-H),
        ("h^g^2", H ** (G**2)),  # a tower is read from the right
        ("h - g - 1", H - G - 1),
        ("h / g / 2", H / G / 2),
        ("9.81*h", sympy.Rational(981, 100) * H),
        ("1e-3 * h", H / 1000),
        ("log(h) + ln(h)", 2 * sympy.log(H)),
        ("log2(8)", sympy.Integer(3)),
        ("log10(1000)", sympy.Integer(3)),
        ("sin(pi/6) + cos(0)", sympy.Rational(3, 2)),
        ("abs(-3)", sympy.Integer(3)),
        ("exp(0)*h", H),
        (" h ", H),
        ("+h", H),
        ("((((h))))", H),
        # products without a sign: close together they hold tighter than a division before them
        ("h^2/(2g)", H**2 / (2 * G)),
        ("h²/2g", H**2 / (2 * G)),
        ("h^2/2g", H**2 / (2 * G)),
        ("½ h²/g", H**2 / (2 * G)),
        ("½h²/g", H**2 / (2 * G)),
        ("0,5*h^2/g", H**2 / (2 * G)),
        ("h²/gh", H / G),
        ("h²/2g²", H**2 / (2 * G**2)),
        ("h/2(g+1)", H / (2 * (G + 1))),
        ("2h", 2 * H),
        ("2(h)", 2 * H),
        ("(h)(g)", G * H),
        ("h g", G * H),
        ("h(g)", G * H),
        ("h²g", G * H**2),
        ("-2gh", -2 * G * H),
        ("2 sqrt(h)", 2 * sympy.sqrt(H)),
        ("√(2gh)", sympy.sqrt(2 * G * H)),
        ("√2·h", sympy.sqrt(2) * H),
        ("√h", sympy.sqrt(H)),
        ("h/√2^g", H / sympy.sqrt(2) ** G),
        ("2^(g/2)h", 2 ** (G / 2) * H),
        ("h⁻²", H**-2),
        ("¾π", 3 * sympy.pi / 4),
    ],
)
def test_reads(text, expected):
    assert sympy.simplify(read_formula(text, symbols="h g") - expected) == 0


def test_symbols_may_be_names_or_symbols_of_ones_own():
    h = sympy.Symbol("h", positive=True)
    assert read_formula("sqrt(h^2)", symbols=[h]) == h
    assert read_formula("2*x", symbols={"x": h}) == 2 * h
    assert read_formula("a+b", symbols=("a", "b")) == sympy.Symbol("a") + sympy.Symbol("b")
    assert read_formula("lambda*2", symbols=["lambda"]) == 2 * sympy.Symbol("lambda")
    assert read_formula("v0 + v1", symbols=["v1", "v0"]) == sympy.Symbol("v0") + sympy.Symbol("v1")


REFUSED = {
    "10^10^10": "power",
    "h^10^10": "power",
    "9**9**9**9": "power",
    "((h+g)^50)^50": "power",
    "2^(2^(2^(2^(2^2))))": "power",
    "exp(exp(exp(exp(10))))": "too large",
    "1e30*1e30*10": "too large",
    "(0.12345678^50)^50": "digits",
    "1e400": "larger",
    "1e99999999999999": "larger",
    "12345678901234567890": "longer",
    "(" * 31 + "h" + ")" * 31: "nested",
    "-" * 140 + "h": "nested",
    "+".join("h" * 140): "parts",
    "h+" * 200 + "h": "characters",
    "1/0": "zero",
    "1/(h-h)": "zero",
    "0^-1": "zero",
    "log(0)": "zero",
    "2 3": "\\*",
    "2½": "\\*",
    "h 2": "\\*",
    "1/2g": r"1/2g can be read in two ways; write \(1/2\)\*g or 1/\(2\*g\)",
    "1/2 h^2/g": r"\(1/2\)\*h\^2 or 1/\(2\*h\^2\)",
    "h^2/2 g": "two ways",
    "h^2/-2g": "two ways",
    "h^2/(2)g)": "too many",
    "2^2h": r"2\^2\*h or 2\^\(2\*h\)",
    "h^2g": r"h\^2\*g or h\^\(2\*g\)",
    "1,234*h": "1.234 or 1234",
    "√2gh": "brackets",
    "h2/g": r"write h\^2",
    "h x g": r"write \*",
    "1..5": "\\*",
    "sqrt": "brackets",
    "sqrt h": "brackets",
    "sqrt()": "one value|missing",
    "sqrt(h, g)": "one value",
    "(h": "never closed",
    "h)": "too many",
    "h +": "missing",
    "* h": "missing",
    "h // g": "missing",
    "h ** * g": "missing",
    "": "no formula",
    " \n ": "no formula",
    "h, g": "only numbers",
    "h = g": "right of",
    "h == g": "right of",
    "h.__class__": "no meaning",
    "h.real": "no meaning",
    "().__class__": "no meaning|missing|only numbers",
    "__import__('os').system('true')": "do not know",
    "exec('1')": "do not know",
    "lambda: 1": "do not know",
    "f(h)": "do not know",
    "h if g else h": "do not know",
    "h and g": "do not know",
    "not h": "do not know",
    "[h]": "no meaning",
    "{h}": "no meaning",
    "'h'": "no meaning",
    '"h"': "no meaning",
    "h[0]": "no meaning",
    "h @ g": "no meaning",
    "h % g": "no meaning",
    "~h": "no meaning",
    "h | g": "no meaning",
    "h < g": "no meaning",
    "h ; g": "no meaning",
    "h # g": "no meaning",
    "h \\ g": "no meaning",
    "h := 2": "no meaning",
    "(yield)": "do not know",
    "await h": "do not know",
    "*h": "missing",
    "h!": "no meaning",
    "0x10": "do not know",
    "0b1": "do not know",
    "1_000": "do not know",
    "1j": "do not know",
    "h\x00": "no meaning",
    "h\u200b": "no meaning",
    "h\u202e": "no meaning",
    "\ud800": "no meaning",
    "һ": "cyrillic",  # looks like h
    "ｈ": "fullwidth",
    "𝐡": "mathematical",
    "ℎ": "planck",
    "ɡ": "latin small letter script g",
    "еxp(h)": "cyrillic",
    "²": "missing",
    "🍊": "no meaning",
    "١": "no meaning",
}


@pytest.mark.parametrize("text", REFUSED)
def test_refuses_in_one_plain_line_and_at_once(text):
    began = time.perf_counter()
    with pytest.raises(ValueError, match=REFUSED[text]) as caught:
        read_formula(text, symbols="h g")
    # A loose bound against towers and floods: reading is a matter of a millisecond.
    assert time.perf_counter() - began < 0.2
    line = str(caught.value)
    assert "\n" not in line
    assert len(line) < 150


@pytest.mark.parametrize("thing", [None, 3, 2.5, b"h", ["h"], sympy.Symbol("h"), object()])
def test_refuses_what_is_no_text(thing):
    with pytest.raises(ValueError, match="text"):
        read_formula(thing, symbols="h g")


# ---- nothing that was typed is ever run

PIECES = [
    *"hg0123456789.,+-*/^()[]{}=<>!~@%&|;:'\"\\#_ \n\t",
    *(
        "**",
        "//",
        "sqrt(",
        "exp(",
        "log2(",
        "pi",
        "__import__",
        "os",
        ".system",
        "lambda ",
        " if ",
        " else ",
        "h.",
        "()",
    ),
    *(
        "__class__",
        "__globals__",
        "eval(",
        "exec(",
        "open(",
        "getattr(",
        "print(",
        "1e9",
        "10^10",
        "ｅｖａｌ",
        "һ",
        "½",
        "√(",
        "²",
    ),
    *("def f():", "import os", "raise ", "True", "None", "Symbol(", "S(", "f'{", "\\N{", "\x00", "\u2028", "🍊"),
]
WATCHED = ("exec", "open", "import", "os.system", "os.exec", "subprocess.Popen", "socket.connect", "shutil.rmtree")


class Canary:
    """Sings when Python runs, opens or imports something. Such a hook can never be taken away, so it has a switch."""

    def __init__(self):
        self.on, self.sung = False, []
        sys.addaudithook(self.hear)

    def hear(self, event, given):
        if self.on and event in WATCHED:
            self.sung.append((event, str(given)[:80]))

    def listen(self, text):
        """What is heard while a formula is read, and what reading it gives."""
        self.on, self.sung = True, []
        try:
            return read_formula(text, symbols="h g"), ""
        except ValueError as error:
            return None, str(error)
        finally:
            self.on = False


CANARY = Canary()


def test_the_canary_can_sing():
    CANARY.on, CANARY.sung = True, []
    eval("1 + 1")
    CANARY.on = False
    assert [event for event, _ in CANARY.sung] == ["exec"]


@settings(deadline=None, max_examples=4000)
@given(
    st.one_of(
        st.lists(st.sampled_from(PIECES), max_size=25).map("".join),
        st.text(max_size=60),
        st.text(alphabet="hg()+-*/^0123456789. ", max_size=60),
    )
)
def test_thousands_of_malformed_texts_run_nothing(text):
    read, line = CANARY.listen(text)
    if CANARY.sung:  # once, sympy may load a part of itself; what a text runs, it runs every time
        read, line = CANARY.listen(text)
    assert not CANARY.sung
    if read is None:
        assert len(line) < 200
        assert "\n" not in line
    else:
        assert read.free_symbols <= {H, G}
        assert isinstance(read, sympy.Expr)


def test_a_canary_file_is_never_touched(tmp_path):
    """The same from outside: attempts to run code, in a process of its own whose every file access is watched."""
    canary = tmp_path / "sang"
    attacks = [
        f"__import__('os').system('touch {canary}')",
        f"open('{canary}', 'w')",
        f"exec(\"open('{canary}','w')\")",
        f"(lambda: open('{canary}','w'))()",
        f"[open('{canary}','w') for h in [1]]",
        f"h.__class__.__base__.__subclasses__()[0]('{canary}')",
        f"sqrt(open('{canary}','w'))",
        f"ｏｐｅｎ('{canary}','w')",
        f"f\"{{open('{canary}','w')}}\"",
        f"h\nopen('{canary}','w')",
        f"h;open('{canary}','w')",
    ]
    code = (
        "import sys\n"
        "from splashlib.classroom import read_formula\n"
        "read_formula('h', symbols='h g')\n"  # everything that reading needs is loaded
        "ran = []\n"
        "watched = ('open', 'exec', 'os.system', 'subprocess.Popen', 'import', 'socket.connect')\n"
        "sys.addaudithook(lambda event, args: ran.append((event, str(args)[:99])) if event in watched else None)\n"
        f"for text in {attacks!r}:\n"
        "    try:\n"
        "        read_formula(text, symbols='h g')\n"
        "        sys.exit('was read: ' + text)\n"
        "    except ValueError:\n"
        "        pass\n"
        "sys.exit(str(ran) if ran else 0)\n"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=os.environ, timeout=120)
    assert ran.returncode == 0, ran.stderr
    assert not canary.exists()


def test_the_whitelist_is_what_it_says():
    for name in FUNCTIONS:
        read_formula(f"{name}(h)", symbols="h")
    for name in dir(builtins):
        if name not in FUNCTIONS and name.isidentifier() and tokenize.EXACT_TOKEN_TYPES.get(name) is None:
            with pytest.raises(ValueError, match="do not know"):
                read_formula(f"{name}(h)", symbols="h")


@settings(deadline=None, max_examples=300)
@given(st.integers(0, 10**9))
def test_numbers_and_algebra_read_alike(seed):
    """Two independent ways from the text: our floats, and sympy's numbers."""
    rng = random.Random(seed)

    def grow(depth):
        if depth == 0 or rng.random() < 0.2:
            return rng.choice(["h", "g", str(rng.randint(1, 9)), f"{rng.randint(1, 99) / 10}"])
        kind = rng.choice("+-*/^f")
        if kind == "f":
            return f"{rng.choice(['sqrt', 'sin', 'abs', 'atan', 'ln'])}({grow(depth - 1)})"
        right = rng.choice(["2", "3", "0.5", "-1"]) if kind == "^" else grow(depth - 1)
        return f"({grow(depth - 1)}){kind}({right})"

    text = grow(3)
    try:
        formula = parse(text, ("h", "g"))
    except ValueError as refused:  # a number in it cannot be, such as ln(5-5)
        with pytest.raises(ValueError, match=re.escape(str(refused))):
            read_formula(text, symbols=(H, G))
        return
    ours = evaluate(formula, {"h": 0.7, "g": 1.9})
    try:
        theirs = complex(read_formula(text, symbols=(H, G)).subs({H: 0.7, G: 1.9}).evalf())
    except (ValueError, TypeError, ZeroDivisionError):
        return
    if ours == ours and abs(ours) < 1e12 and theirs == theirs:
        assert theirs == pytest.approx(ours, rel=1e-6, abs=1e-9)


# ---- judged as mathematics


@pytest.mark.parametrize(
    "text",
    [
        "sqrt(2*h/g)",
        "sqrt(2*h)/sqrt(g)",
        "(2*h/g)^0.5",
        "sqrt(8*h/g)/2",
        "2*h/sqrt(2*g*h)",
        "t = sqrt(2*h/g)",
        "exp(0.5*ln(2*h/g))",
    ],
)
def test_any_way_of_writing_it_is_right(text):
    assert judge(TIME_FORMULA, text).right


@pytest.mark.parametrize(
    ("text", "outcome", "slip"),
    [
        ("2*h/g", "slip", "no root"),
        ("h/g*2 + 0*h", "slip", "no root"),
        ("sqrt(h)/sqrt(g)", "slip", "half"),
        ("sqrt(2*g*h)", "slip", "speed"),
        ("sqrt(2*h/g) + 1e-6", "wrong|high", ""),
        ("sqrt(2.01*h/g)", "high", ""),
        ("sqrt(1.9*h/g)", "low", ""),
        ("sqrt(h - g)", "wrong", ""),
        ("0.303", "wrong_kind", ""),
        (0.303, "wrong_kind", ""),
        (["h"], "wrong_kind", ""),
        ("x = sqrt(2*h/g)", "unreadable", ""),
        ("...", "not_attempted", ""),
    ],
)
def test_other_formulas(text, outcome, slip):
    reply = judge(TIME_FORMULA, text)
    assert reply.outcome in outcome.split("|")
    assert reply.slip == slip
    assert "sqrt(2*h/g)" not in reply.text.replace(str(text), "")


def test_a_sympy_expression_is_taken_as_well():
    assert judge(TIME_FORMULA, sympy.sqrt(2 * H / G)).right


def test_fractions_see_what_rounded_numbers_are_too_coarse_for():
    question = Formula(
        name="x", prompt="", symbols={"h": ""}, answer="h^2 + h", slips=(Slip(name="s", value="h", reply=""),)
    )
    assert judge(question, "h*(h+1)").right
    assert not judge(question, "h*(h+1) + 1e-12").right


def test_rounded_decimals_stand_for_what_they_round_to():
    """The lesson says 0.71 for 1/sqrt(2); a shorter number, a wrong one, and one of one digit are not taken."""
    question = Formula(
        name="x",
        prompt="",
        symbols={"d": "", "n": ""},
        domain={"d": (0.2, 2), "n": (0.5, 4)},
        answer="d/2^(n/2)",
        slips=(Slip(name="lost square", value="d/2^n", reply=""),),
    )
    for text in ("d*0.71^n", "d/1.41^n", "0.7071^n d", "d/√2^n", "d/2^(0.50n)"):
        assert judge(question, text).right, text
    for text in ("d*0.7^n", "d/1.4^n", "d*0.72^n", "d/1.5^n", "d/1.42^n", "d*0.71", "d/0.71^n"):
        assert not judge(question, text).right, text
    assert judge(question, "d*0.50^n").slip == "lost square"


def test_gravity_may_stand_as_its_number():
    """Gravity is not drawn at random: 19.62 is 2g here, and on this earth nowhere 2 times 9.7."""
    for text in ("v^2/(2g)", "v²/2g", "½ v²/g", "0,5*v^2/g", "v^2/19.62", "v^2/(2*9.81)", "v^2/19.6", "v²/(2·9,8)"):
        assert judge(HEIGHT, text).right, text
    assert judge(HEIGHT, "v^2/9.81").slip == "lost two"
    for text in ("v^2/(2*9.7)", "v^2/20", "v^2/19.4"):
        assert not judge(HEIGHT, text).right, text


FOREVER = ("{}+0*abs(exp(sqrt(asin(2)))+sin(sqrt(acos(5))))", "{}*abs(asin(2)+acos(3)^pi)^0")


@pytest.mark.parametrize("template", FOREVER)
def test_what_algebra_never_finishes_is_judged_by_numbers(template):
    began = time.perf_counter()
    assert judge(TIME_FORMULA, template.format("sqrt(2*h/g)")).right
    assert not judge(TIME_FORMULA, template.format("sqrt(3*h/g)")).right
    assert time.perf_counter() - began < 0.2
    assert read_formula(template.format("h"), symbols="h g").free_symbols == {H}


def test_a_negative_zero_does_not_change_the_branch():
    """sqrt of (h-g)^(-1), with h below g: the same root whether the sign of a zero was lost on the way or not."""
    for text in ("sqrt((h-g)^(-1))", "sqrt(1/(h-g))", "sqrt(-1/(g-h))", "sqrt(0-1/(g-h))"):
        assert evaluate(parse(text, ("h", "g")), {"h": 0.5, "g": 9.81}).imag > 0, text


def test_costly_comparisons_end():
    began = time.perf_counter()
    judge(TIME_FORMULA, "(" + "+".join(f"(h+{n}*g)^9" for n in range(9)) + ")^9")
    judge(TIME_FORMULA, "exp(exp(exp(exp(exp(h)))))")
    judge(TIME_FORMULA, "sin(cos(tan(sin(cos(tan(sin(cos(tan(h)))))))))")
    assert time.perf_counter() - began < 1.0
