"""Warming up: closed solutions of one layer, and layered walls by the method of lines."""

import math

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.sparse import diags
from scipy.special import erfc

# Doubling this moves no kept temperature by more than 0.02 K.
CELLS_PER_LAYER = 200


def semi_infinite():
    """Carslaw and Jaeger, Conduction of Heat in Solids, section 2.4 and 2.5."""
    rows = []
    for conductivity, density, heat_capacity in [(0.12, 128.0, 1000.0), (1.3, 2200.0, 950.0), (40.0, 7850.0, 550.0)]:
        diffusivity = conductivity / (density * heat_capacity)
        for time in [10.0, 300.0, 3600.0]:
            for depth in [0.002, 0.01, 0.04]:
                start, hot = 20.0, 900.0
                root = math.sqrt(diffusivity * time)
                rows.append(
                    {
                        "conductivity_w_per_m_k": conductivity,
                        "density_kg_per_m3": density,
                        "heat_capacity_j_per_kg_k": heat_capacity,
                        "start_c": start,
                        "hot_face_c": hot,
                        "time_s": time,
                        "depth_m": depth,
                        "temperature_c": start + (hot - start) * float(erfc(depth / (2 * root))),
                        "face_flux_w_per_m2": conductivity * (hot - start) / (root * math.sqrt(math.pi)),
                        "energy_j_per_m2": 2 * conductivity * (hot - start) * math.sqrt(time / (math.pi * diffusivity)),
                    }
                )
    return rows


def slab():
    """Carslaw and Jaeger, section 3.3 and 3.4: hot face stepped, back face insulated."""
    rows = []
    conductivity, density, heat_capacity = 0.2, 500.0, 1000.0
    start, hot = 20.0, 800.0
    for thickness in [0.01, 0.05]:
        for fourier in [0.02, 0.1, 0.3, 1.0, 2.0]:
            time = fourier * thickness**2 * density * heat_capacity / conductivity
            n = np.arange(2000)
            root = (2 * n + 1) * math.pi / 2
            decay = np.exp(-(root**2) * fourier)
            back = 1 - float(np.sum(2 * (-1.0) ** n / root * decay))
            middle = 1 - float(np.sum(2 / root * np.sin(root * 0.5) * decay))
            mean = 1 - float(np.sum(2 / root**2 * decay))
            one_term = 1 - 4 / math.pi * math.exp(-((math.pi / 2) ** 2) * fourier)
            rows.append(
                {
                    "conductivity_w_per_m_k": conductivity,
                    "density_kg_per_m3": density,
                    "heat_capacity_j_per_kg_k": heat_capacity,
                    "thickness_m": thickness,
                    "start_c": start,
                    "hot_face_c": hot,
                    "time_s": time,
                    "middle_c": start + (hot - start) * middle,
                    "back_face_c": start + (hot - start) * back,
                    "back_face_one_term_c": start + (hot - start) * one_term,
                    "energy_j_per_m2": density * heat_capacity * thickness * (hot - start) * mean,
                }
            )
    return rows


def cooled_slab():
    """One-term solution of a plate cooled on both faces: first root of x tan x = Bi."""
    rows = []
    for biot in [0.1, 0.5, 1.0, 5.0, 20.0]:
        root = brentq(lambda x: x * math.sin(x) - biot * math.cos(x), 1e-9, math.pi / 2)
        amplitude = 4 * math.sin(root) / (2 * root + math.sin(2 * root))
        for fourier in [0.3, 1.0, 3.0]:
            middle = amplitude * math.exp(-(root**2) * fourier)
            rows.append(
                {
                    "biot": biot,
                    "fourier": fourier,
                    "first_root": root,
                    "middle_share_left": middle,
                    "face_share_left": middle * math.cos(root),
                }
            )
    return rows


def grid(case):
    """Cells as (layer, width, face radii, centre radius), volumes per m2 or per m of height."""
    edges, owner = [case.get("inner_radius_m", 0.0)], []
    for index, layer in enumerate(case["layers"]):
        start = edges[-1]
        edges.extend(start + layer["thickness_m"] * np.arange(1, CELLS_PER_LAYER + 1) / CELLS_PER_LAYER)
        owner.extend([index] * CELLS_PER_LAYER)
    return np.array(edges), np.array(owner)


def layered(case):
    edges, owner = grid(case)
    cylinder = case["geometry"] == "cylinder"
    if cylinder:
        volume = math.pi * (edges[1:] ** 2 - edges[:-1] ** 2)
        centre = (edges[1:] + edges[:-1]) / 2
        inner_half = np.log(centre / edges[:-1]) / (2 * math.pi)
        outer_half = np.log(edges[1:] / centre) / (2 * math.pi)
        outside_area = 2 * math.pi * edges[-1]
    else:
        volume = np.diff(edges)
        inner_half = outer_half = np.diff(edges) / 2
        outside_area = 1.0
    layers = case["layers"]
    capacity = volume * np.array([layers[i]["density_kg_per_m3"] * layers[i]["heat_capacity_j_per_kg_k"] for i in owner])
    surface_resistance = 1 / (case["outside_w_per_m2_k"] * outside_area)
    ambient, start = case["ambient_c"], case["start_c"]

    points = [np.array(layer["conductivity_points"]).T for layer in layers]

    def conductivity(t):
        k = np.empty_like(t)
        for i, (temperatures, values) in enumerate(points):
            k[owner == i] = np.interp(t[owner == i], temperatures, values)
        return k

    def hot_face(time):
        ramp = case["ramp_s"]
        return start + (case["hot_face_c"] - start) * (min(time / ramp, 1.0) if ramp > 0 else 1.0)

    def flows(time, t):
        k = conductivity(t)
        into, out = inner_half / k, outer_half / k
        between = (t[:-1] - t[1:]) / (out[:-1] + into[1:])
        first = (hot_face(time) - t[0]) / into[0]
        last = (t[-1] - ambient) / (out[-1] + surface_resistance)
        return np.concatenate([[first], between, [last]]), into, out

    def rate(time, state):
        q, _, _ = flows(time, state[1:-1])
        return np.concatenate([[q[0]], (q[:-1] - q[1:]) / capacity, [q[-1]]])

    times = case["times_s"]
    size = len(owner) + 2
    neighbours = diags([1.0, 1.0, 1.0], [-1, 0, 1], shape=(size, size))
    state = np.concatenate([[0.0], np.full(len(owner), start), [0.0]])
    began, kept = 0.0, []
    # A ramp ends in a corner: integrate up to it and start again there.
    stops = sorted({*times, *([case["ramp_s"]] if 0 < case["ramp_s"] < times[-1] else [])})
    for stop in stops:
        answer = solve_ivp(
            rate,
            (began, stop),
            state,
            method="Radau",
            t_eval=[stop],
            rtol=1e-7,
            atol=1e-5,
            jac_sparsity=neighbours,
        )
        assert answer.success, answer.message
        state, began = answer.y[:, -1], stop
        if stop in times:
            t = state[1:-1]
            q, into, out = flows(stop, t)
            faces = [hot_face(stop)]
            for index in range(1, len(layers)):
                cell = index * CELLS_PER_LAYER
                faces.append(t[cell - 1] - q[cell] * out[cell - 1])
            faces.append(t[-1] - q[-1] * out[-1])
            stored = float(np.sum(capacity * (t - start)))
            assert abs(state[0] - state[-1] - stored) < 1e-5 * abs(state[0])
            kept.append(
                {
                    "time_s": stop,
                    "face_temperatures_c": faces,
                    "energy_in": state[0],
                    # Less than a millionth of what went in is below the tolerance of the integration.
                    "energy_lost": state[-1] if state[-1] > 1e-6 * state[0] else 0.0,
                    "energy_stored": stored,
                }
            )
    return {**case, "results": kept}


def material(thickness, density, heat_capacity, *points):
    return {
        "thickness_m": thickness,
        "density_kg_per_m3": density,
        "heat_capacity_j_per_kg_k": heat_capacity,
        "conductivity_points": [list(p) for p in points],
    }


STEEL = (7850.0, 550.0, (20.0, 50.0), (700.0, 30.0))
STEADY_STEEL = (7850.0, 550.0, (20.0, 40.0))
FIBRE = (128.0, 1000.0, (200.0, 0.06), (400.0, 0.09), (600.0, 0.15), (800.0, 0.22), (1000.0, 0.30))
STEADY_FIBRE = (128.0, 1000.0, (20.0, 0.12))
BRICK = (500.0, 1000.0, (400.0, 0.15), (800.0, 0.19))
CASTABLE = (2200.0, 950.0, (400.0, 1.2), (1000.0, 1.5))
WOOL = (100.0, 840.0, (50.0, 0.045), (150.0, 0.06), (300.0, 0.10), (500.0, 0.16))


def layered_cases():
    def case(geometry, hot, layers, h, times, ramp=0.0, start=20.0, ambient=20.0, radius=None):
        made = {"geometry": geometry}
        if radius is not None:
            made["inner_radius_m"] = radius
        return {
            **made,
            "layers": layers,
            "start_c": start,
            "hot_face_c": hot,
            "ramp_s": ramp,
            "ambient_c": ambient,
            "outside_w_per_m2_k": h,
            "times_s": times,
        }

    short, long = [60.0, 600.0, 3600.0], [600.0, 3600.0, 14400.0]
    return [
        case("flat", 600.0, [material(0.05, *STEADY_FIBRE)], 12.0, short),
        case("flat", 900.0, [material(0.003, *STEADY_STEEL), material(0.05, *STEADY_FIBRE)], 12.0, short),
        case("flat", 900.0, [material(0.003, *STEEL), material(0.05, *FIBRE), material(0.0015, *STEEL)], 15.0, short),
        case("flat", 1000.0, [material(0.05, *CASTABLE), material(0.05, *BRICK), material(0.05, *WOOL)], 10.0, long),
        case("flat", 800.0, [material(0.02, *CASTABLE), material(0.025, *WOOL)], 8.0, long, ramp=1800.0),
        case("cylinder", 600.0, [material(0.05, *STEADY_FIBRE)], 12.0, short, radius=0.06),
        case("cylinder", 900.0, [material(0.003, *STEADY_STEEL), material(0.04, *STEADY_FIBRE)], 12.0, short, radius=0.1),
        case(
            "cylinder",
            1000.0,
            [material(0.004, *STEEL), material(0.05, *FIBRE), material(0.002, *STEEL)],
            15.0,
            short,
            radius=0.06,
        ),
        case("cylinder", 1100.0, [material(0.04, *CASTABLE), material(0.05, *FIBRE)], 11.0, long, radius=0.08),
        case(
            "cylinder",
            900.0,
            [material(0.004, *STEEL), material(0.05, *WOOL), material(0.0015, *STEEL)],
            14.0,
            long,
            ramp=900.0,
            start=5.0,
            ambient=-5.0,
            radius=0.15,
        ),
    ]


def files():
    return {
        "transient.json": {
            "about": "Warming up from an even start temperature; model in README.md",
            "source": "Carslaw and Jaeger, Conduction of Heat in Solids; scipy.special.erfc; scipy.integrate.solve_ivp",
            # The steps of the integration differ a little from machine to machine.
            "relative_tolerance": 1e-4,
            "semi_infinite": semi_infinite(),
            "slab_insulated_back": slab(),
            "plate_cooled_both_faces": cooled_slab(),
            "layered": [layered(case) for case in layered_cases()],
        }
    }
