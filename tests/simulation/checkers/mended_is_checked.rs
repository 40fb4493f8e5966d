//! A machine that was tagged out runs for nobody before somebody says that it is mended and a second person has checked it, as
//! far as the phone knows that lets it run; and nobody runs one that they are not signed off on.
//!
//! Asked of each act when it is done, of what that phone knew: of two words of one instant the one that keeps the machine out
//! holds, and what was mended counts behind the last tag alone.

use shared_core::command::Command;
use shared_core::entry::{Entry, Fact, Matter, Of, Step};
use shared_core::ids::{MachineId, PersonId};
use shared_core::time::Instant;

use crate::world::World;

/// A machine that is out: who says that it is mended, if anybody does.
#[derive(Debug, PartialEq)]
struct Out<'a> {
    mended_by: Option<&'a PersonId>,
}

pub(crate) fn acted(world: &mut World, phone: usize, command: &Command) {
    let one = &world.phones[phone];
    let Some(page) = &one.page else { return };
    match command {
        Command::StartMachine { machine, .. } => {
            assert_eq!(out(&page.entries, machine), None, "phone {phone} starts {machine}");
            let training = world.shop.books[page.book].rules.machine(machine).map(|known| &known.training);
            let until = page.members.get(&one.me).and_then(|me| me.signed_off.get(training?).copied());
            let now = page.steady.now();
            assert!(until > Some(now), "phone {phone} starts {machine}, signed off until {until:?}, and it is {now}");
            world.tally.count("tags: starts looked at");
        }
        Command::ClearTag { machine }
        | Command::Note { of: Of { matter: Matter::Tag(machine), .. }, step: Step::Checked, .. } => {
            let by = out(&page.entries, machine).map(|out| out.mended_by.cloned());
            assert!(
                matches!(&by, Some(Some(by)) if *by != one.me),
                "phone {phone} of {} gives {machine} back, mended by {by:?}",
                one.me
            );
            world.tally.count("tags: checked by a second person");
        }
        _ => {}
    }
}

/// Whether a machine is out, plainly.
fn out<'a>(entries: &'a [Entry], machine: &MachineId) -> Option<Out<'a>> {
    let mut words: Vec<(Instant, bool, &Entry)> = entries
        .iter()
        .filter_map(|entry| match &entry.fact {
            Fact::TaggedOut { machine: of, .. } if of == machine => Some((entry.at, true, entry)),
            Fact::TagCleared { machine: of } if of == machine => Some((entry.at, false, entry)),
            _ => None,
        })
        .collect();
    words.sort_by_key(|(at, tags, _)| (*at, *tags));
    let (last, ..) = words.last().filter(|(_, tags, _)| *tags)?;
    let since_cleared = words.iter().rev().take_while(|(_, tags, _)| *tags);
    let tags: Vec<Of> = since_cleared
        .map(|(at, _, entry)| Of { matter: Matter::Tag(machine.clone()), at: *at, who: entry.who.clone() })
        .collect();
    let steps = entries.iter().filter_map(|entry| match &entry.fact {
        Fact::Noted { of, step, note } if tags.contains(of) && entry.at >= *last => match step {
            Step::Mended | Step::WaitsForPart { .. } => Some((entry.at, &entry.who, *step, note)),
            _ => None,
        },
        _ => None,
    });
    let mended_by = steps.max().filter(|(_, _, step, _)| *step == Step::Mended).map(|(_, who, ..)| who);
    Some(Out { mended_by })
}
