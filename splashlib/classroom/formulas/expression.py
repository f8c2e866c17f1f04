"""Reading a formula that a learner typed. Nothing of it is ever run: no eval, no sympify.

The text is cut into tokens of our own, each checked against a whitelist (see `tokens`); letters are replaced
by placeholders, so that `ast` sees nothing but our own names; then every node of the tree is checked as well.
Sizes are bounded everywhere, so that no formula takes long: 10^10^10 is refused, not computed.
"""

import ast
import cmath
import copy
import operator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import product

from splashlib.classroom.formulas.tokens import DEPTH, cut

LONGEST = 300
LARGEST = 1e60
EXPONENT = 50
BITS = 4096
DEGREE = 100
ROUNDED = 3  # so many rounded decimals may stand in a formula
FUNCTIONS = {
    "sqrt": cmath.sqrt,
    "exp": cmath.exp,
    "log": cmath.log,
    "ln": cmath.log,
    "log2": lambda x: cmath.log(x, 2),
    "log10": cmath.log10,
    "sin": cmath.sin,
    "cos": cmath.cos,
    "tan": cmath.tan,
    "asin": cmath.asin,
    "acos": cmath.acos,
    "atan": cmath.atan,
    "abs": lambda x: complex(abs(x)),
}
_EXACT = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}
_OPERATIONS = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "^"}


@dataclass(frozen=True)
class ParsedFormula:
    """A formula that was read: its tree of placeholders, and which letter each placeholder stands for."""

    tree: ast.expr
    letters: dict

    @property
    def used(self):
        """The letters in it."""
        names = {node.id for node in ast.walk(self.tree) if isinstance(node, ast.Name)}
        return {self.letters[name] for name in names if name in self.letters}


def parse(text, letters):
    """Read a formula in the given letters.

    Parameters
    ----------
    text : what was typed; ^ or ** is a power, every product needs its *
    letters : the names it may use, besides pi and the functions

    Returns
    -------
    Formula; ValueError with one plain line if it cannot be read.
    """
    if not isinstance(text, str):
        raise ValueError(f"a formula is a text, such as 2*a; this is of the kind {type(text).__name__[:40]}.")
    if len(text) > LONGEST:
        raise ValueError(f"that is {len(text)} characters long; a formula here needs at most {LONGEST}.")
    if not text.strip():
        raise ValueError("there is no formula yet.")
    places = {letter: f"v{number}" for number, letter in enumerate(letters)}
    source = " ".join(places.get(token, token) for token in cut(text, places, FUNCTIONS))
    try:
        tree = ast.parse(source, mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        raise ValueError("an operator or a bracket has nothing to work on; look for a missing part.") from None
    formula = ParsedFormula(tree, {place: letter for letter, place in places.items()})
    _check(tree, formula.letters)
    return formula


def _check(node, letters, depth=0):
    """Refuse all but the whitelist; return the degree, a bound on how much algebra may make of it."""
    if depth > 2 * DEPTH:
        raise ValueError("the formula is nested too deeply.")
    if isinstance(node, ast.Constant) and type(node.value) in (int, float):
        return 0
    if isinstance(node, ast.Name) and (node.id in letters or node.id == "pi"):
        return int(node.id in letters)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.UAdd | ast.USub):
        return _check(node.operand, letters, depth + 1)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FUNCTIONS:
        if len(node.args) != 1 or node.keywords:
            raise ValueError(f"{node.func.id} takes one value.")
        degree = _check(node.args[0], letters, depth + 1)
        return _bounded(node, letters, degree)
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATIONS:
        left, right = _check(node.left, letters, depth + 1), _check(node.right, letters, depth + 1)
        return _bounded(node, letters, _degree(node, letters, left, right))
    raise ValueError("only numbers, the given letters, + - * / ^ and functions such as sqrt( ) are read here.")


def _has_letters(node, letters):
    return any(isinstance(part, ast.Name) and part.id in letters for part in ast.walk(node))


def _degree(node, letters, left, right):
    if isinstance(node.op, ast.Mult | ast.Div):
        return left + right
    if not isinstance(node.op, ast.Pow):
        return max(left, right)
    if _has_letters(node.right, letters):
        return left + right + 1
    exponent = abs(_number(node.right))
    if exponent > EXPONENT:
        raise ValueError(f"the power is too high; {EXPONENT} is the highest read here.")
    if not _has_letters(node.left, letters) and exponent * _digits(node.left) * 4 > BITS:
        raise ValueError("that number has too many digits.")
    return left * max(1, exponent)


def _digits(node):
    """A bound on how many digits an exact number may have."""
    if isinstance(node, ast.Constant):
        return 48
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow):
        return _digits(node.left) * max(1, abs(_number(node.right)))
    return sum(_digits(part) for part in ast.iter_child_nodes(node) if isinstance(part, ast.expr))


def _bounded(node, letters, degree):
    """A part without letters must be a number of everyday size; then no tower of powers can be built."""
    if degree > DEGREE:
        raise ValueError("the formula has powers that are too high.")
    if not _has_letters(node, letters):
        _number(node)
    return degree


def _number(node):
    try:
        value = value_of(node, {})
    except (ZeroDivisionError, ValueError):
        raise ValueError("it divides by zero, or takes a logarithm of zero.") from None
    except OverflowError:
        raise ValueError("a number in it is too large to work with.") from None
    if not abs(value) < LARGEST or 0 < abs(value) < 1 / LARGEST:
        raise ValueError("a number in it is too large or too small to work with.")
    return value


def value_of(node, numbers):
    """The value of a tree, as a complex number: fast, and bounded by what floats can hold."""
    if isinstance(node, ast.Constant):
        return complex(node.value)
    if isinstance(node, ast.Name):
        return complex(cmath.pi) if node.id == "pi" else complex(numbers[node.id])
    if isinstance(node, ast.UnaryOp):
        value = value_of(node.operand, numbers)
        return -value if isinstance(node.op, ast.USub) else value
    if isinstance(node, ast.Call):
        return complex(FUNCTIONS[node.func.id](_one_side(value_of(node.args[0], numbers))))
    left, right = value_of(node.left, numbers), value_of(node.right, numbers)
    match _OPERATIONS[type(node.op)]:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case "/":
            return left / right
    return _one_side(left) ** right


def _one_side(value):
    """The same number without a negative zero: two ways to write one negative number then have the same root."""
    return complex(value.real + 0.0, value.imag + 0.0)


def exact_value(node, numbers):
    """The value of a tree as a Fraction; ValueError where it is no rational number."""
    if isinstance(node, ast.Constant):
        return Fraction(repr(node.value))
    if isinstance(node, ast.Name) and node.id in numbers:
        return numbers[node.id]
    if isinstance(node, ast.UnaryOp):
        value = exact_value(node.operand, numbers)
        return -value if isinstance(node.op, ast.USub) else value
    if not isinstance(node, ast.BinOp):
        raise ValueError("no rational number")
    left, right = exact_value(node.left, numbers), exact_value(node.right, numbers)
    if isinstance(node.op, ast.Pow):
        if right.denominator != 1 or abs(right) > DEGREE:
            raise ValueError("no rational number")
        return left ** int(right)
    return _EXACT[type(node.op)](left, right)


def roundings(formula):
    """The formula with each of its rounded decimals at either end of what rounds to it; [] where it has none.

    A decimal of two digits or more may be rounded (0.71, 1.41, 19.6); 0.5 and whole numbers are meant as they are.
    """
    if not 0 < len(_decimals(formula.tree)) <= ROUNDED:
        return []
    made = []
    for signs in product((-1, 1), repeat=len(_decimals(formula.tree))):
        tree = copy.deepcopy(formula.tree)
        for node, sign in zip(_decimals(tree), signs, strict=True):
            node.value += sign * _half_a_digit(node.value)
        made.append(ParsedFormula(tree, formula.letters))
    return made


def _decimals(tree):
    return [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and _half_a_digit(node.value)]


def _half_a_digit(value):
    """Half a unit of the last digit of a decimal that may be rounded, or 0."""
    _, digits, exponent = Decimal(repr(value)).normalize().as_tuple()
    return 0.5 * 10.0**exponent if exponent < 0 and len(digits) > 1 else 0.0


def evaluate(formula, numbers):
    """The value of a formula with a number for each letter; nan where it has none."""
    places = {place: numbers[letter] for place, letter in formula.letters.items() if letter in numbers}
    try:
        value = value_of(formula.tree, places)
    except (ArithmeticError, ValueError):
        return complex("nan")
    return value


def to_sympy(node, symbols):
    """A checked tree as a sympy expression; numbers stay exact."""
    import sympy

    if isinstance(node, ast.Constant):
        return sympy.Rational(repr(node.value)) if isinstance(node.value, float) else sympy.Integer(node.value)
    if isinstance(node, ast.Name):
        return sympy.pi if node.id == "pi" else symbols[node.id]
    if isinstance(node, ast.UnaryOp):
        value = to_sympy(node.operand, symbols)
        return -value if isinstance(node.op, ast.USub) else value
    if isinstance(node, ast.Call):
        return _call(node.func.id, to_sympy(node.args[0], symbols))
    left, right = to_sympy(node.left, symbols), to_sympy(node.right, symbols)
    made = {"+": sympy.Add, "-": lambda a, b: a - b, "*": sympy.Mul, "/": lambda a, b: a / b, "^": sympy.Pow}
    return made[_OPERATIONS[type(node.op)]](left, right)


def _call(name, value):
    import sympy

    if name in ("log2", "log10"):
        return sympy.log(value, int(name[3:]))
    if name == "abs" and value.has(sympy.Function):
        # Whether it can be simplified sympy finds out by rewriting, of asin(2) and its like without an end.
        return sympy.Abs(value, evaluate=False)
    return getattr(sympy, {"ln": "log", "abs": "Abs"}.get(name, name))(value)


def read_formula(text, *, symbols):
    """Read a formula that was typed, as a sympy expression.

    Parameters
    ----------
    text : str, such as "sqrt(2*h/g)"; ^ or ** is a power, and a * may be left out: "v²/2g" is v**2/(2*g)
    symbols : the letters it may use: names or sympy symbols, or a dict of names to symbols

    Returns
    -------
    sympy expression; ValueError with one plain line for everything else.

    Notes
    -----
    Besides the letters there are pi, + - * / ^ ( ), numbers, and the functions in FUNCTIONS (log is the
    natural one). At most 300 characters; decimals become exact fractions; numbers stay within 1e-60 and 1e60,
    powers within 50.
    """
    if isinstance(symbols, str):
        symbols = symbols.replace(",", " ").split()
    named = symbols if isinstance(symbols, dict) else {str(symbol): symbol for symbol in symbols}
    formula = parse(text, named)
    # Only a text that was read waits for sympy to load.
    import sympy

    known = {n: s if isinstance(s, sympy.Basic) else sympy.Symbol(n) for n, s in named.items()}
    result = to_sympy(formula.tree, {place: known[letter] for place, letter in formula.letters.items()})
    if result.has(sympy.zoo, sympy.nan, sympy.oo, -sympy.oo):
        raise ValueError("it divides by zero.")
    return result
