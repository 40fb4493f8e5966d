//! Who is it, of those whom a join code is for? Of the later part: see `crate::later`.

use leptos::prelude::*;
use shared_core::ids::PersonId;
use shared_core::sync::invite::InviteKind;
use shared_core::sync::shop::JoinChoices;

use super::gate::fault_notice;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::shell::hub_link::LinkFault;
use crate::words::gate as say;

/// The screen.
pub fn screen(choices: JoinChoices, fault: Option<LinkFault>) -> AnyView {
    let dispatch = use_dispatch();
    let leaving = dispatch.clone();
    let back = move |()| leaving.ui(Ui::StopJoining);
    // A one-time code is for one member, and says so; the demo shop's lets everybody pick.
    let one = choices.invite.and(choices.members.first()).map(|one| one.name.clone());
    let (title, why) = match &one {
        Some(name) => (say::is_it(name, &choices.shop), say::for_why(name)),
        None => (say::who(&choices.shop), say::who_why().to_owned()),
    };
    let replaces = (choices.invite == Some(InviteKind::Replaces)).then(say::for_replaces);
    let row = move |id: PersonId, name: String| {
        let dispatch = dispatch.clone();
        let name = if one.is_some() { say::join_as(&name) } else { name };
        view! {
            <li>
                <QuietButton label=name on_press=move |()| dispatch.ui(Ui::JoinAs(id.clone())) />
            </li>
        }
        .into_any()
    };
    view! {
        <main class="screen">
            <div class="screen-body">
                <h1>{title}</h1>
                <p>{why} " " {replaces}</p>
                {fault_notice(fault)}
                <ul class="choices">
                    {choices.members.into_iter().map(|choice| row(choice.id, choice.name)).collect_view()}
                </ul>
            </div>
            // Not among the names.
            <div class="acts">
                <QuietButton label=say::stop_joining() on_press=back />
            </div>
        </main>
    }
    .into_any()
}
