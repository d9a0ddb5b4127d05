"""Interactive panels: the only place that knows ipywidgets."""

from workbook.panels.layout_pair import two_layouts

__all__ = ["two_layouts"]
