//! Marking out: the vessel of the plan, the vessel bought, the holes, flanges and the grate.

use super::hearth::FireSteel;
use super::vessel::Material;
use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::declare::{choice, choices, flag, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Angle, Length, Mass};

const DEGREE: f64 = std::f64::consts::PI / 180.0;
const TURN: f64 = 2.0 * std::f64::consts::PI;

choices! {
    /// A place on a vessel that heights are measured from.
    Datum {
        BottomEnd = "bottom_end", "Bottom end";
        LowerSeam = "lower_seam", "Lower round seam";
        UpperSeam = "upper_seam", "Upper round seam";
        TopEnd = "top_end", "Top end";
    }
}

choices! {
    /// What a hole belongs to: it keeps its distance from this when the vessel is not as planned.
    StaysWith {
        BottomEnd = "bottom_end", "The bottom end";
        TopEnd = "top_end", "The top end";
        PlanDatum = "plan_datum", "The datum of the plan";
    }
}

choices! {
    /// What sits in a hole.
    HoleUse {
        Open = "open", "Nothing: an opening or a door";
        SetOn = "set_on", "A pipe set on the shell";
        SetIn = "set_in", "A pipe set through the shell";
    }
}

record! {
    /// The vessel that the plan was drawn for.
    PlanVessel {
        girth: Length = number(Q::Length, 1.257, (0.15, 8.0), (0.8, 2.5)),
            "Outside circumference", "A tape laid once around the shell. It is 3.1416 times the outside diameter.", YourOwn;
        length: Length = number(Q::Length, 0.90, (0.05, 6.0), (0.4, 2.0)),
            "Length", "From bottom end to top end, along the shell.", YourOwn;
        lower_seam: Length = number(Q::Length, 0.060, (0.0, 6.0), (0.0, 0.5)),
            "Lower round seam", "Height of the lower round seam, or rolled bead, above the bottom end; 0 if there is none.", YourOwn;
        upper_seam: Length = number(Q::Length, 0.840, (0.0, 6.0), (0.3, 2.0)),
            "Upper round seam", "Height of the upper round seam, or rolled bead, above the bottom end; 0 if there is none.", YourOwn;
        datum: Datum = choice(Datum::OPTIONS, "lower_seam"),
            "Datum of the plan", "The place that all heights of the plan are measured from.", YourOwn;
    }
}

record! {
    /// The vessel that stands in the workshop.
    RealVessel {
        measured: bool = flag(false),
            "Bought and measured", "Vessels that look alike differ. Measure yours before you mark it out.", YourOwn;
        girth: Length = number(Q::Length, 1.257, (0.15, 8.0), (0.8, 2.5)),
            "Outside circumference", "A tape laid once around the shell, where the holes will be.", YourOwn;
        length: Length = number(Q::Length, 0.90, (0.05, 6.0), (0.4, 2.0)),
            "Length", "From bottom end to top end, along the shell. Closed ends count: over a dished one hold a straight edge across, and measure from that.", YourOwn;
        lower_seam: Length = number(Q::Length, 0.060, (0.0, 6.0), (0.0, 0.5)),
            "Lower round seam", "Height of the lower round seam, or rolled bead, above the bottom end, of a dished one above its lowest point; 0 if there is none.", YourOwn;
        upper_seam: Length = number(Q::Length, 0.840, (0.0, 6.0), (0.3, 2.0)),
            "Upper round seam", "Height of the upper round seam, or rolled bead, above the bottom end, of a dished one above its lowest point; 0 if there is none.", YourOwn;
        long_seam: Angle = number(Q::Angle, 180.0 * DEGREE, (-TURN, TURN), (0.0, TURN)),
            "Long seam", "Where the weld along the shell runs, seen from outside. Choose a front, such as the side you will stand at, and mark it: that is 0°. Lay a tape from there to the right, along the outside, to the weld: 360° times that length over the circumference. No front chosen yet: put it opposite the weld, 180°.", YourOwn;
        sheet: Length = number(Q::Thickness, 0.003, (0.0003, 0.03), (0.001, 0.006)),
            "Sheet", "Thickness of the shell.", YourOwn;
        tape_datum: Datum = choice(Datum::OPTIONS, "bottom_end"),
            "A tape reaches", "The place on this vessel that you can hook a tape to.", YourOwn;
        tape_reading: Length = number(Q::Thickness, 0.001, (0.0001, 0.01), (0.0005, 0.002)),
            "Tape may be off by", "How far one reading of your tape may be off, either way.", CommonPractice;
        seamless: bool = flag(false),
            "No weld along it", "A drawn pipe has no long seam: nothing is then judged by the distance to one.", YourOwn;
        rolled: bool = flag(false),
            "Rolled as planned", "You roll the shell yourself, as wide and as long as planned: no vessel is bought that could be another.", YourOwn;
        lined: bool = flag(false),
            "Built and lined", "The vessel stands as it is entered: a change of width or height of its walls is only told as another vessel. Its steel, its lining and its ends are then neither bought, made nor paid for.", YourOwn;
        has_bottom: bool = flag(false),
            "Has a bottom", "A plate of its own closes it below, right round: none is then bought, cut and welded in as its outermost layer. A pipe has none, and a bead is none.", YourOwn;
        has_top: bool = flag(false),
            "Top is closed", "A plate or head of its own closes it above. It comes off before the vessel is lined, and takes a dish along. A pipe has none, and a bead is none.", YourOwn;
        dish: Length = number(Q::Length, 0.0, (0.0, 1.0), (0.0, 0.3)),
            "Depth of a dished end", "How far its closed ends bulge beyond the straight shell, or into it: the deeper, where there are two. 0 where they are flat, or none is closed. A dish gives no straight shell, and flat discs do not lie in it.", YourOwn;
    }
}

impl RealVessel {
    /// What a dished bottom takes of the length below the straight shell.
    pub fn below_straight(&self) -> Length {
        self.dished(self.has_bottom)
    }

    /// What comes off with a dished top, above the straight shell.
    pub fn above_straight(&self) -> Length {
        self.dished(self.has_top)
    }

    fn dished(&self, is_closed: bool) -> Length {
        match self.measured && is_closed {
            true => self.dish,
            false => Length::default(),
        }
    }
}

record! {
    /// A hole in the shell, or a ring of equal holes.
    Hole {
        name: String = text("Hole", 40), "Name", "What you call it.", YourOwn;
        diameter: Length = number(Q::Bore, 0.060, (0.002, 1.5), (0.01, 0.2)),
            "Hole", "Diameter of the cut.", YourOwn;
        height: Length = number(Q::Length, 0.30, (-6.0, 6.0), (-1.0, 1.0)),
            "Above the plan's datum", "Middle of the hole; below the datum is negative.", YourOwn;
        angle: Angle = number(Q::Angle, 0.0, (-TURN, TURN), (0.0, TURN)),
            "Round to the right", "From the front mark to the middle of the hole, seen from outside.", YourOwn;
        count: u32 = number(Q::Count, 1.0, (1.0, 15.0), (1.0, 9.0)),
            "How many", "Equal holes, spread evenly round the shell from the first.", YourOwn;
        stays_with: StaysWith = choice(StaysWith::OPTIONS, "plan_datum"),
            "Belongs to", "What it keeps its distance from when your vessel is not as planned.", YourOwn;
        carries: HoleUse = choice(HoleUse::OPTIONS, "open"),
            "What sits in it", "A pipe needs a saddle cut where it meets the shell.", YourOwn;
        pipe: Option<Length> = optional(Q::Bore, (0.002, 1.5), (0.01, 0.2)),
            "Pipe outside", "Outside diameter of the pipe; empty means the same as the hole.", YourOwn;
        pipe_wall: Length = number(Q::Thickness, 0.0026, (0.0003, 0.03), (0.001, 0.006)),
            "Pipe wall", "Thickness of the pipe's wall.", YourOwn;
        lean: Angle = number(Q::Angle, 90.0 * DEGREE, (20.0 * DEGREE, 160.0 * DEGREE), (30.0 * DEGREE, 150.0 * DEGREE)),
            "Angle to the axis", "Between the pipe and the vessel's axis: 90° straight out, less leans upwards.", YourOwn;
        offset: Length = number(Q::Length, 0.0, (-2.0, 2.0), (-0.2, 0.2)),
            "Sideways offset", "How far the pipe's axis passes beside the vessel's axis, to the right seen from outside.", YourOwn;
    }
}

record! {
    /// A flange to be drilled.
    Flange {
        name: String = text("Flange", 40), "Name", "What you call it.", YourOwn;
        outside: Length = number(Q::Length, 0.15, (0.01, 3.0), (0.06, 0.8)),
            "Outside diameter", "Across the whole flange.", YourOwn;
        bore: Length = number(Q::Bore, 0.070, (0.0, 3.0), (0.02, 0.7)),
            "Bore", "Across the hole in the middle; 0 for a blind flange.", YourOwn;
        bolt_circle: Length = number(Q::Length, 0.12, (0.005, 3.0), (0.04, 0.75)),
            "Bolt circle", "Diameter of the circle through the middles of the bolt holes.", YourOwn;
        bolts: u32 = number(Q::Count, 4.0, (1.0, 60.0), (4.0, 24.0)),
            "Bolts", "Number of bolt holes, evenly spaced.", YourOwn;
        bolt_hole: Length = number(Q::Thickness, 0.011, (0.001, 0.06), (0.006, 0.02)),
            "Bolt hole", "Diameter of each bolt hole.", YourOwn;
        thickness: Length = number(Q::Thickness, 0.008, (0.0005, 0.2), (0.004, 0.02)),
            "Thickness", "Thickness of the plate it is cut from.", CommonPractice;
        material: Material = choice(Material::OPTIONS, "mild_steel"), "Material", "Gives the density.", YourOwn;
        weighed: Option<Mass> = optional(Q::Mass, (0.0, 2_000.0), (0.1, 30.0)),
            "Weighed", "Its weight, in place of the computed one.", YourOwn;
    }
}

record! {
    /// The grate plate.
    GratePlate {
        diameter: Length = number(Q::Length, 0.20, (0.02, 2.0), (0.1, 0.5)),
            "Grate diameter", "Across the plate.", YourOwn;
        hole: Length = number(Q::Thickness, 0.012, (0.002, 0.06), (0.008, 0.016)),
            "Grate hole", "Diameter of each hole: char must stay, ash must fall.", CommonPractice;
        pitch: Length = number(Q::Length, 0.018, (0.003, 0.2), (0.012, 0.03)),
            "Grate pitch", "From the middle of one hole to the middle of the next, in a triangle.", CommonPractice;
        rim: Length = number(Q::Length, 0.010, (0.0, 0.5), (0.005, 0.03)),
            "Plain rim", "Width at the edge that stays without holes.", YourOwn;
        material: FireSteel = choice(FireSteel::OPTIONS, "mild_steel"),
            "Grate made of", "The steel of the plate: hot gas passes it, and it bears the char.", YourOwn;
    }
}
