//! `GET /api/openapi.json`: what this hub answers, for programs that are not the app (`OpenAPI` 3.1).
//!
//! Written by hand in `hub/openapi.json` and held to: a test compares it with the routes, and `cargo xtask describe` sends
//! what it allows, and what it does not, to a hub that runs.

use axum::http::{HeaderName, header};

const OPENAPI: &str = include_str!("../../openapi.json");

/// The description; it says nothing of the shop.
pub(crate) async fn description() -> ([(HeaderName, &'static str); 1], &'static str) {
    ([(header::CONTENT_TYPE, "application/json")], OPENAPI)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use serde_json::Value;

    use super::OPENAPI;

    /// Each `.route("/path", get(..))` of the router, as `GET /api/path`.
    fn routes() -> BTreeSet<String> {
        let router = include_str!("../router.rs");
        let of = |line: &str| {
            let (path, rest) = line.split_once(".route(\"")?.1.split_once("\", ")?;
            let methods = ["get", "post", "put", "delete"].into_iter();
            let named: Vec<_> = methods.filter(|method| rest.contains(&format!("{method}("))).collect();
            Some(named.into_iter().map(|method| format!("{} /api{path}", method.to_uppercase())).collect::<Vec<_>>())
        };
        router.lines().filter_map(of).flatten().collect()
    }

    #[test]
    fn every_route_is_described_and_nothing_else() {
        let description: Value = serde_json::from_str(OPENAPI).expect("JSON");
        let paths = description["paths"].as_object().expect("paths");
        let described: BTreeSet<String> = paths
            .iter()
            .flat_map(|(path, methods)| {
                methods.as_object().into_iter().flatten().map(move |(method, _)| (path, method))
            })
            .map(|(path, method)| format!("{} {path}", method.to_uppercase()))
            .collect();
        assert!(described.contains("POST /api/sync"));
        assert_eq!(described, routes());
    }
}
