//! What waits, how the hub is, what it would not take and what could not be read again.

use leptos::prelude::*;

use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::kept::kept;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::screens::time::Minutes;
use crate::store::{Link, use_app_view};
use crate::words::{self, book as say, time};

/// The state of syncing.
#[component]
pub fn Sync() -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let counts = kept(move || view.sync.with(|sync| (sync.waiting, sync.rejected, sync.aside)));
    view! {
        <section class="sync">
            {live(move || {
                let (waiting, rejected, aside) = counts.get();
                view! {
                    {(rejected > 0)
                        .then(|| {
                            view! {
                                <Notice
                                    tone=Tone::Trouble
                                    reason=say::rejected(words::count(rejected))
                                    next_step=say::rejected_next()
                                />
                            }.into_any()
                        })}
                    {(aside > 0)
                        .then(|| {
                            view! { <Notice tone=Tone::Trouble reason=say::aside(i64::from(aside)) next_step=say::aside_next() /> }.into_any()
                        })}
                    {if waiting == 0 {
                        view! { <Notice tone=Tone::Fact reason=say::all_held() /> }.into_any()
                    } else {
                        view! { <Notice tone=Tone::Fact reason=say::waiting(words::count(waiting)) next_step=say::waiting_next() /> }
                            .into_any()
                    }}
                }.into_any()
            })}
            <Hub />
            {not_all()}
            <QuietButton label=say::sync() on_press=move |()| dispatch.ui(Ui::Sync) />
        </section>
    }
}

/// Until the whole log was heard: what is reckoned from it may lack what somebody said long ago.
pub fn not_all() -> AnyView {
    let view = use_app_view();
    let heard_all = kept(move || view.sync.with(|sync| sync.heard_all));
    live(move || {
        (!heard_all.get()).then(|| {
            view! { <Notice tone=Tone::Fact reason=say::not_all() next_step=say::not_all_next() /> }.into_any()
        })
    })
}

#[component]
fn Hub() -> impl IntoView {
    let view = use_app_view();
    let link = kept(move || view.sync.with(|sync| sync.link.clone()));
    live(move || match link.get() {
        Link::Unknown => view! { <p class="soft">{say::not_asked()}</p> }.into_any(),
        Link::Reached(at) => view! {
            <p class="soft">
                <Minutes at=Signal::stored(at) since=true says=|minutes| say::reached(&time::ago(minutes)) />
            </p>
        }
        .into_any(),
        Link::Fault(fault) => {
            let (reason, next) = words::faults::link(&fault);
            view! {
                <p class="soft">
                    {reason} " " {next}
                </p>
            }
            .into_any()
        }
    })
}
