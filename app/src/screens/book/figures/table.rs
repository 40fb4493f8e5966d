//! A table whose rows may have a picture under them: what is read, printed and listened to is the table itself.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;

use crate::parts::steel_rule::escape;

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

/// A table with this caption and these heads. Its rows are one piece of markup: a log of years has thousands of them.
pub fn table(caption: &'static str, heads: &[&str], rows: Vec<Row>) -> AnyView {
    let mut body = String::new();
    for Row { name, cells, picture } in rows {
        body.extend(["<tr><th scope=\"row\">", &escape(&name), "</th>"]);
        for cell in &cells {
            body.extend(["<td>", &escape(cell), "</td>"]);
        }
        body.push_str("</tr>");
        if let Some(picture) = picture {
            let whole = (cells.len() + 1).to_string();
            body.extend(["<tr class=\"drawn\"><td colspan=\"", &whole, "\">", &picture, "</td></tr>"]);
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
                <tbody inner_html=body></tbody>
            </table>
        </div>
    }
    .into_any()
}
