//! Building it: joints, the order of the work, lifting, and the room it runs in.

use super::parts::Group;
use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark, YourOwn};
use crate::design::declare::{choice, choices, flag, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Length, Mass, MassDensity, Time, Volume};

choices! {
    /// How two pieces are joined.
    JointKind {
        Bolted = "bolted", "Bolted flange";
        Welded = "welded", "Welded";
        Threaded = "threaded", "Threaded";
        Clamped = "clamped", "Clamped";
    }
}

choices! {
    /// Where the machine stands.
    Stands {
        NotTold = "not_told", "Not told yet";
        Outdoors = "outdoors", "Outdoors";
        OpenRoof = "open_roof", "Under an open roof";
        ClosedRoof = "closed_roof", "Under a closed roof";
    }
}

choices! {
    /// What hides a joint, so that nobody can reach it any more.
    ClosedBy {
        Nothing = "nothing", "Nothing: it stays in reach";
        Joint = "joint", "A later joint";
        Insulation = "insulation", "Insulation or cladding";
    }
}

choices! {
    /// How far the work on a joint is.
    JointState {
        Open = "open", "To be made";
        Made = "made", "Made, not tested";
        Tested = "tested", "Made, tested and tight";
    }
}

choices! {
    /// What is done in a step of the work.
    StepKind {
        Make = "make", "Make a joint";
        Test = "test", "Leak test";
        CloseIn = "close_in", "Insulate or clad";
    }
}

/// Longest name of a joint, in characters.
pub const LONGEST_JOINT_NAME: usize = 40;
/// Longest text of the sizes that a joint keeps: forty joints must fit into a link.
pub const LONGEST_MADE_SIZES: usize = 1_000;

record! {
    /// A joint of the machine.
    Joint {
        name: String = text("Joint", LONGEST_JOINT_NAME), "Name", "What you call it.", YourOwn;
        kind: JointKind = choice(JointKind::OPTIONS, "bolted"), "Made as", "A weld never comes apart again.", YourOwn;
        first: Group = choice(Group::OPTIONS, "reactor"), "Joins", "The sub-assembly on one side.", YourOwn;
        second: Group = choice(Group::OPTIONS, "reactor"), "With", "The sub-assembly on the other side; the same for a joint inside one.", YourOwn;
        airtight: bool = flag(true), "Must be tight", "Gas or air stands on one side, so that it must pass a leak test.", YourOwn;
        length: Length = number(Q::Length, 0.40, (0.005, 20.0), (0.05, 3.0)), "Length", "Along the weld or the gasket: once around for a flange.", YourOwn;
        bolts: u32 = number(Q::Count, 0.0, (0.0, 100.0), (0.0, 24.0)), "Bolts", "Bolts that hold it; 0 for a weld.", YourOwn;
        bolt: Length = number(Q::Thickness, 0.010, (0.002, 0.064), (0.006, 0.016)), "Bolt diameter", "Across the thread: M10 is 10 mm, 3/8 in is 9.5 mm.", CommonPractice;
        bolt_length: Length = number(Q::Thickness, 0.040, (0.005, 0.5), (0.016, 0.1)), "Bolt length", "From under the head to the end.", CommonPractice;
        weighed: Option<Mass> = optional(Q::Mass, (0.0, 500.0), (0.05, 10.0)), "Bolts weighed", "All bolts of the joint with their nuts, in place of the computed weight.", YourOwn;
        gasket_width: Length = number(Q::Thickness, 0.020, (0.001, 0.3), (0.008, 0.05)), "Gasket width", "Across the face that is sealed.", CommonPractice;
        gasket_thickness: Length = number(Q::Thickness, 0.003, (0.0002, 0.05), (0.001, 0.010)), "Gasket thickness", "As it lies in the joint, pressed.", CommonPractice;
        service: bool = flag(false), "Comes apart for service", "It must open to clean, mend or replace something.", YourOwn;
        closed_by: ClosedBy = choice(ClosedBy::OPTIONS, "nothing"), "Closed in by", "What hides it, so that nobody can reach it any more.", YourOwn;
        closing_joint: u32 = number(Q::Count, 1.0, (0.0, 40.0), (1.0, 20.0)), "Number of that joint", "Place in this list of the joint that closes it in; 0 where that joint is gone.", YourOwn;
        closing_group: Group = choice(Group::OPTIONS, "reactor"), "Insulation of", "The sub-assembly whose insulation or cladding closes it in.", YourOwn;
        after: u32 = number(Q::Count, 0.0, (0.0, 40.0), (0.0, 20.0)), "Made after joint", "Place in this list of the joint that must be made first; 0 for none.", YourOwn;
        state: JointState = choice(JointState::OPTIONS, "open"), "Work so far", "How far it is at the machine. The sheet “Build order” ticks its steps, and can be ticked there.", YourOwn;
        closed_in: bool = flag(false), "Insulation is on", "The insulation or cladding that hides it is on the machine.", YourOwn;
        signed: String = text("", 40), "Date and sign", "When its last step was done, and who saw it.", YourOwn;
        made_sizes: String = text("", LONGEST_MADE_SIZES), "Sizes when made", "The metal parts on both sides, in millimetres, as the design had them when this joint was ticked. They are set beside the design as it is now; empty it to compare nothing.", YourOwn;
    }
}

impl Joint {
    /// Whether it is on either side of it.
    pub fn is_of(&self, group: Group) -> bool {
        self.first == group || self.second == group
    }

    /// Whether the insulation or cladding of a sub-assembly hides it.
    pub fn is_hidden_in(&self, group: Group) -> bool {
        self.closed_by == ClosedBy::Insulation && self.closing_group == group
    }

    /// Whether the insulation or cladding that hides it is on.
    pub fn insulation_is_on(&self) -> bool {
        self.closed_by == ClosedBy::Insulation && self.closed_in
    }

    /// Whether nothing stands against closing it in: made, and tested where it must be tight.
    pub fn may_be_hidden(&self) -> bool {
        match self.state {
            JointState::Open => false,
            JointState::Made => !self.airtight,
            JointState::Tested => true,
        }
    }

    /// Whether a gasket lies in it: tight, and made of two faces.
    pub fn has_gasket(&self) -> bool {
        self.airtight && matches!(self.kind, JointKind::Bolted | JointKind::Clamped)
    }
}

record! {
    /// One step of a person's own order of the work.
    BuildStep {
        name: String = text("Step", 60), "Name", "What is done.", YourOwn;
        kind: StepKind = choice(StepKind::OPTIONS, "make"), "Work", "What kind of work it is.", YourOwn;
        joint: u32 = number(Q::Count, 1.0, (0.0, 40.0), (1.0, 20.0)), "Joint number", "Place in the list of joints; 0 to test all that is made of a sub-assembly.", YourOwn;
        group: Group = choice(Group::OPTIONS, "reactor"), "Sub-assembly", "The sub-assembly that is tested as one, or insulated.", YourOwn;
    }
}

record! {
    /// The workshop.
    Workshop {
        lifters: u32 = number(Q::Count, 2.0, (1.0, 10.0), (1.0, 4.0)),
            "People who lift", "How many lift together: two bear two thirds of the sum of what each may lift, three half, more find no room around a part.", YourOwn;
        hoist: bool = flag(false),
            "Hoist at hand", "A hoist, crane or stacker that carries the heaviest sub-assembly.", YourOwn;
        own_order: bool = flag(true),
            "Follow my own order", "Off: the computed order is used, and yours is kept. Without steps of your own nothing changes.", YourOwn;
        gasket_density: MassDensity = number(Q::Density, 1_000.0, (50.0, 9_000.0), (500.0, 2_000.0)),
            "Gasket density", "Graphite sheet about 1000, pressed fibre sheet 1800, glass rope 600 kg/m³ (62, 112 and 37 lb/ft³).", FromMemory("typical of makers' data sheets");
    }
}

record! {
    /// The room it stands in.
    Shed {
        indoors: bool = flag(false),
            "Under a closed roof", "It stands in a room, a shed or a lean-to with walls.", YourOwn;
        volume: Volume = number(Q::RoomVolume, 100.0, (1.0, 100_000.0), (20.0, 2_000.0)),
            "Air in the room", "Length times width times height, less what stands in it.", YourOwn;
        air_changes: f64 = number(Q::Number, 1.0, (0.0, 100.0), (0.3, 20.0)),
            "Air changes per hour", "How often the air of the room is renewed: shut 0.3, open doors 5 to 20.", CommonPractice;
        stay: Time = number(Q::LongTime, 3600.0, (60.0, 86_400.0), (600.0, 28_800.0)),
            "Longest stay", "How long somebody is in the room at a time.", OwnMark("an hour of work beside the machine");
        stands: Stands = choice(Stands::OPTIONS, "not_told"),
            "Where it stands", "A roof on posts is an open one. A room, a shed or a lean-to with walls is under a closed roof: gas that leaks gathers there.", YourOwn;
    }
}

impl Shed {
    /// Whether it stands where leaked gas gathers; none before anybody told.
    ///
    /// ```
    /// use hearthplan::design::{Design, inputs::Stands};
    /// let mut shed = Design::default().shed;
    /// assert_eq!(shed.is_closed(), None);
    /// shed.stands = Stands::OpenRoof;
    /// assert_eq!(shed.is_closed(), Some(false));
    /// ```
    pub fn is_closed(&self) -> Option<bool> {
        match self.stands {
            // Designs from before it was asked say no more than that it is under a closed roof.
            Stands::NotTold => self.indoors.then_some(true),
            Stands::Outdoors | Stands::OpenRoof => Some(false),
            Stands::ClosedRoof => Some(true),
        }
    }
}
