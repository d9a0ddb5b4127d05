"""Interactive panels: the only place that knows ipywidgets."""

from workbook.panels.ball_reader import read_the_ball
from workbook.panels.bowler_measurer import measure_the_bowler
from workbook.panels.exercise_card import practise
from workbook.panels.glossary_page import show_glossary
from workbook.panels.lay_out import lay_it_out
from workbook.panels.layout_pair import two_layouts
from workbook.panels.progress_page import show_progress
from workbook.panels.surface_work import work_the_surface
from workbook.panels.watch import watch_it_roll

__all__ = [
    "lay_it_out",
    "measure_the_bowler",
    "practise",
    "read_the_ball",
    "show_glossary",
    "show_progress",
    "two_layouts",
    "watch_it_roll",
    "work_the_surface",
]
