"""Set-up files, random and damaged: each is read or refused with one line at once, and never lost.

python -m tests.hard.setup_files 20000
"""

import random
import sys
import tempfile
import time
from pathlib import Path

from splashlib.shoot import FIELDS, change, field, load_setup, save_setup, tea_house
from splashlib.shoot.files.keys import BLOCKS, head_block
from splashlib.shoot.files.template import fresh_text
from splashlib.shoot.files.toml_values import written

PATIENCE = 2.0  # s of work; a file is read or refused, changed and read again "at once"
NASTY = (
    *("1e999999999", "-1e9999999999999999999", "0x" + "f" * 5000, "9" * 5000, "nan", "-inf", "55,5", "14 cm", "1/32"),
    *('"1e999999999"', '"1/0"', '"1/99999999999999999999999"', "[1, 2]", "{a = 1}", "true", "2024-01-01", '"\\u0000"'),
    *('"""a\nb"""', "'''", '"' + "x" * 70 + '"', "held_open", "", "=", '"$x$ 金柑 \\u202e🍊"', "[" * 3000),
    "{a=" * 3000,
)
NOISE = ("\r\r\n", "\r", "\x00", "[[flashes]]\n", "[drop]\n", "[camera]\n", "# ", '"""', "'", "\ufeff", "a." * 3000)


def some(rng, rows, most):
    """Lines for a few rows, with values that are possible by themselves."""
    return [f"{row.key} = {written(row, value(rng, row))}" for row in rng.sample(rows, min(most, len(rows)))]


def value(rng, row):
    """A value of a setting that its slider offers."""
    if row.kind == "text":
        return rng.choice(("plum", 'the "rim"', "C:\\dir", "金柑 🍊", "a # b", "100 $"))
    if row.kind in ("choice", "marks"):
        return rng.choice(row.choices or row.marks)[1]
    number = rng.uniform(row.low, row.high)
    return row.check(row.to_si(round(number) if row.whole else float(f"{number:.{rng.choice((2, 4, 17))}g}")))


def scattered(rng):
    """A file in a layout that TOML allows and nobody would choose: blocks in pieces, braces, dots, quoted keys."""
    parts, top = [], []
    for names, rows in BLOCKS:
        lines, title = some(rng, list(rows), rng.randrange(4)), ".".join(names)
        how = rng.random()
        if not lines:
            continue
        if how < 0.15 and len(names) == 1 and not any(other[:1] == names for other, _ in BLOCKS if other != names):
            top.append(f"{title} = {{{', '.join(lines)}}}  # in braces")
        elif how < 0.25 and len(names) == 1 and title != "camera":
            top += [f"{title}.{line}" for line in lines]
        else:
            head = f'[ "{names[0]}" ]' if how < 0.3 and len(names) == 1 else f"[{title}]"
            parts.append("\n".join([f"# about {title}", head, *lines, *rng.choice(([], [""], ["# end", ""]))]))
    rng.shuffle(parts)
    heads = [some(rng, list(head_block(0)[1]), 3) for _ in range(rng.randrange(3))]
    if heads and rng.random() < 0.2:
        top.append("flashes = [" + ", ".join("{" + ", ".join(head) + "}" for head in heads) + "]")
    else:
        parts += ["\n".join(["[[flashes]]", *head]) for head in heads]
    end = rng.choice(("\n", "\n", "\r\n"))
    return end.join("\n".join([*top, *parts, rng.choice(("", "# the end"))]).split("\n"))


def damaged(rng, text):
    """A text after a few accidents."""
    for _ in range(rng.randrange(1, 4)):
        lines = text.split("\n")
        at = rng.randrange(len(lines))
        what = rng.randrange(5)
        if what == 0 and "=" in lines[at]:
            lines[at] = f"{lines[at].split('=')[0]}= {rng.choice(NASTY)}"
        elif what == 1:
            lines.insert(at, rng.choice(lines))
        elif what == 2:
            del lines[at]
        elif what == 3:
            cut = rng.randrange(len(lines[at]) + 1)
            lines[at] = lines[at][:cut] + rng.choice(NOISE) + lines[at][cut + rng.randrange(4) :]
        else:
            rng.shuffle(lines)
        text = "\n".join(lines) or "\n"
    return text


def one(rng):
    """The text of one try."""
    text = scattered(rng) if rng.random() < 0.6 else fresh_text(tea_house())
    return text if rng.random() < 0.4 else damaged(rng, text)


def tried(path, rng):
    """Read one file, change it, or see it refused; returns what became of it."""
    before = path.read_bytes()
    start = time.process_time()
    try:
        setup = load_setup(path)
    except ValueError as problem:
        said = str(problem)
        assert path.name in said, said
        assert "\n" not in said and len(said) < 400, said  # noqa: PT018
        refused(path, before)
        assert time.process_time() - start < PATIENCE, (time.process_time() - start, before[:2000])
        return "refused"
    wanted = changed(rng, setup)
    save_setup(wanted, path)
    assert load_setup(path) == wanted
    assert time.process_time() - start < PATIENCE, (time.process_time() - start, before[:2000])
    after = path.read_text(encoding="utf-8")
    return "written afresh" if "# Comments from the file as it was before:" in after else "kept"


def refused(path, before):
    """A file that cannot be read is never overwritten."""
    try:
        save_setup(tea_house(), path)
    except ValueError:
        assert path.read_bytes() == before
        return
    raise AssertionError(f"overwritten: {before!r}")


def changed(rng, setup):
    """The set-up with a few settings changed to something possible."""
    for _ in range(rng.randrange(1, 4)):
        row = field(rng.choice(FIELDS).path)
        try:
            setup = change(setup, row.path, value(rng, row))
        except ValueError:
            continue
    return setup


def run(count, seed=1):
    """Make so many tries; returns how many ended how."""
    counts, wrong = {"refused": 0, "kept": 0, "written afresh": 0}, []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "my_setup.toml"
        for number in range(count):
            rng = random.Random(f"{seed} {number}")
            path.write_bytes(one(rng).encode("utf-8", "replace"))
            try:
                counts[tried(path, rng)] += 1
            except Exception as problem:
                kept = Path(tempfile.gettempdir()) / f"splash_try_{number}.toml"
                kept.write_bytes(one(random.Random(f"{seed} {number}")).encode("utf-8", "replace"))
                wrong.append(f"try {number} (seed {seed}), kept in {kept}: {type(problem).__name__}: {problem}"[:600])
        assert [each.name for each in Path(folder).iterdir()] == [path.name]
    assert not wrong, "\n".join(wrong)
    return counts


if __name__ == "__main__":
    begun = time.perf_counter()
    print(run(int(sys.argv[1]) if len(sys.argv) > 1 else 20_000), f"{time.perf_counter() - begun:.0f} s")
