//! Saying more of an earlier line: a sheet with a few words and what they are; and what was said so far.
//!
//! Which step fits which line, and who may say it, is the rules' to know: a refusal is shown here like any other.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::{Of, Step};
use shared_core::time::Instant;
use shared_core::view::thread::NoteLine;

use crate::intent::use_dispatch;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::field::{Field, Typed};
use crate::parts::figures::date_and_clock;
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::time::offset_minutes;
use crate::store::{AppView, use_app_view};
use crate::words::{facts, frame, repairs as say};

/// What is to be said more of.
#[derive(Clone, Debug, PartialEq)]
pub struct Saying {
    /// Of which line.
    pub of: Of,
    /// What it is about: the sheet's title.
    pub about: String,
    /// What helps to find the words.
    pub hint: &'static str,
    /// What the words may be, the main one last.
    pub steps: Vec<(Step, &'static str)>,
}

/// What lies over a page: somebody is about to say more.
pub type Over = RwSignal<Option<Saying>>;

/// The sheet, while somebody does.
pub fn over(over: Over) -> AnyView {
    live(move || over.get().map(|saying| sheet(saying, Callback::new(move |()| over.set(None)))))
}

fn sheet(saying: Saying, on_close: Callback<()>) -> AnyView {
    let dispatch = use_dispatch();
    let words = RwSignal::new(String::new());
    let Saying { of, about, hint, mut steps } = saying;
    let main = steps.pop();
    let tell = Callback::new(move |step: Step| {
        let note = Some(words.get_untracked()).filter(|note| !note.trim().is_empty());
        dispatch.act(Command::Note { of: of.clone(), step, note });
        on_close.run(());
    });
    let quiet = move |(step, label): (Step, &'static str)| {
        view! { <QuietButton label on_press=move |()| tell.run(step) /> }.into_any()
    };
    view! {
        <Sheet title=about close_label=frame::back() on_close>
            <div class="sheet-body">
                <NoticeBar />
                <Field label=say::words() name="saying" value=words typed=Typed::Sentences hint=hint ready=true />
            </div>
            <div class="acts">
                {steps.into_iter().map(quiet).collect_view()}
                {main.map(|(step, label)| view! { <BigButton label on_press=move |()| tell.run(step) /> }.into_any())}
            </div>
        </Sheet>
    }
    .into_any()
}

/// What was said so far, a line each.
pub fn said(view: AppView, notes: Vec<NoteLine>) -> AnyView {
    notes.into_iter().map(|note| line(view, note)).collect_view().into_any()
}

/// One thing that was said.
pub fn line(view: AppView, note: NoteLine) -> AnyView {
    let head = say::by(&note.by, &facts::step(note.step));
    told(view, note.at, head, note.note)
}

/// A line of a thread: when, what, and in which words.
pub fn told(view: AppView, at: Instant, head: String, words: Option<String>) -> AnyView {
    view! {
        <p class="thread-line">
            <span class="thread-when">{when(view, at)}</span>
            <span>
                {head} {words.map(|words| view! { <span class="thread-words">{words}</span> }.into_any())}
            </span>
        </p>
    }
    .into_any()
}

/// A date and a clock time, the shop's.
pub fn when(view: AppView, at: Instant) -> String {
    date_and_clock(at, offset_minutes(view, at))
}

/// An act that says of a line that it was seen to, at once.
pub fn seen_to(of: Of, label: &'static str, about: &str) -> AnyView {
    let dispatch = use_dispatch();
    let spoken = crate::words::bench::act_on(label, about);
    let tell = move |()| dispatch.act(Command::Note { of: of.clone(), step: Step::SeenTo, note: None });
    view! { <QuietButton label spoken on_press=tell /> }.into_any()
}

/// What `of` shows of what a page was reckoned to show; nothing until that is there.
pub fn drawn<T: Clone + PartialEq + Send + Sync + 'static>(
    of: impl Fn(AppView, T) -> AnyView + Send + 'static,
) -> AnyView {
    let view = use_app_view();
    let shown = crate::parts::kept::kept(move || view.extra.with(|extra| extra.seen::<T>().cloned()));
    live(move || shown.get().map(|it| of(view, it)))
}
