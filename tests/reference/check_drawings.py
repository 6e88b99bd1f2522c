"""Opens the DXF drawings of an example design with ezdxf and measures them.

    python check_drawings.py FOLDER

FOLDER is what `cargo run --example templates -- FOLDER` wrote. Lengths are compared with closed forms
from the design's own inputs, to a hundredth of a millimetre.
"""

import json
import math
import pathlib
import sys

import ezdxf
from ezdxf import units

ALLOWED_MM = 0.01
LAYERS = {"CUT", "MARK", "TEXT"}

complaints = []


def expect(what, found, wanted):
    if not math.isclose(found, wanted, abs_tol=ALLOWED_MM):
        complaints.append(f"{what}: {found} mm in the drawing, {wanted} mm wanted")


def opened(path):
    """The model space of a drawing, after looking for faults of the file itself."""
    drawing = ezdxf.readfile(path)
    if drawing.units != units.MM:
        complaints.append(f"{path.name}: its unit is {drawing.units}, not millimetres")
    auditor = drawing.audit()
    faults = auditor.errors + auditor.fixes
    complaints.extend(f"{path.name}: {fault.message}" for fault in faults)
    space = drawing.modelspace()
    strange = {entity.dxf.layer for entity in space} - LAYERS
    if strange or not len(space):
        complaints.append(f"{path.name}: layers {strange}, {len(space)} entities")
    check_lines = [
        line
        for line in space.query('LINE[layer=="MARK"]')
        if line.dxf.start.y == line.dxf.end.y and math.isclose(line.dxf.start.distance(line.dxf.end), 100.0)
    ]
    if not check_lines:
        complaints.append(f"{path.name}: no check line of 100 mm")
    return space


def size(polyline):
    xs, ys = zip(*((x, y) for x, y, *_ in polyline.get_points()))
    return max(xs) - min(xs), max(ys) - min(ys)


def layers_outside(design, name):
    """Outside diameter of a wall up to its last layer, and that layer's thickness, mm."""
    inside = design[f"{name}_wall"]["inside_diameter"]
    thickness = [layer["thickness"] for layer in design[f"{name}_layers"]]
    return 1000 * (inside + 2 * sum(thickness[:-1])), 1000 * thickness[-1]


def check(folder):
    design = json.loads((folder / "design.json").read_text(encoding="utf-8"))
    spaces = {path.stem: opened(path) for path in sorted(folder.glob("*.dxf"))}
    if len(spaces) < 9:
        complaints.append(f"only {len(spaces)} drawings")

    shell = spaces["Shell--unrolled"]
    sheet = shell.query('LWPOLYLINE[layer=="MARK"]').first
    width, height = size(sheet)
    expect("shell, width", width, 1000 * design["real_vessel"]["girth"])
    expect("shell, height", height, 1000 * design["real_vessel"]["length"])
    door = next(hole for hole in design["holes"] if hole["name"] == "Ash door")
    radius = 500 * design["real_vessel"]["girth"] / math.pi
    wanted = 2 * radius * math.asin(500 * door["diameter"] / radius), 1000 * door["diameter"]
    holes = [size(outline) for outline in shell.query('LWPOLYLINE[layer=="CUT"]')]
    nearest = min(holes, key=lambda hole: abs(hole[0] - wanted[0]))
    expect("ash door, along the wrap", nearest[0], wanted[0])
    expect("ash door, height", nearest[1], wanted[1])

    outlet = next(hole for hole in design["holes"] if hole["name"] == "Gas outlet")
    curve = spaces["Gas-outlet--pipe-end"].query('LWPOLYLINE[layer=="CUT"]').first
    expect("gas outlet, template width", size(curve)[0], math.pi * 1000 * outlet["pipe"])

    flange = design["flanges"][0]
    circles = sorted(c.dxf.radius for c in spaces["Gas-outlet-flange"].query('CIRCLE[layer=="CUT"]'))
    for found, name in [(circles[0], "bolt_hole"), (circles[-2], "bore"), (circles[-1], "outside")]:
        expect(f"flange, {name}", 2 * found, 1000 * flange[name])
    bolts = [c for c in spaces["Gas-outlet-flange"].query("CIRCLE") if math.isclose(c.dxf.radius, circles[0])]
    for bolt in bolts:
        expect("flange, bolt circle", 2 * bolt.dxf.center.magnitude, 1000 * flange["bolt_circle"])

    for name in ("hearth", "body"):
        inside, thickness = layers_outside(design, name)
        plate = spaces[f"{name.title()}-jacket"].query('LWPOLYLINE[layer=="CUT"]').first
        expect(f"{name} jacket, length", size(plate)[0], math.pi * (inside + thickness))
        expect(f"{name} jacket, height", size(plate)[1], 1000 * design[f"{name}_wall"]["height"])

    hopper = design["hopper"]
    foot, top = 1000 * design["body_wall"]["inside_diameter"], 1000 * hopper["diameter"]
    slant = math.hypot(0.5 * abs(top - foot), 1000 * hopper["cone_height"])
    # On the middle of the sheet, which lies half a sheet outside the inner edges, square to the slant.
    shift = 1000 * hopper["wall_thickness"] * 1000 * hopper["cone_height"] / slant
    arcs = sorted(spaces["Hopper-cone"].query('ARC[layer=="CUT"]'), key=lambda arc: arc.dxf.radius)
    for arc, diameter in zip(arcs, sorted((foot, top)), strict=True):
        turn = math.radians((arc.dxf.end_angle - arc.dxf.start_angle) % 360.0)
        expect("hopper cone, arc", arc.dxf.radius * turn, math.pi * (diameter + shift))
    expect("hopper cone, slant", arcs[1].dxf.radius - arcs[0].dxf.radius, slant)
    return len(spaces)


def main():
    count = check(pathlib.Path(sys.argv[1]))
    for complaint in complaints:
        print(complaint)
    if not complaints:
        print(f"{count} drawings read with the right units and lengths")
    return 1 if complaints else 0


if __name__ == "__main__":
    sys.exit(main())
