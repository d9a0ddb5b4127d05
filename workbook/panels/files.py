"""Save and load from a panel: a file name, and a button for each thing to do with it."""

import os
from collections.abc import Callable, Mapping
from html import escape
from pathlib import Path

import ipywidgets as widgets

from workbook import text_file
from workbook.errors import InputRefused


class FileRow:
    """A file name, and buttons that do something with the file and say what they did.

    Parameters
    ----------
    name : str
        The name to start with.
    acts : mapping of str to callable
        By the words on the button: gets the file, returns what is to be said; a refusal is told.
    """

    def __init__(self, name: str, acts: Mapping[str, Callable[[Path], str]]) -> None:
        self.acts = dict(acts)
        self.name = widgets.Text(name, description="file", layout=widgets.Layout(width="340px"))
        self.said = widgets.HTML()
        self.said.add_class("workbook-file-said")
        buttons = []
        for words in self.acts:
            button = widgets.Button(description=words)
            button.add_class(f"workbook-{words.lower().replace(' ', '-')}")
            button.on_click(lambda _button, words=words: self.press(words))
            buttons.append(button)
        row = widgets.Layout(flex_flow="row wrap")
        self.box = widgets.VBox([widgets.HBox([self.name, *buttons], layout=row), self.said])

    def press(self, words: str) -> None:
        """Do what the button with these words does."""
        try:
            if os.environ.get(text_file.SHARED):
                raise InputRefused("files stay closed while this page is shared.")
            text = self.acts[words](text_file.place(self.name.value.strip()))
        except InputRefused as refusal:
            text = str(refusal)
        self.said.value = f'<span role="status">{escape(text)}</span>'
