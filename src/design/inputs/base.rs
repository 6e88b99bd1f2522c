//! What the machine stands on.

use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::declare::{choice, choices, flag, number, optional, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Angle, Force, Length, Velocity};

choices! {
    /// How the machine touches the ground.
    Stance {
        Feet = "feet", "Four feet";
        TwoWheels = "two_wheels", "Two wheels at the back, two feet";
        FourWheels = "four_wheels", "Four wheels";
        Points = "points", "Own contact points";
    }
}

choices! {
    /// What stands at a contact point.
    ContactKind {
        Foot = "foot", "Foot";
        Wheel = "wheel", "Wheel";
    }
}

record! {
    /// The base frame.
    Base {
        stance: Stance = choice(Stance::OPTIONS, "feet"),
            "Stands on", "Feet do not roll; wheels meet kerbs.", YourOwn;
        width: Length = number(Q::Length, 0.66, (0.1, 3.0), (0.4, 1.2)),
            "Base width", "Between the outermost contact points, left to right. The narrow side decides how it tips.", YourOwn;
        depth: Length = number(Q::Length, 0.80, (0.1, 4.0), (0.5, 1.8)),
            "Base depth", "Between the outermost contact points, front to back.", YourOwn;
        clearance: Length = number(Q::Length, 0.25, (0.0, 1.5), (0.1, 0.5)),
            "Vessel above ground", "From the ground to the underside of the vessel.", YourOwn;
        vessel_x: Length = number(Q::Length, 0.0, (-2.0, 2.0), (-0.5, 0.5)),
            "Vessel left or right", "Vessel axis to the right of the base's middle; left is negative.", YourOwn;
        vessel_y: Length = number(Q::Length, 0.0, (-2.0, 2.0), (-0.5, 0.5)),
            "Vessel front or back", "Vessel axis behind the base's middle; in front is negative.", YourOwn;
        frame_side: Length = number(Q::Length, 0.040, (0.01, 0.2), (0.025, 0.08)),
            "Frame tube", "Outside of the square tube the base is welded from.", YourOwn;
        frame_wall: Length = number(Q::Thickness, 0.003, (0.0005, 0.02), (0.0015, 0.006)),
            "Frame tube wall", "Wall thickness of that tube.", YourOwn;
        wheel_diameter: Length = number(Q::Length, 0.20, (0.02, 1.0), (0.1, 0.4)),
            "Wheel diameter", "Small wheels stop dead at a kerb.", YourOwn;
        swivel: bool = flag(true),
            "Wheels swivel", "Castors roll every way; fixed wheels roll front to back only. Of two wheels and two feet the wheels are fixed.", YourOwn;
        castor_trail: Length = number(Q::Length, 0.030, (0.0, 0.15), (0.02, 0.06)),
            "Castor trail", "How far a castor's wheel stands from its swivel. It can swing inwards and narrow the base by this much.", CommonPractice;
        brakes: bool = flag(false),
            "Wheels braked", "All wheels are locked when the machine stands.", YourOwn;
        rolling_resistance: f64 = number(Q::Number, 0.03, (0.001, 0.5), (0.01, 0.1)),
            "Rolling resistance", "Push that keeps it rolling divided by weight: hard wheels on concrete 0.02, on gravel 0.1.", CommonPractice;
        friction: f64 = number(Q::Number, 0.5, (0.05, 1.5), (0.3, 0.8)),
            "Friction on the ground", "Sideways grip divided by weight: steel on concrete about 0.5.", CommonPractice;
        walking_speed: Velocity = number(Q::Velocity, 1.2, (0.0, 5.0), (0.8, 1.6)),
            "Rolling speed", "How fast it is pushed when a wheel meets a kerb.", CommonPractice;
        kerb_height: Length = number(Q::Length, 0.020, (0.0, 0.3), (0.01, 0.1)),
            "Kerb or stone", "Height of the step a wheel may strike.", CommonPractice;
        push_height: Length = number(Q::Length, 1.5, (0.1, 4.0), (1.0, 1.8)),
            "Push height", "Height at which a person may lean on it, or its top if that is lower.", CommonPractice;
        slope: Angle = number(Q::Angle, 0.0, (0.0, std::f64::consts::FRAC_PI_4), (0.0, 0.26)),
            "Ground slope", "Slope of the ground where it stands.", YourOwn;
        room_width: Option<Length> = optional(Q::Length, (0.1, 20.0), (0.5, 3.0)),
            "Room, left to right", "Width of the place it stands in, for the whole machine without pipes and hoses. Empty: as much as it takes.", YourOwn;
        room_depth: Option<Length> = optional(Q::Length, (0.1, 20.0), (0.5, 3.0)),
            "Room, front to back", "Depth of the place it stands in, for the whole machine without pipes and hoses. Empty: as much as it takes.", YourOwn;
        anchors: Force = number(Q::Force, 0.0, (0.0, 20_000.0), (0.0, 2_000.0)),
            "Anchors hold, each side", "What bolts in concrete or ground anchors at the feet of one side hold straight up, all of that side together, on the weakest side, tried by pulling. 0: it only stands. Counted against the strongest wind alone.", YourOwn;
    }
}

impl Base {
    /// Whether its wheels, where it has any, are castors: of two wheels and two feet the wheels are fixed.
    ///
    /// ```
    /// use hearthplan::design::inputs::{Base, Stance};
    /// let mut base = Base { swivel: true, stance: Stance::FourWheels, ..Base::default() };
    /// assert!(base.on_castors());
    /// base.stance = Stance::TwoWheels;
    /// assert!(!base.on_castors());
    /// ```
    pub fn on_castors(&self) -> bool {
        self.swivel && self.stance != Stance::TwoWheels
    }
}

record! {
    /// A contact point, measured from the middle of the base.
    Contact {
        x: Length = number(Q::Length, 0.0, (-3.0, 3.0), (-1.0, 1.0)), "Left or right", "To the right of the middle; left is negative.", YourOwn;
        y: Length = number(Q::Length, 0.0, (-3.0, 3.0), (-1.0, 1.0)), "Front or back", "Behind the middle; in front is negative.", YourOwn;
        kind: ContactKind = choice(ContactKind::OPTIONS, "foot"), "Touches with", "A foot grips, a wheel rolls.", YourOwn;
    }
}
