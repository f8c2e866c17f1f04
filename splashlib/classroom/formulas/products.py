"""Products without a sign, read as a person means them: 2g, gh, ½ v²/g, (v/g)(h/2).

Written close together, such a product holds tighter than a division before it: v²/2g is v²/(2·g). Where people
differ, as in 1/2g, v^2/2 g or 2^2n, nothing is guessed: the line says which two ways of typing it would be clear.

A token has `text`, `kind` (number, letter, function or sign) and `gap`, whether a space stood before it.
"""


def with_signs(tokens):
    """The texts of the tokens, every product spelled out; ValueError with one plain line where two readings are."""
    before, after = {}, {}
    for start in range(len(tokens)):
        if not _begins(tokens, start) or (start and _joined(tokens, start)):
            continue
        ends = _factors(tokens, start)
        for end in ends[:-1]:
            before[end] = ["*"]
        if len(ends) > 1 and _divided(tokens, start):
            _refuse_two_readings(tokens, start, ends)
            before[start] = ["("]
            after[ends[-1] - 1] = [")"]
    pieces = [[*before.get(at, ()), token.text, *after.get(at, ())] for at, token in enumerate(tokens)]
    return [text for piece in pieces for text in piece]


def _begins(tokens, at):
    """Whether a factor begins here."""
    return at < len(tokens) and (tokens[at].kind != "sign" or tokens[at].text == "(")


def _joined(tokens, at):
    """Whether this token stands right behind a factor, with no sign between."""
    last = tokens[at - 1]
    if not _begins(tokens, at) or last.kind == "function" or (last.kind == "sign" and last.text != ")"):
        return False
    if tokens[at].kind == "number":
        raise ValueError(f"write a * between {last.text[:20]} and {tokens[at].text[:20]}.")
    return True


def _factors(tokens, start):
    """Where each factor of a product without signs ends."""
    ends = [_power(tokens, start)]
    while ends[-1] < len(tokens) and _joined(tokens, ends[-1]):
        ends.append(_power(tokens, ends[-1]))
    return ends


def _power(tokens, at):
    """Where a factor ends: a primary, and what it is raised to."""
    end = _primary(tokens, at)
    while end < len(tokens) and tokens[end].text == "**":
        exponent = end + 1
        while exponent < len(tokens) and tokens[exponent].text in "+-":
            exponent += 1
        if not _begins(tokens, exponent):
            return end
        end = _primary(tokens, exponent)
        if tokens[end - 1].text != ")" and _begins(tokens, end) and not tokens[end].gap and _joined(tokens, end):
            base, power, next_one = tokens[at].text, tokens[end - 1].text, tokens[end].text
            two = f"write {base}^{power}*{next_one} or {base}^({power}*{next_one})"
            raise ValueError(f"{base}^{power}{next_one} can be read in two ways; {two}.")
    return end


def _primary(tokens, at):
    """Where a number, a letter, a bracket, or a function with its bracket ends."""
    if tokens[at].kind == "function":
        if at + 1 >= len(tokens) or tokens[at + 1].text != "(":
            raise ValueError(f"{tokens[at].text} needs brackets: {tokens[at].text}(...).")
        at += 1
    depth = 0
    for place in range(at, len(tokens)):
        depth += (tokens[place].text == "(") - (tokens[place].text == ")")
        if depth == 0:
            return place + 1
    raise ValueError("a ( is never closed.")


def _divided(tokens, start):
    """Whether a division stands before, perhaps with a sign between."""
    while start and tokens[start - 1].text in "+-":
        start -= 1
    return start > 0 and tokens[start - 1].text == "/"


def _refuse_two_readings(tokens, start, ends):
    """Refuse what a division may mean: all of the product, or its first factor alone."""
    close = not any(tokens[end].gap for end in ends[:-1])
    plain = start > 1 and tokens[start - 2].kind == "number" and (start < 3 or tokens[start - 3].text != "**")
    fraction = plain and tokens[start].kind == "number"
    if close and not fraction and tokens[start - 1].text == "/":
        return
    first, rest = (_said(tokens[a:b]) for a, b in ((start, ends[0]), (ends[0], ends[-1])))
    over = _over(tokens, start)
    typed = f"{over}/{first}{' ' if tokens[ends[0]].gap else ''}{rest}"
    raise ValueError(f"{typed} can be read in two ways; write ({over}/{first})*{rest} or {over}/({first}*{rest}).")


def _over(tokens, start):
    """What is divided, as it is told again: its last number or letter, or dots for more than that."""
    at = start - 1
    while tokens[at].text != "/":
        at -= 1
    alone = at == 1 or (at > 1 and tokens[at - 2].text in ("(", "+", "-"))
    return tokens[at - 1].text if alone and tokens[at - 1].kind in ("number", "letter") else "…"


def _said(tokens):
    return "".join("^" if token.text == "**" else token.text for token in tokens)[:20]
