"""Interactive panels: the only place that knows ipywidgets."""

from workbook.panels.two_layouts import two_layouts

__all__ = ["two_layouts"]
