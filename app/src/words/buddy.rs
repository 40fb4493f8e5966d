//! Words of asking for a buddy that depend on what is asked.

use shared_core::entry::Given;

pub use super::said::buddy::*;

/// In which room, and at which machine if it is about one.
pub fn place(room: &str, machine: Option<&str>) -> String {
    machine.map_or_else(|| in_room(room), |machine| at_machine(machine, room))
}

/// What shows that a buddy is in the room.
pub fn given(given: Given) -> &'static str {
    match given {
        Given::OnTheirWord => given_word(),
        Given::InTheRoom => given_room(),
        Given::ByPin => given_pin(),
    }
}

/// Whose buddy one is until then, and what shows it.
pub fn covers(name: &str, clock: &str, by: Given) -> String {
    [covering(clock, name).as_str(), given(by)].join(", ")
}
