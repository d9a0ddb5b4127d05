"""Holes and grips: where the holes are, how they are cut and what is put back into them."""

import math
from dataclasses import dataclass
from typing import Any

from workbook import errors, sources, units
from workbook.core import sphere
from workbook.inputs import Inputs, quantity

SPAN_IN = (2.0, 6.0)  # least and greatest span, cut to cut [in]
CIRCUMFERENCE_IN = sources.value("usual_circumference")


@dataclass(frozen=True, kw_only=True)
class Hole(Inputs):
    """A flat-bottomed hole, cut along a straight axis from a point of the surface.

    Parameters
    ----------
    over_in, up_in : float
        Where the axis enters: over along the midline from the grip centre (positive toward the
        ring-finger side), then up (positive toward the fingers) [in].
    diameter_in : float
        Diameter of the bore [in].
    depth_in : float
        Depth along the axis from the surface point [in].
    forward_pitch_in : float
        Pitch toward the palm [in]: the axis passes the ball's centre by this much, its bottom
        leaning toward the midline; negative is reverse pitch.
    lateral_pitch_in : float
        The same sideways, positive with the bottom leaning toward the ring-finger side [in].
    insert_inner_in : float, optional
        Hole left inside an insert or slug that fills the bore over its depth [in]; left out when
        the hole is bare.
    name : str
        "middle", "ring", "thumb" or a word of yours.

    Raises
    ------
    InputRefused
        A value is missing, of the wrong type or outside its limits.
    """

    over_in: float = quantity("hole over", "in", -6.75, 6.75)
    up_in: float = quantity("hole up", "in", -6.75, 6.75)
    diameter_in: float = quantity("hole diameter", "in", 0.25, 1.5)
    depth_in: float = quantity("hole depth", "in", 0.25, 4.0)
    forward_pitch_in: float = quantity("forward pitch", "in", -1.5, 1.5, 0.0)
    lateral_pitch_in: float = quantity("lateral pitch", "in", -1.5, 1.5, 0.0)
    insert_inner_in: float | None = quantity(
        "hole inside the insert", "in", 0.25, 1.5, None, optional=True
    )
    name: str = "hole"

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.insert_inner_in is not None and self.insert_inner_in >= self.diameter_in:
            raise errors.InputRefused(
                f"hole inside the insert {self.insert_inner_in:g} in is outside 0.25 in to less "
                f"than {self.diameter_in:g} in, the bore."
            )

    def entry(self, circumference_in: float) -> sphere.Vector:
        """Unit vector of the point where the axis enters a ball of that circumference [in]."""
        arc = units.arc_per_inch(circumference_in)
        return sphere.point(self.over_in * arc, self.up_in * arc)

    def inward(self, circumference_in: float) -> sphere.Vector:
        """Unit vector of the axis, into the ball, in the ball frame."""
        arc = units.arc_per_inch(circumference_in)
        out = self.entry(circumference_in)
        up = sphere.tangent_up(self.over_in * arc, self.up_in * arc)
        side = sphere.tangent_side(self.over_in * arc)
        palm = -up if self.up_in >= 0 else up
        lean = (self.forward_pitch_in * palm + self.lateral_pitch_in * side) * arc
        inward: sphere.Vector = lean - math.sqrt(1.0 - float(lean @ lean)) * out
        return inward

    def rim(self, circumference_in: float, points: int = 49) -> sphere.Vector:
        """Edge of the bore on the ball's surface: unit vectors, array (points, 3), closed."""
        arc = units.arc_per_inch(circumference_in)
        return sphere.bore_rim(
            self.entry(circumference_in),
            self.inward(circumference_in),
            self.diameter_in / 2 * arc,
            points,
        )


@dataclass(frozen=True)
class Grip:
    """The holes of a ball.

    Parameters
    ----------
    holes : sequence of Hole
        At most eight; an empty one is an undrilled ball.

    Raises
    ------
    InputRefused
        Not holes, too many, or two holes that run into each other at the surface.

    Notes
    -----
    A gripping hole that is not used in the delivery counts as a balance hole, and balance holes
    are not allowed from 1 Aug 2020 (published: USBC). Fit is for a qualified ball driller.
    """

    holes: tuple[Hole, ...] = ()

    def __post_init__(self) -> None:
        if not isinstance(self.holes, (list, tuple)):
            raise errors.InputRefused(
                f"holes must be a list of Hole, not {errors.shown(self.holes)}."
            )
        object.__setattr__(self, "holes", tuple(self.holes))
        for hole in self.holes:
            errors.instance("each hole of a grip", hole, Hole)
        if len(self.holes) > 8:
            raise errors.InputRefused(f"number of holes {len(self.holes)} is outside 0 to 8.")
        for i, a in enumerate(self.holes):
            for b in self.holes[:i]:
                self._refuse_overlap(a, b)

    @staticmethod
    def _refuse_overlap(a: Hole, b: Hole) -> None:
        entries = a.entry(CIRCUMFERENCE_IN), b.entry(CIRCUMFERENCE_IN)
        apart = sphere.angle(*entries) / units.arc_per_inch(CIRCUMFERENCE_IN)
        needed = (a.diameter_in + b.diameter_in) / 2
        if apart < needed:
            raise errors.InputRefused(
                f"distance between the centres of the {b.name} and {a.name} holes {apart:.3f} in "
                f"is outside {needed:g} in or more: the holes run into each other."
            )

    @property
    def has_thumb(self) -> bool:
        """Whether a hole lies on the thumb side of the midline."""
        return any(hole.up_in < 0 for hole in self.holes)

    def fingers(self, circumference_in: float) -> sphere.Vector:
        """Unit vector of the middle of the finger holes (straight up the centreline if none)."""
        up = [h.entry(circumference_in) for h in self.holes if h.up_in > 0]
        if not up:
            return sphere.point(0.0, 2.5 * units.arc_per_inch(circumference_in))
        total: sphere.Vector = sum(up[1:], up[0])
        return sphere.unit(total)

    @classmethod
    def usual(
        cls, span_in: float = sources.value("usual_span"), *, thumb: bool = True, **changes: Any
    ) -> "Grip":
        """A usual grip: two fingers with inserts and, unless `thumb` is false, a slugged thumb.

        Fingers 31/32 in bore, 1 3/4 in deep, 3/4 in inside the insert, 1/4 in bridge; thumb 1 in in
        a 1 3/8 in slug, 2 3/4 in deep; no pitch (sizes: memory, common practice). `span_in` is the
        span to both fingers, cut to cut [in]; `changes` are passed to `from_spans`.

        Raises
        ------
        InputRefused
            A span outside 2 to 6 in, or anything that `from_spans` refuses.
        """
        return cls.from_spans(middle_span_in=span_in, ring_span_in=span_in, thumb=thumb, **changes)

    @classmethod
    def from_spans(
        cls,
        *,
        middle_span_in: float,
        ring_span_in: float,
        bridge_in: float = sources.value("usual_bridge"),
        finger_bore_in: float = sources.value("usual_finger_bore"),
        finger_inner_in: float | None = sources.value("usual_finger_inner"),
        finger_depth_in: float = sources.value("usual_finger_depth"),
        thumb: bool = True,
        thumb_hole_in: float = sources.value("usual_thumb_hole"),
        thumb_slug_in: float | None = sources.value("usual_thumb_slug"),
        thumb_depth_in: float = sources.value("usual_thumb_depth"),
        middle_pitch_in: tuple[float, float] = (0.0, 0.0),
        ring_pitch_in: tuple[float, float] = (0.0, 0.0),
        thumb_pitch_in: tuple[float, float] = (0.0, 0.0),
        circumference_in: float = CIRCUMFERENCE_IN,
    ) -> "Grip":
        """A grip from spans measured cut to cut over the ball's surface.

        A span runs along the great circle between the centres of thumb and finger hole, from the
        edge of the thumb hole to the edge of the finger bore. The grip centre lies halfway between
        the cuts of the mean span, as if measured straight up the centreline. A **full** span, to
        the inside of the insert, is longer by the insert's wall: see `full_span_in`.

        Parameters
        ----------
        middle_span_in, ring_span_in : float
            Spans cut to cut [in].
        bridge_in : float
            Least distance between the finger bores [in].
        finger_bore_in, finger_inner_in, finger_depth_in : float
            Finger holes [in]; no insert when the inner diameter is None.
        thumb : bool
            Whether there is a thumb hole; without one the fingers stay where they would be.
        thumb_hole_in, thumb_slug_in, thumb_depth_in : float
            Thumb hole, the slug around it (None: bare) and depth [in].
        middle_pitch_in, ring_pitch_in, thumb_pitch_in : tuple of two floats
            Forward and lateral pitch of each hole [in], as in `Hole`.
        circumference_in : float
            Circumference of the ball [in].

        Raises
        ------
        InputRefused
            A value outside its limits, or holes that run into each other.
        """
        errors.instance("thumb", thumb, bool)
        arc = units.arc_per_inch(errors.circumference(circumference_in))
        middle = errors.number("middle span", middle_span_in, "in", *SPAN_IN)
        ring = errors.number("ring span", ring_span_in, "in", *SPAN_IN)
        bridge = errors.number("bridge", bridge_in, "in", 0.0, 2.0)
        finger_r = errors.number("finger bore", finger_bore_in, "in", 0.25, 1.5) / 2
        thumb_r = errors.number("thumb hole", thumb_hole_in, "in", 0.25, 1.5) / 2
        if thumb and thumb_slug_in is not None:
            slug = errors.number("hole diameter", thumb_slug_in, "in", 0.25, 1.5)
            if 2 * thumb_r >= slug:
                raise errors.InputRefused(
                    f"thumb hole {thumb_hole_in:g} in is outside 0.25 in to less than {slug:g} in, "
                    "the bore of its slug."
                )
        finger_edge, thumb_edge = (math.asin(r * arc) / arc for r in (finger_r, thumb_r))
        down = (middle + ring) / 4 + thumb_edge
        reaches = [span + finger_edge + thumb_edge for span in (middle, ring)]
        side = _side(reaches, 2 * finger_edge + bridge, down, arc)
        holes = []
        for name, reach, way, pitch in (
            ("middle", reaches[0], -1, middle_pitch_in), ("ring", reaches[1], 1, ring_pitch_in),
        ):  # fmt: skip
            over, up = _finger_place(reach, side, down, arc)
            holes.append(
                Hole(
                    over_in=way * over,
                    up_in=up,
                    diameter_in=finger_bore_in,
                    depth_in=finger_depth_in,
                    insert_inner_in=finger_inner_in,
                    name=name,
                    **_pitch(name, pitch),
                )
            )
        if thumb:
            holes.append(
                Hole(
                    over_in=0.0,
                    up_in=-down,
                    diameter_in=thumb_hole_in if thumb_slug_in is None else thumb_slug_in,
                    depth_in=thumb_depth_in,
                    insert_inner_in=None if thumb_slug_in is None else thumb_hole_in,
                    name="thumb",
                    **_pitch("thumb", thumb_pitch_in),
                )
            )
        return cls(tuple(holes))

    def span_in(self, finger: str, circumference_in: float = CIRCUMFERENCE_IN) -> float | None:
        """Span cut to cut [in] from the finished thumb hole to the bore of a finger hole.

        None for the thumb itself, for a hole that this grip does not have, or without a thumb hole.
        """
        found = {hole.name: hole for hole in self.holes}
        if finger == "thumb" or not {"thumb", finger} <= set(found):
            return None
        hole, thumb = found[finger], found["thumb"]
        arc = units.arc_per_inch(errors.circumference(circumference_in))
        inner = thumb.diameter_in if thumb.insert_inner_in is None else thumb.insert_inner_in
        edges = sum(math.asin(width / 2 * arc) / arc for width in (hole.diameter_in, inner))
        apart = sphere.angle(hole.entry(circumference_in), thumb.entry(circumference_in)) / arc
        return apart - edges

    def full_span_in(self, cut_to_cut_in: float, finger: str = "middle") -> float:
        """Full span [in]: the span cut to cut plus the wall of that finger's insert."""
        hole = next((h for h in self.holes if h.name == finger), None)
        if hole is None:
            raise errors.InputRefused(f"finger must be a hole of this grip, not {finger!r}.")
        inner = hole.diameter_in if hole.insert_inner_in is None else hole.insert_inner_in
        return cut_to_cut_in + (hole.diameter_in - inner) / 2


def _pitch(name: str, pitch: object) -> dict[str, float]:
    if not isinstance(pitch, (tuple, list)) or len(pitch) != 2:
        raise errors.InputRefused(
            f"{name} pitch must be two numbers (forward, lateral) in inches, not "
            f"{errors.shown(pitch)}."
        )
    return {"forward_pitch_in": pitch[0], "lateral_pitch_in": pitch[1]}


def _finger_up(reach: float, over: float, down: float, arc: float) -> float:
    """How far up [in] a finger hole lies for its centre to be `reach` [in] from the thumb's.

    With the thumb centre at (0, -d) and the finger at (o, u):
    cos(reach) = -sin d sin u + cos d cos u cos o, solved for u.
    """
    s, c = math.sin(down * arc), math.cos(down * arc) * math.cos(over * arc)
    return (math.acos(math.cos(reach * arc) / math.hypot(s, c)) - math.atan2(s, c)) / arc


def _side(reaches: list[float], apart: float, down: float, arc: float) -> float:
    """How far [in] each finger lies from the centreline for their centres to be `apart` [in].

    With equal spans it is half of that; unequal ones stagger the holes, which brings them closer
    to the centreline. Solved in turns.
    """
    side = apart / 2
    for _ in range(60):
        (o1, u1), (o2, u2) = (_finger_place(reach, side, down, arc) for reach in reaches)
        now = sphere.angle(sphere.point(-o1 * arc, u1 * arc), sphere.point(o2 * arc, u2 * arc))
        side = max(0.0, side + (apart - now / arc) / 2)
        if abs(apart - now / arc) < 1e-10:
            break
    return side


def _finger_place(reach: float, side: float, down: float, arc: float) -> tuple[float, float]:
    """Where (over, up) [in] a finger hole lies, `side` [in] from the centreline over the surface.

    The way over is measured along the midline, where it is longer by 1/cos(up): solved in turns.
    """
    over = up = 0.0
    for _ in range(30):
        up = _finger_up(reach, over, down, arc)
        over = math.asin(min(1.0, math.sin(side * arc) / math.cos(up * arc))) / arc
    return over, up
