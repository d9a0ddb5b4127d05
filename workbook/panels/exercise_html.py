"""The texts of an exercise's card as HTML."""

from html import escape

from workbook.layout_tables import Table
from workbook.panels.html import table_html
from workbook.panels.markdown import markdown_html
from workbook.practice.answering import CANNOT_CHECK, CORRECT, reading
from workbook.practice.attempt import GUESSED, MARK_IT, Attempt
from workbook.practice.plain_words import number_words
from workbook.practice.posed import Posed

LEVELS = ("easy", "fairly easy", "middling", "fairly hard", "hard")
KINDS = {
    "number": "a number", "choice": "a choice", "order": "put in order",
    "predict": "one guess, then look", "target": "reach a target", "words": "in your own words",
    "drill": "a drill",
}  # fmt: skip
MOST_LINES = 6  # of a sheet to copy out
AGAIN = "Then press Check again."
NO_SOURCE = "no source"

CARD_STYLE = """<style>
.workbook-card { font-size: max(15px, var(--jp-ui-font-size1, 13px)); line-height: 1.4;
  max-width: 960px; box-sizing: border-box; padding: 2px 14px 10px !important;
  border: 1px solid rgba(120, 120, 120, 0.45); border-radius: 6px; }
.workbook-card > *, .workbook-card .widget-box > * { max-width: calc(100% - 4px) !important; }
.workbook-card .jupyter-widgets, .workbook-card .widget-label, .workbook-card .widget-readout,
.workbook-card input, .workbook-card select, .workbook-card textarea,
.workbook-card .widget-html-content { font-size: inherit !important; }
.workbook-card .widget-html-content { line-height: inherit; min-width: 0; max-width: 100%;
  align-self: stretch; }
.workbook-card .widget-html { height: auto; }
.workbook-card .widget-readout { min-width: 72px; }
.workbook-card p, .workbook-card ul, .workbook-card ol { margin: 4px 0; }
.workbook-card li { line-height: 1.4; }
.workbook-card h3 { font-size: 1.15em; margin: 6px 0 2px; font-weight: bold; }
.workbook-card .workbook-stale { opacity: 0.45; }
.workbook-card .workbook-small { opacity: 0.75; }
.workbook-card .workbook-caution { border-left: 4px solid #a8123e; padding-left: 8px; }
.workbook-card .widget-radio-box { width: 100%; margin-bottom: 0; }
.workbook-card .widget-radio-box label { height: auto; line-height: 1.35; font-size: inherit;
  white-space: normal; padding: 4px 0;
  display: flex; flex-direction: row-reverse; justify-content: flex-end; gap: 8px; }
.workbook-card .widget-radio-box input { height: 1.35em; line-height: 1; margin: 0; flex: none; }
.workbook-card .widget-checkbox { height: auto; width: 100%; }
.workbook-card .widget-checkbox label { height: auto; line-height: 1.35; font-size: inherit;
  white-space: normal; display: flex; align-items: baseline; gap: 8px; }
.workbook-card .workbook-card-outcome p:first-child strong { font-size: 1.1em; }
.workbook-card .workbook-card-outcome [role] > div { padding: 4px 10px; margin: 4px 0;
  border-left: 4px solid #5a626c; background: rgba(120, 120, 120, 0.09); }
.workbook-card button { width: auto; align-self: flex-start; min-width: 88px; height: auto;
  line-height: 1.9; }
</style>"""


def head_html(posed: Posed) -> str:
    """Title, level and kind."""
    exercise = posed.exercise
    level = f"{LEVELS[exercise.level - 1]}, {exercise.level} of {len(LEVELS)}"
    numbers = f"; your numbers: no. {posed.seed}" if exercise.draws else ""
    return (
        f"<h3>{escape(exercise.title)}</h3>"
        f'<p class="workbook-small">{KINDS[exercise.kind]}; {level}{numbers}</p>'
    )


def prompt_html(posed: Posed) -> str:
    """What is asked, with the steps and the sheet of a drill, and the caution."""
    exercise = posed.exercise
    parts = [markdown_html(posed.filled(exercise.prompt))]
    if exercise.caution:
        caution = markdown_html(f"**Caution.** {exercise.caution}")
        parts.insert(0, f'<div class="workbook-caution">{caution}</div>')
    if exercise.steps:
        parts.append(markdown_html(_numbered(exercise.steps)))
    if exercise.sheet:
        rows = exercise.sheet.rows
        shown = [str(line) for line in range(1, min(rows, MOST_LINES) + 1)]
        shown += ["…", str(rows)] if rows > MOST_LINES + 1 else [str(rows)][: rows - len(shown)]
        blank = ("\u2003",) * len(exercise.sheet.columns)
        lines = tuple((line, *blank) for line in shown)
        parts += ["<p>The sheet, to copy out:</p>",
                  table_html(Table(("line", *exercise.sheet.columns), lines))]  # fmt: skip
    return "".join(parts)


def outcome_html(attempt: Attempt) -> str:
    """What came of the last answer, read aloud by a screen reader when it changes."""
    exercise, outcome = attempt.posed.exercise, attempt.outcome
    if attempt.waits:
        inner = markdown_html(f"**{GUESSED}** {exercise.look}\n\n{AGAIN}")
    elif outcome is None:
        inner = markdown_html(f"**{MARK_IT}**") if attempt.marking else ""
    elif outcome.kind == CANNOT_CHECK:  # it holds what was typed
        inner = f"<p><strong>Cannot check:</strong> {escape(outcome.said)}</p>"
    else:
        said = outcome.said[:1].upper() + outcome.said[1:]
        done = exercise.kind == "drill" and outcome.kind == CORRECT
        kind = "Recorded" if done else outcome.kind.capitalize()
        inner = markdown_html(f"**{kind}.** {said}")
    return _live(f"<div>{inner}</div>" if inner else "")


def hints_html(attempt: Attempt) -> str:
    """The hints seen so far."""
    hints = attempt.posed.exercise.hints[: attempt.hints]
    if not hints:
        return _live("")
    filled = [attempt.posed.filled(hint) for hint in hints]
    of = f"<p><strong>Hints, {len(hints)} of {len(attempt.posed.exercise.hints)}</strong></p>"
    return _live(of + markdown_html(_numbered(filled)))


def points_html(attempt: Attempt) -> str:
    """Of kind words, once the text is in: a good answer, and what is often said instead."""
    if not attempt.marking:
        return ""
    exercise = attempt.posed.exercise
    parts = [markdown_html(f"**A good answer.** {exercise.example}")]
    if exercise.wrong:
        said = "\n".join(
            f"* “{one.says}” {attempt.posed.filled(one.coaching)}" for one in exercise.wrong
        )
        parts.append(markdown_html(f"**If your text says this:**\n\n{said}"))
    return "".join(parts)


def explanation_html(attempt: Attempt) -> str:
    """The right answer and why, once it may be seen."""
    if not attempt.explained:
        return _live("")
    posed = attempt.posed
    why = posed.filled(posed.exercise.explanation)
    right = "" if attempt.marking else _right_html(posed)  # a good answer stands above already
    return _live(right + markdown_html(f"**Why.** {why}"))


def foot_html(attempt: Attempt) -> str:
    """How well the fact is known, and where it is from once that cannot give it away."""
    exercise = attempt.posed.exercise
    told = exercise.mark
    if attempt.explained:
        told += "; " + escape((exercise.source or NO_SOURCE).rstrip("."))
    return f'<p class="workbook-small">How sure: {told}.</p>'


def _right_html(posed: Posed) -> str:
    exercise = posed.exercise
    if exercise.answer:
        right = posed.right_words
    elif exercise.choices:
        right = next(one.text for one in exercise.choices if one.right)
    elif exercise.target:
        levers = exercise.target.levers.values()
        settings = {name: one.worked for name, one in exercise.target.levers.items()}
        told = ", ".join(f"{one.words} {one.worked:g} {one.unit}".strip() for one in levers)
        found = f"{number_words(reading(posed, settings))} {exercise.target.unit}".strip()
        right = f"for example {told}; {exercise.target.words} {found}"
    elif exercise.items:
        return markdown_html(f"**The right order**\n\n{_numbered(exercise.items)}")
    elif exercise.example:
        return markdown_html(f"**A good answer.** {exercise.example}")
    else:
        return ""
    return f"<p><strong>The answer:</strong> {escape(right)}</p>"


def _numbered(texts: tuple[str, ...] | list[str]) -> str:
    """A numbered list in Markdown, of texts of one paragraph or more."""
    return "\n".join(
        f"{place}. " + text.strip().replace("\n", "\n   ") for place, text in enumerate(texts, 1)
    )


def _live(inner: str) -> str:
    return f'<div role="status" aria-live="polite">{inner}</div>'
