"""A setup: bowler, ball, layout, grip and surface together."""

from dataclasses import dataclass, field
from functools import cached_property

from workbook import drilling
from workbook.assumptions import Assumptions
from workbook.ball import Ball
from workbook.bowler import Bowler
from workbook.grip import Grip
from workbook.inputs import part
from workbook.layout import Layout
from workbook.setup_file import Saved
from workbook.surface import Surface


@dataclass(frozen=True)
class Setup(Saved):
    """Everything about the thrower and the ball that a shot depends on.

    Parameters
    ----------
    bowler : Bowler
    ball : Ball
    layout : Layout
    grip : Grip
    surface : Surface
    name : str
        How tables and pictures call it.
    assumptions : Assumptions
        What is assumed; the defaults unless you ask "what if".

    Raises
    ------
    InputRefused
        A part is missing or of the wrong type.
    """

    bowler: Bowler = part("bowler", lambda: Bowler)
    ball: Ball = part("ball", lambda: Ball)
    layout: Layout = part("layout", lambda: Layout)
    grip: Grip = part("grip", lambda: Grip)
    surface: Surface = part("surface", lambda: Surface)
    name: str = ""
    assumptions: Assumptions = field(default=Assumptions(), metadata={
        "words": "assumptions", "kind": lambda: Assumptions})  # fmt: skip

    @cached_property
    def drilled(self) -> drilling.Drilled:
        """The ball with its holes: RGs, differentials, static balance, marks and notes."""
        return drilling.drill(self.ball, self.layout, self.grip, self.bowler, self.assumptions)
