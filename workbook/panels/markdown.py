"""Markdown of exercise files as HTML: paragraphs, bold, lists and tables, and nothing that acts.

What looks like HTML is shown as it is written, links and pictures become their words: nothing in an
exercise reaches for another machine.
"""

from typing import Any

import mistune


class _Quiet(mistune.HTMLRenderer):
    """The usual HTML without links, pictures and headings of the page's own size."""

    def link(self, text: str, *_where: Any, **_more: Any) -> str:
        return text

    def image(self, text: str, *_where: Any, **_more: Any) -> str:
        return text

    def heading(self, text: str, level: int, **_more: Any) -> str:
        return f"<p><strong>{text}</strong></p>\n"


_markdown = mistune.create_markdown(escape=True, renderer=_Quiet(escape=True), plugins=["table"])


def markdown_html(text: str) -> str:
    """Markdown as HTML."""
    return str(_markdown(text))
