//! What people are called on phones. Two of one name are told apart by their ids: on a muster list, in a buddy's word and in who
//! could have left a mess they must never be one person. Whoever keeps the members file may give them better names; nothing here
//! changes it.

use std::collections::BTreeMap;

use shared_core::members::{Member, Members};

/// The members as phones call them: who shares a name, in whatever case, has their id behind it.
pub(crate) fn told_apart(members: &Members) -> Members {
    let mut times: BTreeMap<String, u32> = BTreeMap::new();
    for member in members {
        *times.entry(plain(&member.name)).or_default() += 1;
    }
    let called = |member: &Member| {
        let alone = times.get(&plain(&member.name)).is_none_or(|times| *times < 2);
        let name = if alone { member.name.clone() } else { format!("{} ({})", member.name.trim(), member.id) };
        Member { name, ..member.clone() }
    };
    members.iter().map(called).collect()
}

fn plain(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_shares_a_name_has_their_id_behind_it() {
        let member = |(id, name): (&str, &str)| Member { id: id.into(), name: name.into(), ..Member::default() };
        let members: Members =
            [("sam-v", "Sam"), ("noor", "Noor"), ("sam-d", "sam "), ("ada", "Sam V")].map(member).into_iter().collect();
        let called: Vec<String> = told_apart(&members).iter().map(|member| member.name.clone()).collect();
        assert_eq!(called, ["Sam (sam-v)", "Noor", "sam (sam-d)", "Sam V"]);
    }
}
