//! All SQL that the hub says to `PostgreSQL`: the texts in the sources of its store that begin like a statement, and the migrations.
//!
//! `SQLite`'s own file is left out, and tests of the store.

use std::fs;
use std::path::Path;

use proc_macro2::{TokenStream, TokenTree};
use sqlparser::ast::Statement;
use sqlparser::dialect::PostgreSqlDialect;
use sqlparser::parser::Parser;

/// How statements begin. Words in capitals that begin no statement of ours are here to be found if one ever does.
const BEGINNINGS: &[&str] = &[
    "SELECT", "INSERT", "UPDATE", "DELETE", "WITH", "MERGE", "CREATE", "ALTER", "DROP", "TRUNCATE", "BEGIN", "SET",
    "SHOW", "LOCK", "LISTEN", "NOTIFY", "COPY", "CALL", "DO", "VACUUM", "EXPLAIN", "VALUES",
];

/// Statements of one file.
pub(super) struct Said {
    pub(super) file: String,
    pub(super) text: String,
    pub(super) statements: Vec<Statement>,
}

/// Everything, file by file.
pub(super) fn all() -> Vec<Said> {
    let hub = Path::new(env!("CARGO_MANIFEST_DIR")).join("../hub");
    let mut said = Vec::new();
    for (folder, ending) in [("src/store", ".rs"), ("migrations/postgres", ".sql")] {
        let mut files: Vec<_> =
            fs::read_dir(hub.join(folder)).expect("the hub's").map(|file| file.expect("a file").path()).collect();
        files.sort();
        for path in files.into_iter().filter(|path| path.is_file()) {
            let file = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            if !file.ends_with(ending) || file == "sqlite.rs" {
                continue;
            }
            let text = fs::read_to_string(&path).expect("text");
            let texts = if ending == ".sql" { vec![text] } else { texts(&text) };
            said.extend(texts.into_iter().map(|text| Said {
                file: file.clone(),
                statements: read(&file, &text),
                text,
            }));
        }
    }
    said
}

/// The statements of a text, by a parser that knows nothing of ours.
pub(super) fn read(file: &str, text: &str) -> Vec<Statement> {
    Parser::parse_sql(&PostgreSqlDialect {}, text).unwrap_or_else(|why| panic!("{file}: {why}: {text}"))
}

/// The statements among the texts of a Rust source.
fn texts(source: &str) -> Vec<String> {
    let source = source.split("\n#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let mut texts = Vec::new();
    literals(source.parse().expect("Rust"), &mut texts);
    texts.into_iter().filter(|text| begins(text)).map(|text| filled(&text)).collect()
}

fn begins(text: &str) -> bool {
    text.split_whitespace().next().is_some_and(|first| BEGINNINGS.contains(&first))
        && text.contains(char::is_whitespace)
}

/// What is put together when the program runs, as one row of it: `{columns}` is a column, `{}` a row of values.
fn filled(text: &str) -> String {
    text.replace("{columns}", "dev").replace("{}", "($1)")
}

fn literals(tokens: TokenStream, texts: &mut Vec<String>) {
    for token in tokens {
        match token {
            TokenTree::Group(group) => literals(group.stream(), texts),
            TokenTree::Literal(literal) => {
                texts.extend(syn::parse_str::<syn::LitStr>(&literal.to_string()).ok().map(|text| text.value()));
            }
            TokenTree::Ident(_) | TokenTree::Punct(_) => {}
        }
    }
}
