"""The lane: an oil film, or uniform-friction zones."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from os import PathLike

import numpy as np
from numpy.typing import NDArray

from workbook import errors, lane_csv, patterns, sources, units
from workbook.inputs import Required

STANDARD = ("house", "flat", "heavy", "dry", "reference")  # made by the methods of these names
LENGTH_FT = int(sources.value("lane_length"))
BOARDS = int(sources.value("boards"))
POCKET_BOARDS = sources.value("pocket_low"), sources.value("pocket_high")
POCKET_DEG = sources.value("pocket_angle_low"), sources.value("pocket_angle_high")
UNIT_UM = sources.value("unit_volume") * units.MILLILITRE / units.FOOT**2 / units.MICROMETRE
MOST_UM = lane_csv.MOST_UNITS * UNIT_UM
LEAST_ZONE_FT = 0.1
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
        A film of the wrong shape, negative, not finite or above 200 units (about 36 um); zones that
        do not start at 0 ft or do not grow; a coefficient outside 0 to 1.
    """

    name: str = Required
    film_um: NDArray[np.float64] = Required
    zones: tuple[tuple[float, float], ...] = NO_ZONES
    _kernel: tuple[NDArray[np.float64], NDArray[np.float64]] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        errors.text("lane name", self.name)
        film = _film(self.film_um)
        film.flags.writeable = False
        zones = _zones(self.zones)
        object.__setattr__(self, "film_um", film)
        object.__setattr__(self, "zones", zones)
        ends = [*[start for start, _ in zones[1:]], 10.0 * LENGTH_FT]
        table = [(end * units.FOOT, mu) for end, (_, mu) in zip(ends, zones, strict=False)]
        packed = np.array(table, dtype=float).reshape(-1, 2)
        object.__setattr__(self, "_kernel", (film * units.MICROMETRE, packed))

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
        """Length of the pattern [ft]: the last foot with at least 1.5 units anywhere."""
        oiled = np.nonzero(self.film_um.max(axis=1) >= sources.value("oiled_from") * UNIT_UM)[0]
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
        lane = cls("friction zones", np.zeros((LENGTH_FT + 1, BOARDS)), zones)  # type: ignore[arg-type]
        if not lane.zones:
            raise errors.InputRefused("zones are missing: give at least one (from ft, friction).")
        return lane


def _film(given: object) -> NDArray[np.float64]:
    shape = (LENGTH_FT + 1, BOARDS)
    try:
        table = np.asarray(given)
    except (TypeError, ValueError, OverflowError):  # rows of different lengths, say
        table = np.empty(0, dtype=object)
    if table.dtype.kind not in "iuf":
        holder = isinstance(given, (list, tuple, np.ndarray))
        what = "of something else" if holder else errors.shown(given)
        raise errors.InputRefused(f"film must be a table of {shape} numbers in um, not {what}.")
    if table.shape != shape:
        raise errors.InputRefused(
            f"film has the shape {errors.one_line(str(table.shape))}, not {shape} (feet, boards)."
        )
    film = table.astype(float)
    bad = np.argwhere(~((film >= 0.0) & (film <= MOST_UM)))
    if len(bad):
        i, j = bad[0]
        raise errors.InputRefused(
            f"film {errors.shown(float(film[i, j]))} um at {i} ft, board {j + 1} is outside 0 to "
            f"{MOST_UM:g} um."
        )
    return film


def _zones(given: object) -> tuple[tuple[float, float], ...]:
    if not isinstance(given, (list, tuple)):
        raise errors.InputRefused(
            f"zones must be a list of (from ft, friction), not {errors.shown(given)}."
        )
    zones: list[tuple[float, float]] = []
    for i, zone in enumerate(given, 1):
        if not isinstance(zone, (list, tuple)) or len(zone) != 2:
            raise errors.InputRefused(
                f"zone {i} must be two numbers (from ft, friction), not {errors.shown(zone)}."
            )
        start = errors.number(f"zone-{i} start", zone[0], "ft", 0.0, LENGTH_FT)
        if not zones and start != 0.0:
            raise errors.InputRefused(
                f"zone-1 start {errors.shown(start)} ft must be 0 ft, the foul line."
            )
        if zones and start < zones[-1][0] + LEAST_ZONE_FT - 1e-9:
            raise errors.InputRefused(
                f"zone-{i} start {errors.shown(start)} ft must be at least {LEAST_ZONE_FT:g} ft "
                f"past zone {i - 1}, which starts at {errors.shown(zones[-1][0])} ft."
            )
        zones.append((start, errors.number(f"zone-{i} friction", zone[1], "", 0.0, 1.0)))
    return tuple(zones)
