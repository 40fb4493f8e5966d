//! Words of asking for a buddy that depend on what is asked.

pub use super::said::buddy::*;

/// In which room, and at which machine if it is about one.
pub fn place(room: &str, machine: Option<&str>) -> String {
    machine.map_or_else(|| in_room(room), |machine| at_machine(machine, room))
}
