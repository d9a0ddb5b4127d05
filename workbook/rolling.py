"""Roll a setup down a lane: from the trade's inputs to the kernel and back."""

import math
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from workbook import errors, sources, units
from workbook.core import mass, release, sphere, summary
from workbook.core import roll as kernel
from workbook.drilling import cut
from workbook.lane import Lane
from workbook.layout import Layout
from workbook.line import BOARD_IN, Line, across_m, board_at
from workbook.path import Path, Ring
from workbook.setup import Setup

Array = NDArray[np.float64]
Kind = TypeVar("Kind")
TOLERANCE = 1e-6
NO_TRACKS = np.empty((0, 0))
NEARLY_ONE = math.cos(1e-3)  # of an angle at which a turn can still be told
CHUNK = 64  # shots that one thread rolls at a time, at most
ANYWHERE = 1e6  # half width of a lane without gutters [m]


@dataclass(frozen=True, eq=False)
class Shot:
    """One shot. Boards count from the bowler's own side; None where there is nothing to report.

    Parameters
    ----------
    entry_board, entry_angle_deg, entry_speed_mph, time_s : float or None
        Of the ball's centre at 60 ft [board, deg, mph, s]; the angle is positive toward growing
        boards. None when the ball did not get there.
    arrow_board : float or None
        Board where it crosses the arrows [board].
    breakpoint_board, breakpoint_ft : float
        Outermost board and its distance [board, ft].
    total_hook_boards : float or None
        Boards between where it crosses 60 ft and where the launch line would [board].
    length_ft : float or None
        Distance at which half of the release slip has gone [ft].
    roll_ft : float or None
        Distance at which a tenth of it is left [ft]; None if not before the pins.
    sharpness_deg : float
        Most turn in any 5 ft [deg]; low is smooth.
    flare_in : float
        Greatest distance between the spin axes of any two revolutions on oil [in].
    gutter_ft : float or None
        Distance at which the centre leaves the lane [ft].
    rings : tuple of Ring
        The oil rings on the ball, one a revolution.
    path : Path
    notes : tuple of str
        What is doubtful about this shot.
    """

    entry_board: float | None
    entry_angle_deg: float | None
    entry_speed_mph: float | None
    time_s: float | None
    arrow_board: float | None
    breakpoint_board: float
    breakpoint_ft: float
    total_hook_boards: float | None
    length_ft: float | None
    roll_ft: float | None
    sharpness_deg: float
    flare_in: float
    gutter_ft: float | None
    rings: tuple[Ring, ...]
    path: Path
    notes: tuple[str, ...]

    @property
    def turns_back(self) -> bool:
        """Whether there is a breakpoint: not for a ball that goes straight into the gutter."""
        return self.gutter_ft is None or self.breakpoint_ft < self.gutter_ft - 1.0

    @property
    def already_rolls(self) -> bool:
        """Whether there is hardly any slip at release, so that there is no length and no roll."""
        return float(self.path.table[0, kernel.SLIP]) <= sources.value("least_slip")


@dataclass(frozen=True, eq=False)
class Shots:
    """Many shots, one array entry each; NaN where `Shot` has None. Meanings as in `Shot`."""

    entry_board: Array
    entry_angle_deg: Array
    entry_speed_mph: Array
    time_s: Array
    arrow_board: Array
    breakpoint_board: Array
    breakpoint_ft: Array
    total_hook_boards: Array
    length_ft: Array
    roll_ft: Array
    sharpness_deg: Array
    flare_in: Array
    gutter_ft: Array

    def __len__(self) -> int:
        return len(self.entry_board)


def roll(setup: Setup, lane: Lane, line: Line, *, gutters: bool = True) -> Shot:
    """Roll one shot; without `gutters` the lane is as wide as the ball needs.

    Full rigid body (textbook mechanics) with the friction model of `Assumptions`.

    Raises
    ------
    InputRefused
        Something that is not what its name says.
    """
    _check(setup, lane, line)
    errors.instance("gutters", gutters, bool)
    body = Body.of(setup)
    shot = np.array(record(body, setup, line, friction(setup), gutters=gutters), kernel.SHOT)[()]
    film, zones = lane.kernel_arrays(setup.bowler.hand)
    table = np.empty((kernel.MAX_STEPS, len(kernel.COLUMNS)))
    rings = np.empty((summary.MOST_RINGS, summary.RING))
    result = np.zeros(1, summary.RESULT)
    rows, end = kernel.roll(shot, film, zones, table)
    summary.summarize(shot, table, rows, end, len(zones) == 0, ARROWS, rings, result[0])
    columns = _columns(result, np.array([setup.ball.radius_m]))
    values = {k: None if math.isnan(v[0]) else float(v[0]) for k, v in columns.items()}
    axes = body.principal[1]
    return Shot(
        **values,  # type: ignore[arg-type]
        rings=tuple(Ring.from_row(row, axes) for row in rings[: int(result["rings"][0])]),
        path=Path(table[:rows].copy(), axes),
        notes=_notes(end, float(result["least_load"][0])),
    )


def roll_many(
    setups: Setup | Sequence[Setup],
    lane: Lane,
    lines: Line | Sequence[Line],
    *,
    workers: int | None = None,
) -> Shots:
    """Roll many shots on one lane, on all cores; paths are not kept.

    Parameters
    ----------
    setups, lines : one or a sequence
        Sequences of the same length n; a single one is used for all.
    lane : Lane
    workers : int, optional
        Threads; the number of cores by default.

    Returns
    -------
    Shots
        Arrays (n,).

    Raises
    ------
    InputRefused
        Sequences of different lengths, an empty one, or something that is not what its name says.
    """
    many_setups, many_lines = _many("setups", setups, Setup), _many("lines", lines, Line)
    n = max(len(many_setups), len(many_lines))
    for words, given in (("setups", many_setups), ("lines", many_lines)):
        if len(given) not in (1, n):
            raise errors.InputRefused(f"number of {words} {len(given)} must be 1 or {n}.")
    if workers is not None:
        workers = errors.whole("number of workers", workers, 1, 1024)
    if len(many_setups) == 1:
        many_setups *= n
    if len(many_lines) == 1:
        many_lines *= n
    for setup, line in zip(many_setups, many_lines, strict=True):
        _check(setup, lane, line)
    order = sorted(range(n), key=lambda i: many_setups[i].bowler.hand)
    bodies: dict[int, Body] = {}
    shots, results = np.empty(n, kernel.SHOT), np.zeros(n, summary.RESULT)
    with _Rolling(lane, n, workers) as rolling:
        for hand, places in groupby(range(n), lambda place: many_setups[order[place]].bowler.hand):
            for chunk in _chunks(list(places)):
                # a chunk is packed here while the threads roll the ones before
                for place in chunk:
                    setup, line = many_setups[order[place]], many_lines[order[place]]
                    if id(setup.drilled) not in bodies:
                        bodies[id(setup.drilled)] = Body.of(setup)
                    shots[place] = record(bodies[id(setup.drilled)], setup, line, friction(setup))
                rolling.start(shots, results, NO_TRACKS, hand, chunk)
    as_given = np.argsort(order)
    return shots_from(results[as_given], shots[as_given])


def roll_records(
    shots: NDArray[np.void],
    lane: Lane,
    hand: str,
    *,
    tracks: Array | None = None,
    workers: int | None = None,
) -> NDArray[np.void]:
    """Roll packed shots (dtype SHOT) in chunks on a few threads; the kernel frees the lock.

    An array `tracks` (shots, feet) receives x [m] at every whole foot from the foul line.
    """
    results = np.zeros(len(shots), summary.RESULT)
    with _Rolling(lane, len(shots), workers) as rolling:
        for chunk in _chunks(range(len(shots))):
            rolling.start(shots, results, NO_TRACKS if tracks is None else tracks, hand, chunk)
    return results


def _chunks(places: Sequence[int]) -> Iterator[Sequence[int]]:
    size = _chunk(len(places))
    for begin in range(0, len(places), size):
        yield places[begin : begin + size]


def _chunk(n: int) -> int:
    """Shots that a thread rolls at a time: few, so that all threads end together; not too few."""
    return min(CHUNK, max(CHUNK // 8, -(-n // 8)))


class _Rolling:
    """A few threads that roll chunks of packed shots; waits for all of them at its end."""

    def __init__(self, lane: Lane, n: int, workers: int | None) -> None:
        self.lane, self.jobs = lane, list[Future[None]]()
        threads = min(workers or os.cpu_count() or 1, -(-n // _chunk(n)))
        self.pool = ThreadPoolExecutor(threads) if threads > 1 else None

    def __enter__(self) -> "_Rolling":
        return self

    def __exit__(self, kind: type[BaseException] | None, *_why: object) -> None:
        if self.pool:
            self.pool.shutdown(cancel_futures=kind is not None)
            for job in self.jobs if kind is None else ():  # a refusal of ours comes first
                job.result()

    def start(
        self,
        shots: NDArray[np.void],
        results: NDArray[np.void],
        tracks: Array,
        hand: str,
        chunk: Sequence[int],
    ) -> None:
        """Roll the shots of a chunk, now or soon."""
        film, zones = self.lane.kernel_arrays(hand)
        job = (shots, film, zones, ARROWS, results, tracks, chunk[0], chunk[-1] + 1)
        if self.pool:
            self.jobs.append(self.pool.submit(summary.roll_batch, *job))
        else:
            summary.roll_batch(*job)


@dataclass(frozen=True, eq=False)
class Body:
    """What rolling needs to know of a drilled ball: size [m], inertia per mass [m^2], c [m].

    Inertia about the centre of mass and c from the ball's centre, both in the ball frame.
    """

    radius: float
    inertia: sphere.Matrix
    c: sphere.Vector

    @classmethod
    def of(cls, setup: Setup) -> "Body":
        """The body of a setup's drilled ball."""
        d = setup.drilled
        return cls(
            setup.ball.radius_m, d.inertia_per_mass, np.array(d.center_of_mass_in) * units.INCH
        )

    @classmethod
    def laid_out(cls, setup: Setup, layout: Layout) -> tuple["Body", float]:
        """The body of a setup's ball in another layout, and its mass [kg]: quicker than drilling.

        Without warnings, and without what only a whole `Drilled` knows.
        """
        ball, assumed = setup.ball, setup.assumptions
        pin, psa, cg = layout.directions(setup.bowler.pap, ball)
        total, c, inertia = cut(
            ball, setup.grip, pin, psa, assumed.kappa * cg,
            assumed.insert_density, assumed.filler_ratio,
        )  # fmt: skip
        return cls(ball.radius_m, inertia / total, c), total

    @cached_property
    def principal(self) -> tuple[Array, sphere.Matrix]:
        """Principal moments per mass, growing, and their axes as rows in the ball frame."""
        return mass.principal(self.inertia)


ARROWS = np.array(
    [
        sources.value("arrow_center_ft") * units.FOOT,
        (sources.value("arrow_center_ft") - sources.value("arrow_outer_ft"))
        * units.FOOT
        / (15.0 * BOARD_IN * units.INCH),
    ]
)


def record(
    body: Body,
    thrower: Setup,
    line: Line,
    surface: tuple[float, ...],
    *,
    gutters: bool = True,
) -> tuple[float, ...]:
    """The kernel's record: `body` thrown with the release of `thrower` (bowler, PAP, fingers).

    Body, release and surface come apart so that a comparison can swap them one by one.
    """
    bowler, circumference = thrower.bowler, thrower.ball.circumference_in
    moments, axes = body.principal
    launch = line.angle_deg * units.DEGREE
    pap = bowler.pap.vector(circumference)
    axis = release.axis_in_lane(
        bowler.axis_rotation_deg * units.DEGREE, bowler.axis_tilt_deg * units.DEGREE, launch
    )
    fingers = thrower.grip.fingers(circumference)
    if float(pap @ fingers) > NEARLY_ONE:
        raise errors.InputRefused(
            f"PAP {bowler.pap_over_in:g} in over, {bowler.pap_up_in:g} in up lies on the fingers: "
            "no turn at release can be told there."
        )
    ball_to_lane = release.attitude(pap, fingers, axis, bowler.release_phase_deg * units.DEGREE)
    c_lane = ball_to_lane @ body.c
    speed = bowler.speed_mph * units.MPH
    # the line is that of the ball's centre, the speed that of the centre of mass
    return (
        body.radius, sources.value("gravity"), *moments, *(axes @ body.c),
        across_m(line.laydown_board) + c_lane[0], c_lane[1],
        speed * math.sin(launch), speed * math.cos(launch),
        *(bowler.rev_rate_rpm * units.RPM * (axes @ pap)),
        *release.quaternion(ball_to_lane @ axes.T),
        *surface,
        BOARD_IN * units.INCH, units.FOOT, sources.value("lane_length") * units.FOOT,
        sources.value("lane_width") / 2 * units.INCH if gutters else ANYWHERE,
        TOLERANCE, sources.value("least_slip"),
    )  # fmt: skip


def friction(setup: Setup) -> tuple[float, ...]:
    """The friction fields of the kernel's record, in its order, SI."""
    assumed, cover = setup.assumptions, setup.ball.cover
    return (
        assumed.slip_scale,
        assumed.mu_oil,
        getattr(assumed, f"mu_dry_{cover}"),
        assumed.film_cap * units.MICROMETRE,
        assumed.film_ratio * setup.surface.combined_roughness_um(assumed) * units.MICROMETRE,
        getattr(assumed, f"absorbed_{cover}"),
        assumed.kept,
        assumed.track_width * units.INCH,
        assumed.ring_film * units.MICROMETRE,
    )


def shots_from(results: NDArray[np.void], shots: NDArray[np.void]) -> Shots:
    """The kernel's results of those records in the trade's units."""
    return Shots(**_columns(results, shots["radius"]))


def _columns(results: NDArray[np.void], radius: Array) -> dict[str, Array]:
    """The reported quantities from the kernel's results; NaN where there are none."""
    there = results["end"] == kernel.AT_PINS
    gutter = results["end"] == kernel.IN_GUTTER

    def at_pins(values: Array) -> Array:
        return np.where(there, values, np.nan)

    return {
        "entry_board": at_pins(board_at(results["x"])),
        "entry_angle_deg": at_pins(results["direction"] / units.DEGREE),
        "entry_speed_mph": at_pins(results["speed"] / units.MPH),
        "time_s": at_pins(results["time"]),
        "arrow_board": board_at(results["arrows_x"]),
        "breakpoint_board": board_at(results["outermost_x"]),
        "breakpoint_ft": results["outermost_y"] / units.FOOT,
        "total_hook_boards": at_pins(results["hook"] / (BOARD_IN * units.INCH)),
        "length_ft": results["half_slip_y"] / units.FOOT,
        "roll_ft": results["roll_y"] / units.FOOT,
        "sharpness_deg": results["sharpest"] / units.DEGREE,
        "flare_in": results["flare"] * radius / units.INCH,
        "gutter_ft": np.where(gutter, results["y"] / units.FOOT, np.nan),
    }


def _notes(end: int, least_load: float) -> tuple[str, ...]:
    notes = []
    if end == kernel.UNFINISHED:
        notes.append("The shot could not be followed to the pins; what is shown ends there.")
    if least_load <= 0.0:
        notes.append(
            "The mass is so far off centre that the ball would hop; the model keeps it on the "
            "lane, so this shot is doubtful."
        )
    return tuple(notes)


def _many(words: str, given: Kind | Sequence[Kind], kind: type[Kind]) -> list[Kind]:
    if isinstance(given, kind):
        return [given]
    if not isinstance(given, Sequence):
        raise errors.InputRefused(
            f"{words} must be a {kind.__name__} or a list of them, not {errors.shown(given)}."
        )
    many: list[Kind] = list(given)
    if not many:
        raise errors.InputRefused(f"number of {words} 0 is outside 1 or more.")
    return many


def _check(setup: object, lane: object, line: object) -> None:
    for words, given, kind in (("setup", setup, Setup), ("lane", lane, Lane), ("line", line, Line)):
        errors.instance(words, given, kind)
