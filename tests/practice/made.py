"""Small exercises of every kind as the text of their files; all of them are invented."""

from workbook.practice.exercise_file import parse

COMMON = """form = 1
id = "04_lay_it_out/{kind}"
title = "Invented"
kind = "{kind}"
level = 2
teaches = "One idea."
prompt = "What is asked?"
hints = ["Remind.", "Point.", "Almost tell."]
explanation = "Because it is so."
mark = "textbook"
source = "a book, page 1"
"""
# plus and times by hand: 2 * 4 + 1 is 9, 2 + 4 + 1 is 7
NUMBER = (
    COMMON
    + """
[draw.turns]
low = 2
high = 9
step = 0.5
worked = 4

[answer]
value = 9
unit = "mph"
tolerance = 0.05
source = "by hand"

[answer.computed]
calculation = "plus"
a = {{ calculation = "times", a = 2, b = "{{turns}}" }}
b = 1

[[wrong]]
coaching = "Added where it multiplies, with {{turns}}."
[wrong.value]
calculation = "plus"
a = "{{turns}}"
b = 3

[[wrong]]
value = -1
coaching = "Below zero."
"""
)
CHOICES = """
[[choices]]
text = "pin up"
right = true

[[choices]]
text = "pin down"
coaching = "Look again."
"""
# the VAL angle sets how high the pin stands: at 25 degrees 4.27 in up, at 80 below the midline
TARGET = """
[target]
words = "the pin stands"
unit = "in"
rule = "within"
wanted = 4.25
margin = 0.1

[target.reading]
calculation = "placed"
of = "pin_up"
val_angle_deg = "{{angle}}"

[[target.lever]]
name = "angle"
words = "VAL angle"
unit = "deg"
low = 0
high = 90
start = 90
worked = 25

[[wrong]]
settings = {{ angle = 80 }}
coaching = "Too low."
"""
WITH = {
    "number": NUMBER,
    "choice": COMMON + CHOICES,
    "predict": COMMON + 'look = "Move the switch."\n' + CHOICES,
    "order": COMMON + 'items = ["skid", "hook", "roll"]\n[[wrong]]\n'
    'items = ["hook", "skid", "roll"]\ncoaching = "It slides first."\n',
    "target": COMMON + TARGET,
    "words": COMMON + 'points = ["holes take mass away", "flare"]\n'
    'example = "The holes take mass away, so it flares."\n'
    '[[wrong]]\nsays = "It is magic."\ncoaching = "No."\n',
    "drill": COMMON + 'caution = "Stay behind the foul line."\nsteps = ["Throw.", "Write."]\n'
    '[sheet]\ncolumns = ["shot", "board"]\nrows = 3\n',
}  # fmt: skip
TEXTS = {kind: text.format(kind=kind) for kind, text in WITH.items()}
RIGHT = {
    "number": "9 mph",
    "choice": "pin up",
    "predict": 1,
    "order": ["skid", "hook", "roll"],
    "target": {"angle": 25},
    "words": {"text": "So it is.", "points": [2, 1]},
    "drill": "1; 12\n2; 13,5\n3\t11",
}


def made(kind, *changes):
    """The exercise of a kind, with parts of its text replaced: (old, new)."""
    text = TEXTS[kind]
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return parse(text, "made.toml")
