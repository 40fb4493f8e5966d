//! Every part with its states on one page, for whoever draws: `/gallery`, in development builds alone.
//!
//! Parts get plain values here, as everywhere; nothing is wired to the loop. The browser tests compare each specimen
//! with its picture, so that a change of a token or a part is seen before it is shipped.

use leptos::prelude::*;
use shared_core::time::{Instant, Span};

use crate::parts::button::{BigButton, QuietButton, Strength};
use crate::parts::choice::choice;
use crate::parts::chore_row::ChoreRow;
use crate::parts::field::{Field, Typed};
use crate::parts::figures::{BigFigure, ClockAct, Key};
use crate::parts::lines::{Line, beside, lines};
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::parts::places::{Place, Places};
use crate::parts::qr::Qr;
use crate::parts::sheet::Sheet;
use crate::parts::sign::{SafetySign, Sign};
use crate::parts::steel_rule::end_stop::end_stop;
use crate::parts::steel_rule::{Marks, SteelRule, Words};

const SIGNS: [Sign; 20] = [
    Sign::Eyes,
    Sign::Ears,
    Sign::Face,
    Sign::Toes,
    Sign::Sleeves,
    Sign::Gloves,
    Sign::Mask,
    Sign::WeldShade,
    Sign::TiedIn,
    Sign::Must,
    Sign::NoGloves,
    Sign::NoLoose,
    Sign::NoRings,
    Sign::Sober,
    Sign::Never,
    Sign::Warning,
    Sign::Exit,
    Sign::NoExit,
    Sign::Muster,
    Sign::Extinguisher,
];

/// The page.
pub fn gallery() -> AnyView {
    view! {
        <main class="screen is-plain">
            <div class="screen-body">
                <h1>"Gallery"</h1>
                {specimen("main-act", main_acts())}
                {specimen("quiet-act", quiet_acts())}
                {specimen("choice", choice("Does a magnet hold?", vec!["Yes", "A little", "No"], RwSignal::new(2)))}
                {specimen("field", fields())}
                {specimen("figure", figures())}
                {specimen("notice", notices())}
                {specimen("chore", chores())}
                {specimen("lines", exits())}
                {specimen("sign", signs())}
                {specimen("rule-lying", sized("1fr", "9rem", rule(evening(), 0)))}
                {specimen("rule-standing", sized("96px 96px 96px", "40rem", standing()))}
                {specimen("end-stop", moved_stop())}
                {specimen("code", view! { <Qr text="SWEEPBELL EXAMPLE" label="A code" /> }.into_any())}
                {specimen("places", places())}
                {specimen("sheet", sheet())}
            </div>
        </main>
    }
    .into_any()
}

fn main_acts() -> AnyView {
    view! {
        <BigButton label="Start sweeping" on_press=|()| () />
        <BigButton label="Being stored" waiting=true on_press=|()| () />
    }
    .into_any()
}

fn quiet_acts() -> AnyView {
    view! {
        <QuietButton label="Ask for a buddy" on_press=|()| () />
        <QuietButton label="Why not?" strength=Strength::Faint on_press=|()| () />
    }
    .into_any()
}

fn fields() -> AnyView {
    let (words, code) = (RwSignal::new("Guard loose".to_owned()), RwSignal::new("KNURL-7".to_owned()));
    view! {
        <Field label="What is wrong?" name="words" value=words typed=Typed::Sentences hint="One sentence." />
        <Field label="Join code" name="code" value=code typed=Typed::Code hint="It hangs by the door." />
    }
    .into_any()
}

fn figures() -> AnyView {
    let line = |label: &'static str, act: &'static str, value: &'static str, key: Key| {
        view! { <ClockAct label act value key on_press=Callback::new(|()| ()) /> }.into_any()
    };
    view! {
        <BigFigure label="Sweep from 21:06, in" value="58" unit="min" key=Key::Hatch />
        {line("Last spark", "why?", "20:24", Key::Notch)}
        {line("Watch until", "why?", "20:54", Key::Dots)}
        {line("Out by", "move", "21:26", Key::Stop)}
    }
    .into_any()
}

fn notices() -> AnyView {
    view! {
        <Notice tone=Tone::Refusal reason="The lathe asks for a buddy." next_step="Ask somebody in the room." />
        <Notice tone=Tone::Trouble reason="It was not saved." next_step="Make room on the phone, then try again." />
        <Notice tone=Tone::Fact reason="Everything is with the hub." />
    }
    .into_any()
}

fn exits() -> AnyView {
    let line =
        |sign: Sign, name: &str, detail: &str| Line { sign: Some(sign), name: name.into(), detail: detail.into() };
    let exits = vec![line(Sign::Exit, "North door", "Push the bar."), line(Sign::NoExit, "Store", "Leads nowhere.")];
    view! {
        {lines("Exits".into(), exits)}
        {beside("Smoke is worse than flame.".into())}
    }
    .into_any()
}

fn signs() -> AnyView {
    view! {
        <div style:display="grid" style:gap="12px" style:grid-template-columns="repeat(5, 56px)">
            {SIGNS.map(|sign| view! { <SafetySign sign /> }.into_any()).collect_view()}
        </div>
    }
    .into_any()
}

/// A rule so many minutes after its evening's now.
fn rule(marks: Marks, later: i64) -> AnyView {
    let now = now() + Span::from_minutes(later);
    view! { <SteelRule marks=Signal::stored(marks) now=Signal::stored(now) /> }.into_any()
}

/// In its session, past a session that was left, past an out-by.
fn standing() -> AnyView {
    vec![rule(evening(), 0), rule(Marks { left: true, ..evening() }, 70), rule(evening(), 100)].into_any()
}

fn specimen(name: &'static str, parts: AnyView) -> AnyView {
    view! {
        <section class="specimen" id=name>
            <h2>{name}</h2>
            {parts}
        </section>
    }
    .into_any()
}

/// Rules side by side, as wide and as high as said.
fn sized(columns: &'static str, height: &'static str, rules: AnyView) -> AnyView {
    view! {
        <div style:display="grid" style:gap="24px" style:grid-template-columns=columns style:height=height>
            {rules}
        </div>
    }
    .into_any()
}

fn chores() -> AnyView {
    let row = |text: &'static str, detail: &'static str, done: bool, is_next: bool| {
        view! { <ChoreRow text detail minutes="4 min" done is_next on_done=|()| () /> }.into_any()
    };
    view! {
        {row("Brush the bench", "done 20:41", true, false)}
        {row("Empty the chip tray", "2 people", false, true)}
        {row("Sweep the floor", "after: Empty the chip tray", false, false)}
    }
    .into_any()
}

fn places() -> AnyView {
    let place = |name: &str| Place { name: Signal::stored(name.to_owned()), href: "/gallery".into() };
    let places = ["Door", "Bench", "Sweep", "Room", "Book"].map(place).to_vec();
    view! { <Places label="Places" places current=Some(1) /> }.into_any()
}

/// Over everything once it is open.
fn sheet() -> AnyView {
    let open = RwSignal::new(false);
    let close = Callback::new(move |()| open.set(false));
    view! {
        <QuietButton label="Open a sheet" on_press=move |()| open.set(true) />
        {live(move || {
            open.get()
                .then(|| {
                    view! {
                        <Sheet title="Tag out: Needle scaler" close_label="Back" on_close=close>
                            <div class="sheet-body">{fields()}</div>
                            <div class="acts">{main_acts()}</div>
                        </Sheet>
                    }
                        .into_any()
                })
        })}
    }
    .into_any()
}

fn moved_stop() -> AnyView {
    let marks = Marks { spans: Some((now(), now() + Span::from_minutes(180))), from: now(), ..evening() };
    end_stop(
        Signal::stored(marks),
        Signal::stored(now()),
        "Out by",
        Signal::stored("out by 21:26".to_owned()),
        Callback::new(|_| ()),
    )
}

/// 2026-05-04T18:08:00Z.
fn now() -> Instant {
    Instant::from_ms(1_777_918_080_000)
}

fn evening() -> Marks {
    let minutes = |minutes: i64| now() + Span::from_minutes(minutes);
    Marks {
        from: minutes(-68),
        out_by: minutes(78),
        sweep_from: Some(minutes(58)),
        first_bell: Some(minutes(48)),
        last_spark: Some(minutes(16)),
        watch: Some((minutes(16), minutes(46))),
        spans: None,
        left: false,
        offset_minutes: 120,
        words: Words {
            title: "An evening".into(),
            desc: "Sweep from 21:06, out by 21:26.".into(),
            past: "gone".into(),
            work: "work".into(),
            sweep: "sweep".into(),
            watch: "fire watch".into(),
            last_spark: "last spark".into(),
            out_by: "out by".into(),
            over: "over".into(),
        },
    }
}
