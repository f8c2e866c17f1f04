"""Answers that no question should accept, and that must never bring a traceback: what proofs try."""

import math
from fractions import Fraction

UNTOUCHED = (None, ..., "", "   ", "...", " … ", "\n")

DEEP = []
for _ in range(500):
    DEEP = [DEEP]

# fmt: off
OBJECTS = (
    float("nan"), float("inf"), -float("inf"), 1j, complex("nan"), True, 10**400, Fraction(10**400), [1, 2], (), {},
    {1, 2}, {"x": 1}, {3: 4}, DEEP, b"303", object(), len, int, Exception("x"), math,
)
TEXTS = (
    "nan", "inf", "1e999", "1e99999999999", "9" * 100_000, "(" * 5_000, "-" * 5_000, "a" * 1_000_000,
    "10^10^10", "9**9**9**9", "__import__('os').abort()", "().__class__.__bases__[0]", "{0.__class__}", "exec('1')",
    "lambda: 1", "0x1F", "1_0", "١٢٣", "１２３", "1O3", "l03", "еxp(1)", "ｈ", "𝐡", "h\u200b", "²", "½½",
    "303 parsecs", "303 ms ms", "-", ".", ",", "+-1", "1,2,3", "1.2.3", "1/0", "1 2", "1/2/3", "\x00", "\ud800",
    "<script>alert(1)</script>", "</div>", "`x`", "**", "[a](javascript:alert(1))", "%s %d {}", "\\", "🍊", "a) b)",
)
# fmt: on
HOSTILE = OBJECTS + TEXTS
