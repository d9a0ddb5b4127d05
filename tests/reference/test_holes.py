"""Holes by a second method: a boolean of closed meshes, integrated over their triangles.

trimesh and manifold3d cut the holes out of a ball of triangles. With edges of length h the facets
lie up to h^2/8 inside the sphere; the mesh is scaled to the ball's volume, which removes the mean
of that, two meshes with h and h/2 are extrapolated (Richardson), and what the holes take is the
ball less the cut ball of the same mesh, so that only the facets over the holes count. The bore is a
prism scaled to the circle's area, which makes its second moments good to the fourth power of the
angle of a side. Mark: textbook mechanics, computed by other people's code.
"""

import itertools
import math

import numpy as np
import pytest
import trimesh

import workbook as wb
from tests.conftest import BOWLER, PIN_UP
from workbook.core import mass

pytestmark = pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")

INCH, POUND, G_CM3 = 0.0254, 0.45359237, 1000.0
CIRCUMFERENCE = 27.0
R = CIRCUMFERENCE / (2 * math.pi)  # meshes are in inches
SIDES = 96
TEN_THOUSANDTH = 1e-4  # of what a hole takes away


def sphere_mesh(subdivisions):
    ball = trimesh.creation.icosphere(subdivisions=subdivisions, radius=R)
    return ball.apply_scale((4 / 3 * math.pi * R**3 / ball.volume) ** (1 / 3))


BALLS = [sphere_mesh(n) for n in (4, 5)]  # edges of length h and h/2


def place(over, up):
    """Unit vectors of a point of the ball and of the ways over and up at it, by hand."""
    a, b = over / R, up / R
    return (
        np.array([math.cos(b) * math.sin(a), math.sin(b), math.cos(b) * math.cos(a)]),
        np.array([math.cos(a), 0.0, -math.sin(a)]),
        np.array([-math.sin(b) * math.sin(a), math.cos(b), -math.sin(b) * math.cos(a)]),
    )


def axis(hole):
    """Entry and inward unit vector; the palm lies toward the midline, lateral toward the ring."""
    out, side, up = place(hole.over_in, hole.up_in)
    palm = -up if hole.up_in >= 0 else up
    across = (hole.forward_pitch_in * palm + hole.lateral_pitch_in * side) / R
    return out, across - math.sqrt(1 - across @ across) * out


def bore(hole, diameter):
    """The prism of a bore: from its bottom to well outside of the ball."""
    entry, inward = axis(hole)
    turn = 2 * math.pi / SIDES
    radius = diameter / 2 * math.sqrt(turn / math.sin(turn))
    ends = [R * entry + hole.depth_in * inward, R * entry - 1.5 * inward]
    return trimesh.creation.cylinder(radius=radius, segment=ends, sections=SIDES)


def moments(mesh):
    """Volume, first moment and inertia about the ball's centre, packed into one array."""
    volume = mesh.volume
    inertia = mesh.moment_inertia_frame(np.eye(4))
    return np.concatenate([[volume], volume * mesh.center_mass, inertia.ravel()])


def taken(bores):
    """What cutting `bores` out of the ball takes away, extrapolated to a smooth ball."""
    coarse, fine = (
        moments(ball) - moments(trimesh.boolean.difference([ball, *bores], engine="manifold"))
        for ball in BALLS
    )
    return fine + (fine - coarse) / 3


def hole(over, up, diameter, depth, forward=0.0, lateral=0.0, inner=None):
    return wb.Hole(
        over_in=over, up_in=up, diameter_in=diameter, depth_in=depth, insert_inner_in=inner,
        forward_pitch_in=forward, lateral_pitch_in=lateral,
    )  # fmt: skip


def random_holes(n=8, seed=11):
    """Shallow and deep, radial, forward or reverse, left and right, both, bare and with a ring."""
    rng = np.random.default_rng(seed)
    pitches = [(0, 0), (0.6, 0), (-0.6, 0), (0, 0.6), (0, -0.6), (0.5, 0.4), (-0.5, -0.4), (0, 0)]
    for i in range(n):
        where, diameter = rng.uniform(-3, 3, 2), rng.uniform(0.7, 1.4)
        depth = rng.uniform(0.5, 1.2) if i % 2 else rng.uniform(2.0, 3.5)
        inner = diameter - rng.uniform(0.2, 0.4) if i % 3 == 0 else None
        yield hole(*where, diameter, depth, *pitches[i], inner)


@pytest.mark.parametrize("one", list(random_holes()), ids=lambda h: f"{h.depth_in:.2f} deep")
def test_moments_of_one_hole(one):
    entry, inward = axis(one)
    for diameter in filter(None, (one.diameter_in, one.insert_inner_in)):
        found = mass.cylinder(
            R * INCH, R * INCH * entry, inward, diameter / 2 * INCH, one.depth_in * INCH
        )
        expected = taken([bore(one, diameter)])
        assert found.mass / INCH**3 == pytest.approx(expected[0], rel=TEN_THOUSANDTH)
        for mine, other in (
            (found.first / INCH**4, expected[1:4]), (found.inertia / INCH**5, expected[4:]),
        ):  # fmt: skip
            assert np.linalg.norm(mine.ravel() - other) < TEN_THOUSANDTH * np.linalg.norm(other)


def meet(one, other):
    """Whether two bores meet inside the ball: there the library cuts twice, as it says."""
    meshes = [bore(h, h.diameter_in) for h in (one, other)]
    return not trimesh.boolean.intersection(meshes, engine="manifold").is_empty


def random_grips(n=30, seed=5):
    """Two fingers, mostly a thumb, with pitches, some with rings, no bores that meet."""
    rng = np.random.default_rng(seed)
    while n:
        holes = []
        for over, up, bores, depths in (
            (-1.0, 2.6, (0.85, 1.0), (1.2, 1.8)),
            (1.0, 2.6, (0.85, 1.0), (1.2, 1.8)),
            (0.0, -2.6, (1.1, 1.4), (2.4, 3.0)),
        ):
            at = np.add((over, up), rng.uniform(-0.2, 0.2, 2))
            diameter, depth = rng.uniform(*bores), rng.uniform(*depths)
            pitches = rng.uniform(-0.4, 0.4, 2)
            inner = diameter - rng.uniform(0.2, 0.35) if rng.random() < 0.6 else None
            holes.append(hole(*at, diameter, depth, *pitches, inner))
        if n % 5 == 0:
            holes.pop()  # thrown without a thumb hole
        if not any(meet(*pair) for pair in itertools.combinations(holes, 2)):
            n -= 1
            yield tuple(holes)


@pytest.fixture(scope="module")
def grips():
    return list(random_grips())


@pytest.mark.parametrize("number", [
    *range(3), *(pytest.param(i, marks=pytest.mark.slow) for i in range(3, 30)),
])  # fmt: skip
def test_whole_drilled_ball(number, grips):
    """Mass, centre of mass and inertia of a drilled ball, against a union of meshes."""
    holes, draw = grips[number], np.random.default_rng(number).uniform
    ring_density, weight = draw(1.0, 1.3), draw(12.0, 16.0)
    low, differential = draw(2.46, 2.58), draw(0.01, 0.06)
    filler = draw(0.7, 1.3) if number % 2 else None
    ball = wb.Ball(weight_lb=weight, rg_low_in=low, differential_in=differential, cover="urethane",
                   filler_density_g_cm3=filler)  # fmt: skip
    assumed = wb.Assumptions(insert_density=ring_density)
    drilled = wb.drill(ball, PIN_UP, wb.Grip(holes), BOWLER, assumed)

    bores = [bore(h, h.diameter_in) for h in holes]
    removed = taken(bores)
    inserts = [(bore(h, h.diameter_in), bore(h, h.insert_inner_in))
               for h in holes if h.insert_inner_in]  # fmt: skip
    rings = sum((taken([outer]) - taken([inner]) for outer, inner in inserts), np.zeros(13))

    volume = 4 / 3 * math.pi * (R * INCH) ** 3
    mean = filler * G_CM3 if filler else weight * POUND / volume
    scale = INCH ** np.repeat([3, 4, 5], [1, 3, 9])
    change = scale * (ring_density * G_CM3 * rings - mean * removed)
    # symmetric core: low RG about the pin, the same high RG about everything square to it
    pin, _, _ = place(*drilled.marks.pin_in)
    high = low + differential
    own = weight * POUND * INCH**2 * (
        high**2 * np.eye(3) + (low**2 - high**2) * np.outer(pin, pin)
    )  # fmt: skip
    kept = weight * POUND + change[0]
    c = change[1:4] / kept
    about_c = own + change[4:].reshape(3, 3) - kept * (c @ c * np.eye(3) - np.outer(c, c))

    assert drilled.weight_lb * POUND == pytest.approx(kept, abs=TEN_THOUSANDTH * abs(change[0]))
    found = np.array(drilled.center_of_mass_in) * INCH
    assert np.linalg.norm(found - c) < TEN_THOUSANDTH * np.linalg.norm(c)
    off = drilled.inertia_per_mass * drilled.weight_lb * POUND - about_c
    assert np.linalg.norm(off) < TEN_THOUSANDTH * np.linalg.norm(change[4:])
