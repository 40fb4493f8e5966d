//! People: who is who, and what may be said of one of them: inducted, signed off together at the machine, a role; their phones and
//! codes; and that they leave.
//!
//! Who may say what is the rules' to know; a button stands only where they allow it. Nobody is listed by thousands: a name is typed.

use leptos::prelude::*;
use shared_core::card::Role;
use shared_core::ids::PersonId;
use shared_core::standing::Key;
use shared_core::standing::act::Act;
use shared_core::sync::mine::{EraseAsked, ErasedNow};
use shared_core::view::people::{Holds, PersonRow, PersonView, TrainingRow};

use super::phones::{answered, ask, phones_of};
use super::sign_offs::holds;
use crate::intent::{Ui, Wanted, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::field::Field;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::qr::Qr;
use crate::screens::scan::scanner;
use crate::screens::wants::wants;
use crate::shell::desk::extra::People;
use crate::store::{At, use_app_view};
use crate::words::{self, people as say, standing};

/// Told apart from one's own wish: that one empties this phone as well.
const LEAVING: &str = "/api/erase?leaving";

/// The page.
pub fn drawn() -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let typed = RwSignal::new(String::new());
    let who = RwSignal::new(None::<PersonId>);
    let walked = kept(move || match view.at.get() {
        At::Walked { who, whole } => Some((who, whole)),
        _ => None,
    });
    // Whose walk was scanned is who is looked at, until somebody else is picked.
    let looked_at = kept(move || who.get().or_else(|| walked.get().map(|(who, _)| who)));
    wants(Box::new(move || Wanted::People { typed: typed.get(), who: looked_at.get() }));
    let found = kept(move || {
        view.extra.with(|extra| extra.seen().map(|seen: &People| (seen.view.found.clone(), seen.view.more)))
    });
    let person = kept(move || view.extra.with(|extra| extra.seen().and_then(|seen: &People| seen.view.person.clone())));
    let code = kept(move || view.extra.with(|extra| extra.seen().and_then(|seen: &People| seen.code.clone())));
    let scanning = RwSignal::new(false);
    let back = dispatch.clone();
    on_cleanup(move || dispatch.ui(Ui::At(At::Nothing)));
    let others = Callback::new(move |()| {
        back.ui(Ui::At(At::Nothing));
        who.set(None);
    });
    view! {
        {live(move || {
            let walk = walked.get()?;
            (Some(&walk.0) == looked_at.get().as_ref()).then(|| walk_notice(walk.1))
        })}
        {live(move || person.get().map(|person| one(person, others)))}
        {live(move || Some(for_their_phone(&person.get()?, code.get()?)))}
        {live(move || {
            looked_at
                .get()
                .is_none()
                .then(|| {
                    view! {
                        <section>
                            <Field label=say::name() name="person" value=typed hint=say::name_hint() />
                            <QuietButton label=say::scan() on_press=move |()| scanning.set(true) />
                            {live(move || found.get().map(|(found, more)| list(found, more, who)))}
                        </section>
                    }
                        .into_any()
                })
        })}
        {scanner(scanning)}
    }
    .into_any()
}

fn walk_notice(whole: bool) -> AnyView {
    if whole {
        view! { <Notice tone=Tone::Fact reason=say::walked() next_step=say::walked_next() /> }.into_any()
    } else {
        view! { <Notice tone=Tone::Refusal reason=say::walked_other() next_step=say::walked_other_next() /> }.into_any()
    }
}

fn list(found: Vec<PersonRow>, more: usize, who: RwSignal<Option<PersonId>>) -> AnyView {
    let none = found.is_empty();
    let row = move |row: PersonRow| {
        let id = row.who.clone();
        view! {
            <li class="row">
                <button type="button" class="row-act" on:click=move |_| who.set(Some(id.clone()))>
                    <span class="row-name">
                        <bdi>{row.name}</bdi>
                    </span>
                    <span class="row-detail">
                        {role(row.role)}
                        " · "
                        <bdi>{row.who.to_string()}</bdi>
                    </span>
                </button>
            </li>
        }
        .into_any()
    };
    view! {
        {none.then(|| view! { <p class="soft">{say::nobody()}</p> }.into_any())}
        <ul class="rows">{found.into_iter().map(row).collect_view()}</ul>
        {(more > 0).then(|| view! { <p class="soft">{say::more(words::count(more))}</p> }.into_any())}
    }
    .into_any()
}

fn role(role: Role) -> &'static str {
    match role {
        Role::Member => say::role_member(),
        Role::Signer => say::role_signer(),
        Role::Steward => say::role_steward(),
    }
}

fn one(person: PersonView, others: Callback<()>) -> AnyView {
    let view = use_app_view();
    let PersonView { row, known, induction, may_induct, may_give_roles, trainings } = person;
    let who = row.who.clone();
    let mine = view.shop.with_untracked(|shop| shop.as_ref().is_some_and(|shop| shop.me == who));
    let signable = |training: &TrainingRow| known || training.may_sign;
    let rows: Vec<_> = trainings.into_iter().filter(signable).collect();
    let drawn = {
        let who = who.clone();
        move |row: TrainingRow| training(who.clone(), row, known)
    };
    view! {
        <section>
            <QuietButton label=say::others() on_press=others />
            <h2>
                <bdi>{row.name.clone()}</bdi>
            </h2>
            <p class="row-detail">
                {role(row.role)}
                " · "
                <bdi>{row.who.to_string()}</bdi>
            </p>
        </section>
        {(known || may_induct).then(|| inducted(&who, induction, known, may_induct))}
        {(!rows.is_empty())
            .then(|| {
                view! {
                    <section>
                        <h2>{say::sign_offs()}</h2>
                        {(!known).then(|| view! { <p class="soft">{say::unknown()}</p> }.into_any())}
                        <ul class="rows">{rows.into_iter().map(drawn).collect_view()}</ul>
                    </section>
                }
                    .into_any()
            })}
        {may_give_roles.then(|| roles(&who, row.role))}
        {may_give_roles.then(|| phones_of(who.clone(), row.name.clone()))}
        {(may_give_roles && !mine).then(|| leaving(who))}
    }
    .into_any()
}

fn inducted(who: &PersonId, induction: Holds, known: bool, may: bool) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let good = matches!(induction, Holds::Until(_));
    let acts = {
        let (induct, back) = (Act::Induct(who.clone()), Act::TakeBack(who.clone(), Key::Induction));
        let undo = dispatch.clone();
        may.then(|| {
            view! {
                <div class="looks">
                    <QuietButton
                        label=if good { say::induct_again() } else { say::induct() }
                        on_press=move |()| dispatch.ui(Ui::Act(induct.clone()))
                    />
                    {good
                        .then(|| {
                            view! {
                                <QuietButton
                                    label=say::take_back()
                                    spoken=say::take_back_spoken(standing::induction())
                                    on_press=move |()| undo.ui(Ui::Act(back.clone()))
                                />
                            }
                                .into_any()
                        })}
                </div>
            }
            .into_any()
        })
    };
    view! {
        <section>
            <h2>{words::standing::induction()}</h2>
            {known.then(|| view! { <p>{holds(view, induction)}</p> }.into_any())}
            {acts}
        </section>
    }
    .into_any()
}

fn training(who: PersonId, row: TrainingRow, known: bool) -> AnyView {
    let view = use_app_view();
    let TrainingRow { id, name, machines, checklist, holds: stands, may_sign, .. } = row;
    let good = matches!(stands, Holds::Until(_) | Holds::UseBefore(..) | Holds::Stale(_));
    let open = RwSignal::new(false);
    let undo = use_dispatch();
    let back = Act::TakeBack(who.clone(), Key::Training(id.clone()));
    let acts = may_sign.then(|| {
        view! {
            <div class="looks">
                <QuietButton label=say::sign() spoken=say::sign_spoken(&name) on_press=move |()| open.update(|open| *open = !*open) />
                {(good && known)
                    .then(|| {
                        view! {
                            <QuietButton
                                label=say::take_back()
                                spoken=say::take_back_spoken(&name)
                                on_press=move |()| undo.ui(Ui::Act(back.clone()))
                            />
                        }
                            .into_any()
                    })}
            </div>
            {live(move || open.get().then(|| together(Act::SignOff(who.clone(), id.clone()), checklist.clone())))}
        }
        .into_any()
    });
    view! {
        <li class="row">
            <p class="row-name">
                <bdi>{name.clone()}</bdi>
            </p>
            {(machines != [name.clone()])
                .then(|| {
                    view! {
                        <p class="row-detail">
                            <bdi>{machines.join(", ")}</bdi>
                        </p>
                    }
                        .into_any()
                })}
            {known
                .then(|| {
                    view! {
                        <p class="row-detail">
                            <strong>{holds(view, stands)}</strong>
                        </p>
                    }
                        .into_any()
                })}
            {acts}
        </li>
    }
    .into_any()
}

/// What is done together at the machine, ticked line by line; then it is signed.
fn together(act: Act, checklist: Vec<String>) -> AnyView {
    let dispatch = use_dispatch();
    let ticked = RwSignal::new(vec![false; checklist.len()]);
    let all = kept(move || ticked.with(|ticked| ticked.iter().all(|tick| *tick)));
    let line = move |(number, line): (usize, String)| {
        let is = move || ticked.with(|ticked| ticked.get(number).copied().unwrap_or_default());
        let flip = move |_| {
            ticked.update(|ticked| {
                if let Some(tick) = ticked.get_mut(number) {
                    *tick = !*tick;
                }
            });
        };
        view! {
            <button type="button" class="quiet-button tick" aria-pressed=move || if is() { "true" } else { "false" } on:click=flip>
                {line}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="choices together">
            <p>{say::together()}</p>
            {checklist.into_iter().enumerate().map(line).collect_view()}
            {live(move || {
                let (dispatch, act) = (dispatch.clone(), act.clone());
                if all.get() {
                    view! { <QuietButton label=say::signed() on_press=move |()| dispatch.ui(Ui::Act(act.clone())) /> }.into_any()
                } else {
                    view! { <p class="soft">{say::tick_all()}</p> }.into_any()
                }
            })}
        </div>
    }
    .into_any()
}

/// This phone's newest word about them, for their phone: it counts there at once.
fn for_their_phone(person: &PersonView, code: String) -> AnyView {
    view! {
        <section>
            <h2>{say::show()}</h2>
            <p>{say::show_how(&person.row.name)}</p>
            <Qr text=code label=say::code() />
        </section>
    }
    .into_any()
}

fn roles(who: &PersonId, now: Role) -> AnyView {
    let one = |to: Role| {
        let (dispatch, who) = (use_dispatch(), who.clone());
        view! {
            <button
                type="button"
                class="quiet-button"
                aria-pressed=if to == now { "true" } else { "false" }
                on:click=move |_| {
                    if to != now {
                        dispatch.ui(Ui::Act(Act::GiveRole(who.clone(), to)));
                    }
                }
            >
                {role(to)}
            </button>
        }
        .into_any()
    };
    view! {
        <section>
            <h2>{say::role()}</h2>
            <p class="soft">{say::role_how()}</p>
            <div class="looks" role="group" aria-label=say::role()>
                {[Role::Member, Role::Signer, Role::Steward].map(one).into_iter().collect_view()}
            </div>
        </section>
    }
    .into_any()
}

fn leaving(who: PersonId) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let sure = RwSignal::new(false);
    let theirs = ["/api/mine/", who.as_str()].concat();
    let label = Signal::derive(move || if sure.get() { say::leave_sure() } else { say::leave() }.to_owned());
    let leave = move |()| {
        if sure.get_untracked() {
            ask(&dispatch, LEAVING, &EraseAsked { member: Some(who.clone()), leaving: true });
        }
        sure.update(|sure| *sure = !*sure);
    };
    let done = |ErasedNow { erased, .. }: ErasedNow| {
        view! { <Notice tone=Tone::Fact reason=say::left(i64::from(erased)) next_step=say::left_next() /> }.into_any()
    };
    view! {
        <section>
            <h2>{say::leaves()}</h2>
            <a class="quiet-button" href=theirs download="held.json">
                {say::held()}
            </a>
            <p class="soft">{say::leave_how()}</p>
            <QuietButton label on_press=leave />
            {answered(view, LEAVING, done)}
        </section>
    }
    .into_any()
}
