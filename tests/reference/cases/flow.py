"""Pressure losses: pipe friction, packed beds, fittings, nozzles and plates."""

import math

import fluids
from fluids import filters, fittings
from fluids.friction import Churchill_1977

from cases.air import air_properties


def friction():
    rows = []
    for reynolds in [50, 300, 1000, 2000, 2300, 3000, 4000, 6000, 1e4, 3e4, 1e5, 1e6, 1e7]:
        for roughness in [0.0, 1e-5, 1e-4, 1e-3, 5e-3, 2e-2, 5e-2]:
            rows.append(
                {
                    "reynolds": float(reynolds),
                    "relative_roughness": roughness,
                    "darcy_friction_factor": Churchill_1977(float(reynolds), roughness),
                }
            )
    return rows


def pipe():
    """Darcy-Weisbach with the friction factor above, air at the pipe's temperature."""
    rows = []
    for temperature in [293.15, 473.15, 773.15]:
        air = air_properties(temperature)
        density, viscosity = air["density_kg_per_m3"], air["viscosity_pa_s"]
        for diameter, length, roughness in [(0.03, 2.0, 1e-4), (0.05, 3.0, 5e-5), (0.1, 1.0, 2e-4)]:
            for velocity in [0.5, 4.0, 15.0]:
                reynolds = density * velocity * diameter / viscosity
                factor = Churchill_1977(reynolds, roughness / diameter)
                rows.append(
                    {
                        "diameter_m": diameter,
                        "length_m": length,
                        "roughness_m": roughness,
                        "velocity_m_per_s": velocity,
                        "density_kg_per_m3": density,
                        "viscosity_pa_s": viscosity,
                        "darcy_friction_factor": factor,
                        "pressure_drop_pa": factor * length / diameter * density * velocity**2 / 2,
                    }
                )
    return rows


def ergun():
    rows = []
    for temperature in [293.15, 673.15, 1073.15]:
        air = air_properties(temperature)
        density, viscosity = air["density_kg_per_m3"], air["viscosity_pa_s"]
        for particle, voidage, depth in [(0.003, 0.38, 0.1), (0.01, 0.42, 0.25), (0.04, 0.5, 0.6)]:
            for velocity in [0.02, 0.1, 0.4, 1.5]:
                rows.append(
                    {
                        "particle_diameter_m": particle,
                        "voidage": voidage,
                        "superficial_velocity_m_per_s": velocity,
                        "density_kg_per_m3": density,
                        "viscosity_pa_s": viscosity,
                        "bed_depth_m": depth,
                        "pressure_drop_pa": fluids.Ergun(
                            dp=particle, voidage=voidage, vs=velocity, rho=density, mu=viscosity, L=depth
                        ),
                    }
                )
    return rows


def fitting_rows():
    """Loss coefficients on the velocity head of the pipe named in `velocity_in`."""
    rows = []

    def add(kind, method, k, velocity_in="pipe", **given):
        rows.append({"kind": kind, "method": method, **given, "velocity_in": velocity_in, "loss_coefficient": k})

    for method in ["Rennels", "Crane", "Idelchik", "Miller"]:
        add("entrance_sharp", method, fittings.entrance_sharp(method))
    add("exit", "any", fittings.exit_normal())
    for ratio in [0.02, 0.05, 0.1, 0.15, 0.2]:
        k = fittings.entrance_rounded(Di=0.05, rc=0.05 * ratio, method="Idelchik")
        add("entrance_rounded", "Idelchik", k, radius_over_diameter=ratio)
    for ratio in [0.3, 0.5, 0.7, 0.9]:
        # Borda-Carnot on the smaller pipe: (1 - A1/A2)^2.
        k = fittings.diffuser_sharp(Di1=0.05 * ratio, Di2=0.05, method="Rennels")
        add("sudden_widening", "Rennels", k, "smaller pipe", diameter_ratio=ratio)
        k = fittings.contraction_sharp(Di1=0.05, Di2=0.05 * ratio, method="Rennels")
        add("sudden_narrowing", "Rennels", k, "smaller pipe", diameter_ratio=ratio)
    for angle in [45.0, 90.0]:
        for bend_diameters in [1.0, 1.5, 3.0, 5.0]:
            for friction_factor in [0.02, 0.03]:
                k = fittings.bend_rounded(
                    Di=0.05, angle=angle, fd=friction_factor, bend_diameters=bend_diameters, method="Rennels"
                )
                add(
                    "bend_rounded",
                    "Rennels",
                    k,
                    angle_deg=angle,
                    bend_radius_over_diameter=bend_diameters,
                    darcy_friction_factor=friction_factor,
                )
    for angle in [30.0, 45.0, 60.0, 90.0]:
        add("bend_mitred", "Rennels", fittings.bend_miter(angle=angle, method="Rennels"), angle_deg=angle)
    return rows


# Our kinds of fitting, and what they are called in the table of Hooper's constants.
TWO_K = {
    "elbow_90": "Elbow, 90°, Standard (R/D = 1), Screwed",
    "long_elbow_90": "Elbow, 90°, Long-radius (R/D = 1.5), All types",
    "elbow_45": "Elbow, 45°, Standard (R/D = 1), All types",
    "tee_straight": "Tee, Run, Screwed",
    "tee_branch": "Elbow, Used as, Standard, Screwed",
    "gate_valve": "Valve, Gate, Full line size, Beta = 1",
    "ball_valve": "Valve, Ball, Reduced trim, Beta = 0.9",
    "butterfly_valve": "Valve, Butterfly,",
}


def two_k():
    """Loss coefficients by Hooper's 2-K method, whose bore is in inches."""
    return [
        {
            "kind": kind,
            "fluids_name": name,
            "bore_m": bore,
            "reynolds": reynolds,
            "loss_coefficient": fittings.Hooper2K(Di=bore / 0.0254, Re=reynolds, name=name),
        }
        for kind, name in TWO_K.items()
        for bore in [0.02, 0.0508, 0.15]
        for reynolds in [200.0, 4000.0, 1e5]
    ]


def nozzle():
    """Free nozzle: pressure drop = density / 2 (velocity / discharge coefficient)^2.

    The velocity is the volume flow over the bore area; the approach velocity is neglected.
    """
    rows = []
    density = air_properties(293.15)["density_kg_per_m3"]
    for count, bore in [(5, 0.0075), (5, 0.012), (7, 0.0105), (7, 0.016)]:
        for velocity in [10.0, 22.4, 32.6]:
            for discharge in [0.8, 0.9]:
                flow = count * math.pi / 4 * bore**2 * velocity
                rows.append(
                    {
                        "nozzles": count,
                        "bore_m": bore,
                        "discharge_coefficient": discharge,
                        "density_kg_per_m3": density,
                        "flow_m3_per_s": flow,
                        "velocity_m_per_s": velocity,
                        "pressure_drop_pa": density / 2 * (velocity / discharge) ** 2,
                    }
                )
    return rows


def plates():
    """Plates with sharp-edged holes across a channel, on the velocity head before them: Blevins' measured values."""
    return [
        {"open_share": share, "loss_coefficient": filters.square_edge_screen(share)}
        for share in [0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8]
    ]


def files():
    return {
        "friction.json": {
            "about": "Darcy friction factor (four times the Fanning factor), and pipes of dry air",
            "source": "fluids.friction.Churchill_1977; Darcy-Weisbach",
            "rows": friction(),
            "pipes": pipe(),
        },
        "ergun.json": {
            "about": "Pressure drop of a packed bed of spheres in dry air",
            "source": "fluids.packed_bed.Ergun",
            "rows": ergun(),
        },
        "fittings.json": {
            "about": "Loss coefficients of fittings and perforated plates, and free nozzles",
            "source": "fluids.fittings, methods as named in each row; nozzles by the orifice equation; plates by fluids.filters.square_edge_screen",
            "rows": fitting_rows(),
            "two_k": two_k(),
            "nozzles": nozzle(),
            "plates": plates(),
        },
    }
