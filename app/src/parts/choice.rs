//! A few answers side by side, of which one is pressed; pressing it again takes it back.
//!
//! Knows numbers alone: 0 is "nothing said", 1 the first answer. What they mean is for whoever placed it.

use leptos::prelude::*;

/// A question with its answers.
pub fn choice(question: &'static str, answers: Vec<&'static str>, picked: RwSignal<usize>) -> AnyView {
    let one = move |(index, answer): (usize, &'static str)| {
        let number = index + 1;
        view! {
            <button
                type="button"
                class="quiet-button"
                aria-pressed=move || if picked.get() == number { "true" } else { "false" }
                on:click=move |_| picked.update(|picked| *picked = if *picked == number { 0 } else { number })
            >
                {answer}
            </button>
        }
        .into_any()
    };
    view! {
        <h2>{question}</h2>
        <div class="looks" role="group" aria-label=question>
            {answers.into_iter().enumerate().map(one).collect_view()}
        </div>
    }
    .into_any()
}
