"""Plain drawing data of a spec sheet: RGs and differentials in rows, and the same in words."""

from dataclasses import dataclass

from workbook import sources
from workbook.ball_reading import BallReading


@dataclass(frozen=True)
class SpecRow:
    """The ball in one state.

    Parameters
    ----------
    words : str
        "undrilled", "pin up" or "pin down".
    label : str
        "A" or "B" for a drilled ball, which picks colour and line style; empty for the undrilled.
    rg_in : tuple of three floats
        Low, intermediate and high RG [in].
    """

    words: str
    label: str
    rg_in: tuple[float, float, float]

    @property
    def differential_in(self) -> float:
        """Highest minus lowest RG [in]."""
        return self.rg_in[2] - self.rg_in[0]

    @property
    def intermediate_in(self) -> float:
        """Highest minus intermediate RG [in]."""
        return self.rg_in[2] - self.rg_in[1]

    def describe(self) -> str:
        """Return the row in one sentence."""
        low, middle, high = self.rg_in
        return (
            f"{self.words.capitalize()}: RG low {low:.3f}, intermediate {middle:.3f}, high "
            f"{high:.3f} in; differential {self.differential_in:.3f} in, intermediate "
            f"{self.intermediate_in:.3f} in."
        )


@dataclass(frozen=True)
class SpecScene:
    """A spec sheet against the legal limits and a uniform ball, before and after drilling.

    Parameters
    ----------
    title : str
        What the ball is called, and its weight and cover.
    uniform_rg_in : float
        RG of a uniform ball of that size [in].
    rows : tuple of SpecRow
        Undrilled, pin up, pin down.
    """

    title: str
    uniform_rg_in: float
    rows: tuple[SpecRow, SpecRow, SpecRow]

    def describe(self) -> str:
        """Return the whole picture in words."""
        least, most, differential = (
            sources.value(key) for key in ("rg_min", "rg_max", "differential_max")
        )
        parts = [
            f"{self.title}.",
            f"Scale of RG with the legal band from {least:.3f} to {most:.3f} in; a uniform ball of "
            f"this size has {self.uniform_rg_in:.3f} in for every axis.",
            f"Scale of differential with the legal limit of {differential:.3f} in.",
        ]
        return " ".join([*parts, *(row.describe() for row in self.rows)])


def spec_scene(reading: BallReading, name: str) -> SpecScene:
    """The picture of a reading; `name` is what the ball is called."""
    ball = reading.ball
    rows = [SpecRow("undrilled", "", (ball.rg_low_in, ball.rg_intermediate_in, ball.rg_high_in))]
    for label, setup in (("A", reading.pin_up), ("B", reading.pin_down)):
        d = setup.drilled
        rgs = d.rg_low_in, d.rg_intermediate_in, d.rg_high_in
        rows.append(SpecRow(setup.name, label, rgs))
    return SpecScene(
        title=f"{name}: {ball.weight_lb:g} lb, {ball.cover}",
        uniform_rg_in=reading.uniform_rg_in,
        rows=(rows[0], rows[1], rows[2]),
    )
