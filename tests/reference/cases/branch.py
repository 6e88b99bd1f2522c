"""A round branch on a round vessel, met numerically: no formula of the curve is used.

Each ruling of the branch is a line in space. Where it leaves the vessel is found by root finding on
its distance from the vessel's axis; the place on the unrolled shell by integrating arc length.
"""

import itertools

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar
from scipy.spatial.transform import Rotation

RULINGS = 16
VESSEL_AXIS = np.array([0.0, 0.0, 1.0])


def distance_from_axis(point):
    """Distance of a point from the vessel's axis, by the cross product."""
    return np.linalg.norm(np.cross(point, VESSEL_AXIS))


def outer_meeting(start, direction, radius):
    """How far along a line it leaves the vessel."""
    far = 50.0 * radius

    def beyond(along):
        return distance_from_axis(start + along * direction) - radius

    nearest = minimize_scalar(beyond, bounds=(-far, far), method="bounded", options={"xatol": 1e-12}).x
    if beyond(nearest) > 0.0:
        # Touches within the tolerance of the search.
        return nearest
    return brentq(beyond, nearest, far, xtol=1e-13, rtol=1e-14)


def arc(y_from, y_to, radius):
    """Length along the shell between two places beside the middle, by integration over the side angle."""
    # The shell near the branch is x(y); its length is the integral of sqrt(1 + x'^2). With
    # y = radius tanh(u) the slope stays integrable up to the very side of the shell.
    def length(u):
        y = radius * np.tanh(u)
        slope_x = -y / np.sqrt(max(radius**2 - y**2, 1e-300))
        return np.sqrt(1.0 + slope_x**2) * radius / np.cosh(u) ** 2

    limit = 18.0
    bounds = [np.clip(np.arctanh(np.clip(y / radius, -1.0, 1.0)), -limit, limit) for y in (y_from, y_to)]
    return quad(length, *bounds, epsabs=1e-13, epsrel=1e-12, limit=400)[0]


def case(vessel, branch, lean, offset):
    # Frame of the branch: its own axis, its top, its right seen from outside. Tilting about the
    # right-hand axis leans it upwards; offset moves the whole line to the right.
    tilt = Rotation.from_rotvec([0.0, -np.radians(90.0 - lean), 0.0])
    axis, top = tilt.apply([1.0, 0.0, 0.0]), tilt.apply([0.0, 0.0, 1.0])
    right = np.array([0.0, 1.0, 0.0])
    origin = offset * right
    to_shell = outer_meeting(origin, axis, vessel)
    middle = origin + to_shell * axis
    rows = []
    for step in range(RULINGS):
        around = 2.0 * np.pi * step / RULINGS
        spoke = Rotation.from_rotvec(-around * axis).apply(top)
        # Rotating the top clockwise seen along the axis brings it to the right seen from outside.
        if step == RULINGS // 4:
            assert np.allclose(spoke, right)
        start = origin + branch * spoke
        along = outer_meeting(start, axis, vessel)
        point = start + along * axis
        rows.append(
            {
                "around_deg": np.degrees(around),
                "cut_m": along - to_shell,
                "along_m": arc(middle[1], point[1], vessel),
                "up_m": point[2] - middle[2],
            }
        )
    return {
        "vessel_radius_m": vessel,
        "branch_radius_m": branch,
        "lean_deg": lean,
        "offset_m": offset,
        **{name: [row[name] for row in rows] for name in rows[0]},
    }


def files():
    cases = []
    for vessel, share, lean, sideways in itertools.product(
        (0.0805, 0.175, 0.2315), (0.06, 0.3, 0.62), (30.0, 60.0, 90.0, 125.0), (0.0, 0.45, -0.9)
    ):
        branch = share * vessel
        # The widest offset of the grid still leaves a hair of shell beside the branch.
        cases.append(case(vessel, branch, lean, sideways * (vessel - branch)))
    cases.append(case(0.1, 0.0999, 90.0, 0.0))
    return {"branch.json": {"cases": cases, "relative_tolerance": 1e-5}}
