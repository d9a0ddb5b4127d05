"""The lane: an oil film, or uniform-friction zones."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from os import PathLike

import numpy as np
from numpy.typing import NDArray

from workbook import errors, lane_csv, patterns, sources, units

LENGTH_FT = int(sources.value("lane_length"))
BOARDS = int(sources.value("boards"))
UNIT_UM = sources.value("unit_volume") * units.MILLILITRE / units.FOOT**2 / units.MICROMETRE
NO_ZONES: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, eq=False)
class Lane:
    """A lane, as it lies when the ball arrives.

    Parameters
    ----------
    name : str
    film_um : array (61, 39)
        Oil film [um] at whole feet from the foul line (rows) and board centres (columns). Column 0
        is board 1 as seen by a **right-hander**, at the right edge of the lane.
    zones : tuple of (from_ft, coefficient)
        Uniform-friction zones in place of a film; empty for an oiled lane.

    Raises
    ------
    InputRefused
        A film of the wrong shape, negative, not finite or above 40 um.
    """

    name: str
    film_um: NDArray[np.float64]
    zones: tuple[tuple[float, float], ...] = NO_ZONES
    _kernel: tuple[NDArray[np.float64], NDArray[np.float64]] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        errors.instance("lane name", self.name, str)
        film = _film(self.film_um)
        film.flags.writeable = False
        object.__setattr__(self, "film_um", film)
        ends = [*[start for start, _ in self.zones[1:]], 10.0 * LENGTH_FT]
        table = [(end * units.FOOT, mu) for end, (_, mu) in zip(ends, self.zones, strict=False)]
        zones = np.array(table, dtype=float).reshape(-1, 2)
        object.__setattr__(self, "_kernel", (film * units.MICROMETRE, zones))

    def kernel_arrays(self, hand: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Film [m] with column 0 at the bowling hand's side, and zones (end [m], coefficient)."""
        film, zones = self._kernel
        return (film if hand == "right" else film[:, ::-1].copy()), zones

    @property
    def volume_ml(self) -> float:
        """Oil on the lane [mL]: the film summed over boards and feet."""
        area = units.FOOT * sources.value("lane_width") / BOARDS * units.INCH
        along = np.full(len(self.film_um), 1.0)
        along[0] = along[-1] = 0.5
        film = self.film_um.sum(axis=1) * units.MICROMETRE
        return float(along @ film) * area / units.MILLILITRE

    @property
    def length_ft(self) -> float:
        """Length of the pattern [ft]: the last foot with at least a tenth of a unit anywhere."""
        oiled = np.nonzero(self.film_um.max(axis=1) >= 0.1 * UNIT_UM)[0]
        return float(oiled[-1]) if len(oiled) else 0.0

    @property
    def units_table(self) -> NDArray[np.float64]:
        """The film in units of oil (61, 39); a unit is 0.0167 mL/ft2 (memory)."""
        return self.film_um / UNIT_UM

    @classmethod
    def house(cls) -> "Lane":
        """Our invented house condition: 40 ft, 24 mL, much oil in the middle, little outside."""
        return cls("house", patterns.house() * UNIT_UM)

    @classmethod
    def flat(cls) -> "Lane":
        """Our invented flat condition: the house's volume and length, nearly even across."""
        return cls("flat", patterns.flat() * UNIT_UM)

    @classmethod
    def heavy(cls) -> "Lane":
        """Our invented heavy condition: 46 ft and much oil."""
        return cls("heavy", patterns.heavy() * UNIT_UM)

    @classmethod
    def dry(cls) -> "Lane":
        """Our invented dry condition: 34 ft and little oil."""
        return cls("dry", patterns.dry() * UNIT_UM)

    @classmethod
    def reference(cls) -> "Lane":
        """The reference lane for ratings: the same film on all boards, about 25 mL over 40 ft."""
        return cls("reference", patterns.reference_um())

    @classmethod
    def from_csv(cls, path: str | PathLike[str]) -> "Lane":
        """Read a lane from our plain table (described in notebooks/lanes/README.md).

        Raises
        ------
        InputRefused
            A file that cannot be used, with row and column.
        """
        name, table = lane_csv.read(path)
        return cls(name, table * UNIT_UM)

    @classmethod
    def of_friction(cls, zones: Sequence[tuple[float, float]]) -> "Lane":
        """A lane without oil, of zones with uniform friction.

        Parameters
        ----------
        zones : sequence of (from_ft, coefficient)
            The first zone starts at 0 ft; starts grow [ft]; coefficients from 0 to 1.

        Raises
        ------
        InputRefused
            No zone, a wrong start or a coefficient outside 0 to 1.
        """
        return cls("friction zones", np.zeros((LENGTH_FT + 1, BOARDS)), _zones(zones))


def _film(given: object) -> NDArray[np.float64]:
    shape = (LENGTH_FT + 1, BOARDS)
    try:
        film = np.array(given, dtype=float)
    except (TypeError, ValueError):
        raise errors.InputRefused(f"film must be a table of {shape} numbers in um.") from None
    if film.shape != shape:
        raise errors.InputRefused(f"film has the shape {film.shape}, not {shape} (feet, boards).")
    bad = np.argwhere(~((film >= 0.0) & (film <= lane_csv.MOST_UNITS * UNIT_UM)))
    if len(bad):
        i, j = bad[0]
        raise errors.InputRefused(
            f"film {film[i, j]:g} um at {i} ft, board {j + 1} is outside 0 to "
            f"{lane_csv.MOST_UNITS * UNIT_UM:.3g} um."
        )
    return film


def _zones(given: object) -> tuple[tuple[float, float], ...]:
    if not isinstance(given, Sequence) or isinstance(given, str) or not given:
        raise errors.InputRefused("zones must be a list of (from ft, friction), at least one.")
    zones: list[tuple[float, float]] = []
    for i, zone in enumerate(given, 1):
        if not isinstance(zone, Sequence) or isinstance(zone, str) or len(zone) != 2:
            raise errors.InputRefused(f"zone {i} must be two numbers: from ft, and friction.")
        least = zones[-1][0] + 0.1 if zones else 0.0
        most = LENGTH_FT if zones else 0.0
        start = errors.number(f"start of zone {i}", zone[0], "ft", least, most)
        zones.append((start, errors.number(f"friction of zone {i}", zone[1], "", 0.0, 1.0)))
    return tuple(zones)
