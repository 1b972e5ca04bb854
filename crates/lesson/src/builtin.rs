//! The lessons that come with the project: invented scenarios, each with its own point to teach.

/// A lesson that comes with the project.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Builtin {
    /// Its name, which is also its file name without `.toml`.
    pub name: &'static str,
    /// The text of its lesson file.
    pub text: &'static str,
}

/// Every lesson that comes with the project.
pub const ALL: &[Builtin] = &[
    Builtin { name: "gangway", text: include_str!("../../../lessons/gangway.toml") },
    Builtin { name: "box-girder", text: include_str!("../../../lessons/box-girder.toml") },
    Builtin { name: "lighting-bridge", text: include_str!("../../../lessons/lighting-bridge.toml") },
    Builtin { name: "overhang", text: include_str!("../../../lessons/overhang.toml") },
    Builtin { name: "conveyor", text: include_str!("../../../lessons/conveyor.toml") },
    Builtin { name: "porch-beam", text: include_str!("../../../lessons/porch-beam.toml") },
    Builtin { name: "library-joist", text: include_str!("../../../lessons/library-joist.toml") },
    Builtin { name: "gangplank", text: include_str!("../../../lessons/gangplank.toml") },
    Builtin { name: "short-joist", text: include_str!("../../../lessons/short-joist.toml") },
    Builtin { name: "boat-shed", text: include_str!("../../../lessons/boat-shed.toml") },
    Builtin { name: "purlin", text: include_str!("../../../lessons/purlin.toml") },
    Builtin { name: "walkway", text: include_str!("../../../lessons/walkway.toml") },
    Builtin { name: "covered-channel", text: include_str!("../../../lessons/covered-channel.toml") },
    Builtin { name: "lintel", text: include_str!("../../../lessons/lintel.toml") },
];

/// The lesson of this name.
pub fn find(name: &str) -> Option<Builtin> {
    ALL.iter().copied().find(|lesson| lesson.name == name)
}
