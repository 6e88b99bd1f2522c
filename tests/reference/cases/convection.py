"""Nusselt numbers of natural convection outside a shell and of a cylinder in wind."""

from ht.conv_external import Nu_cylinder_Churchill_Bernstein
from ht.conv_free_immersed import (
    Nu_horizontal_plate_McAdams,
    Nu_vertical_cylinder_Popiel_Churchill,
    Nu_vertical_plate_Churchill,
)

PRANDTL = [0.68, 0.70, 0.72]


def files():
    vertical = []
    for prandtl in PRANDTL + [0.1, 7.0]:
        for exponent in [3, 4, 5, 6, 7, 8, 9, 10, 11, 12]:
            grashof = 10.0**exponent / prandtl
            for height, diameter in [(0.3, 0.6), (1.0, 0.5), (1.5, 0.1)]:
                vertical.append(
                    {
                        "prandtl": prandtl,
                        "grashof": grashof,
                        "rayleigh": grashof * prandtl,
                        "height_m": height,
                        "diameter_m": diameter,
                        "nusselt_plate": Nu_vertical_plate_Churchill(prandtl, grashof),
                        "nusselt_cylinder": Nu_vertical_cylinder_Popiel_Churchill(
                            prandtl, grashof, height, diameter
                        ),
                    }
                )
    horizontal = []
    for prandtl in PRANDTL:
        for rayleigh in [1e4, 1e5, 1e6, 9e6, 1.1e7, 1e8, 1e9, 9e9, 1.1e10, 1e11]:
            grashof = rayleigh / prandtl
            horizontal.append(
                {
                    "prandtl": prandtl,
                    "grashof": grashof,
                    "rayleigh": rayleigh,
                    "nusselt_hot_face_up": Nu_horizontal_plate_McAdams(prandtl, grashof, True),
                    "nusselt_hot_face_down": Nu_horizontal_plate_McAdams(prandtl, grashof, False),
                }
            )
    wind = []
    for prandtl in [0.5] + PRANDTL + [6.0]:
        for reynolds in [1e1, 1e2, 1e3, 4e3, 1e4, 4e4, 1e5, 2.5e5, 5e5, 1e6]:
            wind.append(
                {
                    "prandtl": prandtl,
                    "reynolds": reynolds,
                    "nusselt": Nu_cylinder_Churchill_Bernstein(reynolds, prandtl),
                }
            )
    return {
        "natural_convection.json": {
            "about": "Nusselt numbers on height (vertical) and on area over perimeter (horizontal)",
            "source": "ht.conv_free_immersed: Nu_vertical_plate_Churchill, "
            "Nu_vertical_cylinder_Popiel_Churchill, Nu_horizontal_plate_McAdams",
            "vertical": vertical,
            "horizontal": horizontal,
        },
        "forced_convection.json": {
            "about": "Nusselt number on diameter of a cylinder across a stream",
            "source": "ht.conv_external.Nu_cylinder_Churchill_Bernstein",
            "rows": wind,
        },
    }
