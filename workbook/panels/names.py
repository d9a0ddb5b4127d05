"""Names for screen readers, and what people type: stock sliders and images lack both."""

from pathlib import Path
from typing import Any

import anywidget
import traitlets


class Names(anywidget.AnyWidget):
    """Sets attributes of elements of the page, and hears what is typed beside a slider.

    `names` is a list of (CSS selector, attribute, text). What is typed beside a slider of the panel
    that it stands in comes as a message with the slider's `classes` and the `text`.
    """

    _esm = Path(__file__).with_name("names.js").read_text("utf-8")
    names: Any = traitlets.List().tag(sync=True)
