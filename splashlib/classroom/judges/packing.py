"""A function as bytes, and back in another Python: its code, what it closes over, and what its notebook gave it.

What a notebook defined goes by value, since no other process can import it; modules and what they hold go by name.
Only our own child reads these bytes.
"""

import builtins
import importlib
import marshal
import pickle
from types import CellType, CodeType, FunctionType, ModuleType

MOST = 10_000_000
"""More than so much is not carried over [bytes]."""


class CannotPack(Exception):
    """Something in it has no form as bytes: an open file, a widget, an object that the notebook's own class made."""


def packed(function):
    """A function as bytes; CannotPack where that cannot be."""
    parts, places = [], {}
    try:
        first = _place(function, parts, places)
        made = pickle.dumps((first, parts))
    except CannotPack:
        raise
    except Exception as problem:
        raise CannotPack from problem
    if len(made) > MOST:
        raise CannotPack
    return made


def _place(value, parts, places):
    """Put a value among the parts, once, and tell where it stands."""
    if id(value) not in places:
        places[id(value)] = len(parts)
        parts.append(None)
        # The value is kept beside its part, so that no other gets its id.
        parts[places[id(value)]] = _part(value, parts, places)
    return places[id(value)]


def _part(value, parts, places):
    if isinstance(value, ModuleType):
        return ("module", value.__name__)
    if type(value) is not FunctionType or _importable(value):
        return ("value", pickle.dumps(value))
    code = value.__code__
    held = {name: value.__globals__[name] for name in _names(code) if name in value.__globals__}
    closed = [cell.cell_contents for cell in value.__closure__ or ()]
    return (
        "function",
        marshal.dumps(code),
        _place(value.__defaults__, parts, places),
        _place(value.__kwdefaults__, parts, places),
        [_place(each, parts, places) for each in closed],
        {name: _place(each, parts, places) for name, each in held.items()},
    )


def _importable(function):
    """Whether another process finds it by its name; what stands in a notebook it does not."""
    if function.__module__ in (None, "__main__"):
        return False
    found = importlib.import_module(function.__module__)
    return getattr(found, function.__qualname__, None) is function


def _names(code):
    """All names that a code, and the codes inside it, may look up."""
    inner = (const for const in code.co_consts if isinstance(const, CodeType))
    return {*code.co_names}.union(*map(_names, inner))


def unpacked(data):
    """The function again."""
    first, parts = pickle.loads(data)
    return _made(first, parts, {})


def _made(place, parts, made):
    if place in made:
        return made[place]
    kind, content, *rest = parts[place]
    if kind != "function":
        made[place] = importlib.import_module(content) if kind == "module" else pickle.loads(content)
        return made[place]
    code, (defaults, named, closed, held) = marshal.loads(content), rest
    # Filled later: a function may close over itself.
    cells = tuple(CellType() for _ in closed)
    function = made[place] = FunctionType(code, {"__builtins__": builtins}, code.co_name, None, cells)
    function.__defaults__, function.__kwdefaults__ = _made(defaults, parts, made), _made(named, parts, made)
    for cell, each in zip(cells, closed, strict=True):
        cell.cell_contents = _made(each, parts, made)
    function.__globals__.update({name: _made(each, parts, made) for name, each in held.items()})
    return function
