"""Judging a choice: one of several options."""

from splashlib.classroom.judges.judging import plain_word, slipped, stored_text
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.variants import order
from splashlib.classroom.questions.wording import quoted, say

LETTERS = "abcdefghij"


def record(question, answer, unit=None, variant=1, values=None):
    """Which option was chosen: kept by its key, since the letters change with the variant."""
    if type(answer) is not str:
        return {"other": plain_word(answer)}
    chosen = answer.strip().rstrip(").").strip() if len(answer) < 200 else answer
    letters = dict(zip(LETTERS, order(question, variant), strict=False))
    for option in question.options:
        if chosen == option.key or letters.get(chosen.lower()) is option:
            return {"option": option.key}
    return stored_text(answer)


def verdict(question, record, variant, values):
    """The reply to a recorded choice."""
    asked = f"Choose one of the letters a to {LETTERS[len(question.options) - 1]}."
    if "other" in record:
        return Reply("wrong_kind", f"That is {record['other']}. {asked}")
    for option in question.options:
        if record.get("option") == option.key:
            if option.right:
                said = [say(text, values) for text in (option.reply, question.meaning)]
                return Reply("right", "\n\n".join(filter(None, said)))
            slip = next(slip for slip in question.slips if slip.name == option.key)
            return slipped(question, slip, values, option.key, given=say(option.text, values))
    typed = quoted(record.get("text", record.get("option", "")))
    return Reply("unreadable", f"{typed} is none of the options. {asked}")


def apart(question, values, variant=1):
    """Options tell apart when no two of them read alike."""
    texts = [say(option.text, values).strip() for option in question.options]
    return len(set(texts)) == len(texts)


def right_answer(question, values, variant=1):
    """The letter of the right option in this variant."""
    return LETTERS[[option.right for option in order(question, variant)].index(True)]


def slip_answer(question, slip, values, variant=1):
    """The letter of a wrong option in this variant."""
    return LETTERS[[option.key for option in order(question, variant)].index(slip.name)]


def in_words(question, record, values):
    """A readable answer, as it is told again."""
    chosen = next(option for option in question.options if option.key == record["option"])
    return f"**{say(chosen.text, values)}**"
