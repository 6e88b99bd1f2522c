//! Which inputs stand together in the form: one group for each part of the machine.

/// What stands in a group, in order.
#[derive(Debug, Clone, Copy)]
pub enum Entry {
    /// A section of the design.
    Section(&'static str),
    /// A list of the design.
    List(&'static str),
}

/// A group of the form.
#[derive(Debug, Clone, Copy)]
pub struct Group {
    /// Name, also used as an anchor.
    pub name: &'static str,
    /// Heading.
    pub label: &'static str,
    /// Its sections and lists.
    pub entries: &'static [Entry],
}

use Entry::{List, Section};

/// All groups, in the order of the work.
pub const GROUPS: &[Group] = &[
    Group {
        name: "design",
        label: "Name and place",
        entries: &[Section("about"), Section("site"), Section("shed")],
    },
    Group {
        name: "gas",
        label: "Wood, engine and gas",
        entries: &[
            Section("fuel"),
            Section("engine"),
            Section("operation"),
            Section("gas_making"),
            Section("measured"),
        ],
    },
    Group {
        name: "hearth",
        label: "Hearth",
        entries: &[Section("hearth")],
    },
    Group {
        name: "vessel",
        label: "Vessel and insulation",
        entries: &[
            Section("hearth_wall"),
            List("hearth_layers"),
            Section("body_wall"),
            List("body_layers"),
            Section("lid"),
            List("lid_layers"),
            Section("bottom"),
            List("bottom_layers"),
            List("own_materials"),
        ],
    },
    Group {
        name: "hopper",
        label: "Hopper",
        entries: &[Section("hopper")],
    },
    Group {
        name: "base",
        label: "Base",
        entries: &[Section("base"), List("contacts")],
    },
    Group {
        name: "parts",
        label: "Other parts",
        entries: &[List("parts")],
    },
    Group {
        name: "train",
        label: "Gas train",
        entries: &[Section("raw_gas"), List("train")],
    },
    Group {
        name: "blower",
        label: "Blower",
        entries: &[Section("blower"), List("blower_curve")],
    },
    Group {
        name: "electrics",
        label: "Battery and wiring",
        entries: &[
            Section("battery"),
            List("loads"),
            Section("wiring"),
            Section("battery_box"),
        ],
    },
    Group {
        name: "marking",
        label: "Marking out",
        entries: &[
            Section("plan_vessel"),
            Section("real_vessel"),
            List("holes"),
            List("flanges"),
            Section("grate"),
        ],
    },
    Group {
        name: "building",
        label: "Joints and order",
        entries: &[
            Section("workshop"),
            List("joints"),
            List("build_steps"),
            Section("pace"),
            List("part_changes"),
        ],
    },
    Group {
        name: "tightness",
        label: "Leaks",
        entries: &[Section("leak_test"), List("readings")],
    },
    Group {
        name: "cost",
        label: "Cost",
        entries: &[Section("cost"), List("cost_lines")],
    },
    Group {
        name: "doubt",
        label: "Corrections of tables",
        entries: &[Section("doubt")],
    },
    Group {
        name: "limits",
        label: "Pass marks",
        entries: &[Section("limits")],
    },
];

/// The group that holds a section or list.
pub fn group_of(name: &str) -> Option<&'static Group> {
    GROUPS.iter().find(|group| {
        group.entries.iter().any(|entry| match entry {
            Section(section) => *section == name,
            List(list) => *list == name,
        })
    })
}
