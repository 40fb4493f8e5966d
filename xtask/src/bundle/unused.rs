//! What nobody calls, taken out of the module and its script.
//!
//! A crate under Leptos hands streams to JavaScript as classes, which are exported and so kept, with all that they call;
//! the page makes none of them. Once their exports are gone the optimiser drops the rest, and the script's shims for
//! imports that the module no longer has are dropped here. Lines of the script are dropped whole, never rewritten, but
//! for its own list of exports.

use std::collections::{BTreeMap, BTreeSet};

use walrus::Module;

/// How the names of those classes begin.
const CLASSES: &str = "IntoUnderlying";

/// Takes the classes' exports out of a module.
pub(super) fn drop_exports(module: &mut Module) {
    let gone: Vec<_> = module.exports.iter().filter(|export| of_class(&export.name)).map(walrus::Export::id).collect();
    for id in gone {
        module.exports.delete(id);
    }
}

/// Whether an export is one of those classes'.
pub(super) fn of_class(export: &str) -> bool {
    export.to_ascii_lowercase().contains(&CLASSES.to_ascii_lowercase())
}

/// The script without those classes, without shims of imports that are not in `kept`, and without the way to start it
/// at once, which pages have no use for.
pub(super) fn without(script: &str, kept: &BTreeMap<String, String>) -> String {
    let mut out = String::with_capacity(script.len());
    let mut until: Option<&str> = None;
    let again = imported_again(script);
    for line in script.lines().filter(|line| !again.iter().any(|name| names_import(line, name))) {
        if let Some(end) = until {
            if line == end || (end == ";" && line.ends_with(end)) {
                until = None;
            }
            continue;
        }
        until = end_of_unused(line, kept);
        if until.is_none() && !is_of_class(line) {
            out.push_str(&line.replace("export { initSync, ", "export { "));
            out.push('\n');
        }
    }
    out
}

/// The binder imports a script once for each of its functions; these are the names of all but the first time.
fn imported_again(script: &str) -> Vec<&str> {
    let mut seen = BTreeSet::new();
    let imports = script.lines().filter_map(|line| line.strip_prefix("import * as ")?.split_once(" from "));
    imports.filter(|(_, path)| !seen.insert(*path)).map(|(name, _)| name).collect()
}

/// Whether a line imports a script by this name, or hands it to the module.
fn names_import(line: &str, name: &str) -> bool {
    let handed = line.trim_end_matches(',').strip_suffix(name).is_some_and(|before| before.ends_with("\": "));
    handed || line.strip_prefix("import * as ").is_some_and(|rest| rest.split(' ').next() == Some(name))
}

/// Where what begins with this line and is not used ends; `None` if it is used, or is a line alone.
fn end_of_unused(line: &str, kept: &BTreeMap<String, String>) -> Option<&'static str> {
    if line.starts_with(&format!("export class {CLASSES}")) || line.starts_with("function initSync(") {
        return Some("}");
    }
    if line.starts_with(&format!("const {CLASSES}")) {
        return Some(";").filter(|end| !line.ends_with(end));
    }
    let (name, _) = line.strip_prefix("        ")?.split_once(": function(")?;
    // A closing line of its own indentation ends a shim, whether it catches what is thrown or not.
    (name.starts_with("__wb") && !kept.contains_key(name))
        .then_some("        },")
        .map(|end| if line.contains("handleError(function") { "        }, arguments); }," } else { end })
}

fn is_of_class(line: &str) -> bool {
    line.starts_with(&format!("const {CLASSES}")) || line.starts_with(&format!("if (Symbol.dispose) {CLASSES}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SCRIPT: &str = r#"import { path } from './address.js';
import * as import1 from "./bell.js"
import * as import2 from "./bell.js"
export class IntoUnderlyingSink {
    close() {
    }
}
if (Symbol.dispose) IntoUnderlyingSink.prototype[Symbol.dispose] = IntoUnderlyingSink.prototype.free;
        "./bell.js": import1,
        "./bell.js": import2,
        __wbg_used_1: function(arg0) {
            return path();
        },
        __wbg_unused_2: function(arg0) {
            return arg0;
        },
        __wbg_unused_3: function() { return handleError(function (arg0) {
            return arg0;
        }, arguments); },
const IntoUnderlyingSinkFinalization = (typeof FinalizationRegistry === 'undefined')
    ? { register: () => {} }
    : new FinalizationRegistry(ptr => wasm.free(ptr, 1));
function initSync(module) {
    return module;
}
export { initSync, __wbg_init as default };
"#;

    #[test]
    fn what_nobody_calls_is_gone_and_the_rest_is_as_it_was() {
        let kept = BTreeMap::from([("__wbg_used_1".to_owned(), "_0".to_owned())]);
        let want = "\
import { path } from './address.js';
import * as import1 from \"./bell.js\"
        \"./bell.js\": import1,
        __wbg_used_1: function(arg0) {
            return path();
        },
export { __wbg_init as default };
";
        assert_eq!(without(SCRIPT, &kept), want);
    }

    #[test]
    fn exports_of_the_classes_go_and_others_stay() {
        let mut module = Module::default();
        let table = module.tables.add_local(false, 1, None, walrus::RefType::FUNCREF);
        for name in ["main", "__wbg_intounderlyingsink_free", "intounderlyingsource_pull"] {
            module.exports.add(name, table);
        }
        drop_exports(&mut module);
        let left: Vec<_> = module.exports.iter().map(|export| export.name.clone()).collect();
        assert_eq!(left, ["main"]);
    }
}
