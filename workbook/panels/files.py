"""Save and load setups from a panel: a file name and four buttons."""

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as widgets

from workbook import text_file
from workbook.errors import InputRefused
from workbook.setup import Setup

if TYPE_CHECKING:
    from workbook.panels.layout_pair import LayoutPair


class FileRow:
    """A file name, and buttons that save A or B there or load them from there."""

    def __init__(self, owner: "LayoutPair") -> None:
        self.owner = owner
        self.name = widgets.Text(
            "my setup.json", description="file", layout=widgets.Layout(width="340px")
        )
        self.said = widgets.HTML()
        self.said.add_class("workbook-file-said")
        buttons = []
        for letter in "ab":
            for verb, act in (("save", self.save), ("load", self.load)):
                words = f"{verb} {'into ' if verb == 'load' else ''}{letter.upper()}"
                button = widgets.Button(description=words)
                button.add_class(f"workbook-{verb}-{letter}")
                button.on_click(lambda _b, act=act, letter=letter: act(letter))
                buttons.append(button)
        row = widgets.Layout(flex_flow="row wrap")
        self.box = widgets.VBox([widgets.HBox([self.name, *buttons], layout=row), self.said])

    def save(self, letter: str) -> None:
        """Write the setup of that letter to the file; one that is there already is kept."""
        try:
            file = text_file.place(self.name.value.strip())
            self.owner.now(letter).to_json(file, overwrite=False)
            self._say(f"Saved {letter.upper()} as {file.absolute()}.")
        except InputRefused as refusal:
            self._say(str(refusal))

    def load(self, letter: str) -> None:
        """Read the file into that letter; bowler, ball and grip hold for both."""
        try:
            file = text_file.place(self.name.value.strip())
            self.owner.load(letter, Setup.from_json(file))
            self._say(
                f"Loaded {letter.upper()} from {file.name}; its bowler, ball and grip now hold for "
                "A and B."
            )
        except InputRefused as refusal:
            self._say(str(refusal))

    def _say(self, text: str) -> None:
        self.said.value = f'<span role="status">{escape(text)}</span>'
