//! A table whose rows may have a picture under them: what is read, printed and listened to is the table itself.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;

/// A row: what it is about, its cells, and its picture as markup.
pub struct Row {
    /// What it is about.
    pub name: String,
    /// What is said of it.
    pub cells: Vec<String>,
    /// The picture under it.
    pub picture: Option<String>,
}

impl Row {
    /// A row without a picture.
    pub fn plain(name: impl Into<String>, cells: Vec<String>) -> Self {
        Self { name: name.into(), cells, picture: None }
    }

    /// The same with a picture.
    #[must_use]
    pub fn with(self, picture: String) -> Self {
        Self { picture: Some(picture), ..self }
    }
}

/// A table with this caption and these heads.
pub fn table(caption: &'static str, heads: &[&str], rows: Vec<Row>) -> AnyView {
    let mut body = Vec::new();
    for row in rows {
        let mut cells = Vec::new();
        let columns = row.cells.len().to_string();
        for cell in row.cells {
            cells.push(view! { <td>{cell}</td> }.into_any());
        }
        body.push(view! { <tr><th {..custom_attribute("scope", "row")}>{row.name}</th>{cells}</tr> }.into_any());
        if let Some(picture) = row.picture {
            let whole = (columns.parse::<u32>().unwrap_or(0) + 1).to_string();
            body.push(
                view! {
                    <tr class="drawn">
                        <td colspan=whole inner_html=picture></td>
                    </tr>
                }
                .into_any(),
            );
        }
    }
    let heads = heads
        .iter()
        .map(|head| view! { <th {..custom_attribute("scope", "col")}>{(*head).to_owned()}</th> }.into_any());
    let heads: Vec<AnyView> = heads.collect();
    view! {
        <div class="table-wide" {..custom_attribute("tabindex", "0")} {..custom_attribute("role", "group")} aria-label=caption>
            <table class="counts">
                <caption class="unseen">{caption}</caption>
                <thead>
                    <tr>{heads}</tr>
                </thead>
                <tbody>{body}</tbody>
            </table>
        </div>
    }
    .into_any()
}
