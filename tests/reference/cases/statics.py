"""Mass and centre of gravity of parts by numerical integration, hulls and tip angles."""

import math

import numpy as np
from scipy.integrate import quad
from scipy.spatial import ConvexHull

STEEL_KG_PER_M3 = 7850.0


def revolved(area_at, low, high, density):
    """Mass and height of the centre of gravity of a body with this cross-section over its height."""
    breaks = {"epsabs": 1e-14, "epsrel": 1e-12, "limit": 400}
    volume = quad(area_at, low, high, **breaks)[0]
    moment = quad(lambda z: z * area_at(z), low, high, **breaks)[0]
    return {"mass_kg": density * volume, "centre_height_m": moment / volume}


def tubes():
    rows = []
    for outside, wall, length in [(0.06, 0.003, 0.5), (0.3, 0.0015, 1.2), (0.6, 0.002, 0.9), (0.1, 0.05, 0.4)]:
        section = math.pi / 4 * (outside**2 - (outside - 2 * wall) ** 2)
        rows.append(
            {
                "outside_diameter_m": outside,
                "wall_m": wall,
                "length_m": length,
                "density_kg_per_m3": STEEL_KG_PER_M3,
                **revolved(lambda z: section, 0.0, length, STEEL_KG_PER_M3),
            }
        )
    return rows


def plates():
    rows = []
    for width, depth, thickness in [(0.4, 0.6, 0.006), (0.66, 0.66, 0.003), (0.05, 1.0, 0.01)]:
        rows.append(
            {
                "width_m": width,
                "depth_m": depth,
                "thickness_m": thickness,
                "density_kg_per_m3": STEEL_KG_PER_M3,
                **revolved(lambda z: width * depth, 0.0, thickness, STEEL_KG_PER_M3),
            }
        )
    return rows


def rings():
    rows = []
    for outside, inside, thickness in [(0.4, 0.2, 0.006), (0.3, 0.06, 0.012), (0.5, 0.0, 0.004)]:
        section = math.pi / 4 * (outside**2 - inside**2)
        rows.append(
            {
                "outside_diameter_m": outside,
                "inside_diameter_m": inside,
                "thickness_m": thickness,
                "density_kg_per_m3": STEEL_KG_PER_M3,
                **revolved(lambda z: section, 0.0, thickness, STEEL_KG_PER_M3),
            }
        )
    return rows


def dished_ends():
    """2:1 ellipsoidal head, rim down, without a straight flange.

    Thin: area of the middle surface (diameter = outside diameter less the wall, depth a quarter of it)
    times the wall. Solid: between the inside ellipsoid (depth a quarter of the inside diameter) and an
    outside ellipsoid deeper by the wall. Sheet of even thickness lies between the two.
    """
    rows = []
    for outside, wall in [(0.3, 0.003), (0.4, 0.002), (0.6, 0.006)]:
        a = (outside - wall) / 2
        b = a / 2

        def ring(angle):
            # Surface element of the ellipsoid x = a cos u, z = b sin u.
            return 2 * math.pi * a * math.cos(angle) * math.hypot(a * math.sin(angle), b * math.cos(angle))

        area = quad(ring, 0, math.pi / 2, epsrel=1e-12)[0]
        moment = quad(lambda u: b * math.sin(u) * ring(u), 0, math.pi / 2, epsrel=1e-12)[0]
        ro, ri = outside / 2, outside / 2 - wall
        bo, bi = ri / 2 + wall, ri / 2

        def section(z):
            inner = math.pi * ri**2 * (1 - (z / bi) ** 2) if z < bi else 0.0
            return math.pi * ro**2 * (1 - (z / bo) ** 2) - inner

        lower = revolved(section, 0.0, bi, STEEL_KG_PER_M3)
        crown = revolved(section, bi, bo, STEEL_KG_PER_M3)
        mass = lower["mass_kg"] + crown["mass_kg"]
        height = sum(p["mass_kg"] * p["centre_height_m"] for p in (lower, crown)) / mass
        rows.append(
            {
                "outside_diameter_m": outside,
                "wall_m": wall,
                "density_kg_per_m3": STEEL_KG_PER_M3,
                "thin_area_m2": area,
                "thin_mass_kg": STEEL_KG_PER_M3 * area * wall,
                "thin_centre_above_rim_m": moment / area,
                "solid_mass_kg": mass,
                "solid_centre_above_rim_m": height,
            }
        )
    return rows


def boxes():
    """Closed sheet boxes (outside sizes, even wall), and the same full of something else."""
    rows = []
    for width, depth, height, wall in [(0.4, 0.3, 0.25, 0.002), (0.66, 0.4, 0.5, 0.003), (0.2, 0.2, 0.2, 0.1)]:

        def section(z):
            solid = width * depth
            inside = wall < z < height - wall
            return solid - (width - 2 * wall) * (depth - 2 * wall) * inside

        floor = revolved(lambda z: width * depth, 0.0, wall, STEEL_KG_PER_M3)["mass_kg"]
        walls = revolved(section, wall, height - wall, STEEL_KG_PER_M3)["mass_kg"] if height > 2 * wall else 0.0
        rows.append(
            {
                "width_m": width,
                "depth_m": depth,
                "height_m": height,
                "wall_m": wall,
                "density_kg_per_m3": STEEL_KG_PER_M3,
                "mass_kg": 2 * floor + walls,
                "centre_height_m": height / 2,
                "solid_mass_kg": STEEL_KG_PER_M3 * width * depth * height,
            }
        )
    return rows


def cones():
    """Truncated cones standing on the bottom: a shell on its middle surface, and a solid fill.

    The wall is measured square to the sheet. The diameters are those of the middle of the sheet.
    """
    rows = []
    for bottom, top, height, wall in [(0.5, 0.2, 0.3, 0.002), (0.2, 0.6, 0.4, 0.0015), (0.3, 0.0, 0.2, 0.003)]:

        def radius(z):
            return (bottom + (top - bottom) * z / height) / 2

        slope = math.hypot(height, (bottom - top) / 2) / height
        shell = revolved(lambda z: 2 * math.pi * radius(z) * slope * wall, 0.0, height, STEEL_KG_PER_M3)
        fill = revolved(lambda z: math.pi * radius(z) ** 2, 0.0, height, 250.0)
        rows.append(
            {
                "bottom_diameter_m": bottom,
                "top_diameter_m": top,
                "height_m": height,
                "wall_m": wall,
                "density_kg_per_m3": STEEL_KG_PER_M3,
                "shell_mass_kg": shell["mass_kg"],
                "shell_centre_height_m": shell["centre_height_m"],
                "fill_density_kg_per_m3": 250.0,
                "fill_mass_kg": fill["mass_kg"],
                "fill_centre_height_m": fill["centre_height_m"],
            }
        )
    return rows


def assemblies():
    """Point masses and their common centre of gravity."""
    draw = np.random.default_rng(7)
    rows = []
    for count in [2, 5, 12]:
        mass = draw.uniform(1, 80, count).round(2)
        place = draw.uniform(-0.5, 1.5, (count, 3)).round(3)
        rows.append(
            {
                "masses_kg": mass.tolist(),
                "positions_m": place.tolist(),
                "total_mass_kg": float(mass.sum()),
                "centre_m": (mass @ place / mass.sum()).tolist(),
            }
        )
    return rows


def edge_distances(corners, point):
    """Distance of a point inside from each edge; edge i runs from corner i to the next."""
    following = np.roll(corners, -1, axis=0)
    along = following - corners
    towards = point - corners
    return (along[:, 0] * towards[:, 1] - along[:, 1] * towards[:, 0]) / np.hypot(along[:, 0], along[:, 1])


def reach(corners, point, direction):
    """How far from the point the footprint reaches in one direction."""
    following = np.roll(corners, -1, axis=0)
    along = following - corners
    outward = np.column_stack([along[:, 1], -along[:, 0]])
    speed = outward @ direction
    gap = np.einsum("ij,ij->i", outward, corners - point)
    return float(np.min(gap[speed > 1e-12] / speed[speed > 1e-12]))


def footprints():
    draw = np.random.default_rng(11)
    rows = []
    for number in range(30):
        points = draw.uniform(-0.6, 0.6, (3 + number % 12, 2)).round(3)
        hull = ConvexHull(points)
        # scipy gives the corners of a plane hull against the clock; start at the lowest index.
        order = hull.vertices.tolist()
        start = order.index(min(order))
        order = order[start:] + order[:start]
        corners = points[order]
        weights = draw.uniform(0.2, 1.0, len(order))
        centre = (weights @ corners / weights.sum()).round(4)
        height = round(float(draw.uniform(0.2, 1.2)), 3)
        distances = edge_distances(corners, centre)
        assert np.all(distances > 0)
        directions = []
        for degrees in range(0, 360, 45):
            heading = np.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])
            length = reach(corners, centre, heading)
            directions.append(
                {
                    "downhill_direction_deg": float(degrees),
                    "reach_m": length,
                    "tip_slope_deg": math.degrees(math.atan2(length, height)),
                }
            )
        rows.append(
            {
                "contact_points_m": points.tolist(),
                "hull_indices": order,
                "area_m2": hull.volume,
                "perimeter_m": hull.area,
                "centre_m": centre.tolist(),
                "centre_height_m": height,
                "edge_distances_m": distances.tolist(),
                "edge_tip_angles_deg": np.degrees(np.arctan2(distances, height)).tolist(),
                "least_tip_angle_deg": math.degrees(math.atan2(float(distances.min()), height)),
                "directions": directions,
            }
        )
    return rows


def files():
    return {
        "statics.json": {
            "about": "Mass, centre of gravity, footprints and tip angles; conventions in README.md",
            "source": "scipy.integrate.quad, scipy.spatial.ConvexHull",
            "tubes": tubes(),
            "plates": plates(),
            "rings": rings(),
            "dished_ends": dished_ends(),
            "boxes": boxes(),
            "cones": cones(),
            "assemblies": assemblies(),
            "footprints": footprints(),
        }
    }
