//! The keys of a rulebook, table by table: the list that unknown keys are refused against.
//!
//! DESIGN.md section 5, "Rulebook keys", fixes them; `language`, `demo`, `emergency`, `sign`, the limits of VOC, what a
//! stop asks, trainings, and the tables of fire are additions of ours. A key that
//! is read but not listed here would be refused as unknown, so the two cannot drift apart unseen.

/// One table of a file: how it is written, and the keys it may hold.
pub(super) struct Table {
    /// As people write it: `[shop]`, `[[machine]]`.
    pub(super) label: &'static str,
    /// Its keys.
    pub(super) keys: &'static [&'static str],
}

/// The whole file.
pub(super) const FILE: Table = Table {
    label: "a rulebook",
    keys: &[
        "shop",
        "reserve",
        "buddy",
        "fire_watch",
        "statement",
        "gear",
        "room",
        "machine",
        "round",
        "stop",
        "training",
        "fire",
        "extinguisher",
        "exit",
    ],
};
/// `[shop]`
pub(super) const SHOP: Table = Table {
    label: "[shop]",
    keys: &[
        "name",
        "time_zone",
        "language",
        "session_hours_max",
        "retention_days",
        "induction_days",
        "demo",
        "emergency",
    ],
};
/// `[reserve]`
pub(super) const RESERVE: Table =
    Table { label: "[reserve]", keys: &["floor_minutes", "first_bell_minutes", "quantile", "prior_weight"] };
/// `[buddy]`
pub(super) const BUDDY: Table = Table { label: "[buddy]", keys: &["renew_minutes", "covers", "buddy_may_operate"] };
/// `[fire_watch]`
pub(super) const FIRE_WATCH: Table = Table { label: "[fire_watch]", keys: &["minutes", "exclusive"] };
/// `[[statement]]`
pub(super) const STATEMENT: Table = Table { label: "[[statement]]", keys: &["id", "text", "decline", "sign"] };
/// `[[gear]]`
pub(super) const GEAR: Table = Table { label: "[[gear]]", keys: &["id", "count"] };
/// `[[room]]`
pub(super) const ROOM: Table =
    Table { label: "[[room]]", keys: &["id", "name", "chore", "voc_limit_g_per_l", "voc_source"] };
/// `[[room.chore]]`
pub(super) const ROOM_CHORE: Table =
    Table { label: "[[room.chore]]", keys: &["id", "text", "minutes", "hands", "after", "gear", "when"] };
/// `[[machine]]`
pub(super) const MACHINE: Table = Table {
    label: "[[machine]]",
    keys: &[
        "id",
        "name",
        "room",
        "training",
        "buddy",
        "hot_work",
        "pedal",
        "noise_dba",
        "vibration_ms2",
        "wear",
        "never_wear",
        "refuses",
        "start_checks",
        "chore",
        "voc_limit_g_per_l",
        "voc_source",
    ],
};
/// `[[machine.chore]]`
pub(super) const MACHINE_CHORE: Table =
    Table { label: "[[machine.chore]]", keys: &["id", "text", "minutes", "per_hour", "cap", "hands", "after", "gear"] };
/// `[[round]]`
pub(super) const ROUND: Table = Table { label: "[[round]]", keys: &["id", "room", "text", "every", "source"] };
/// `[[stop]]`
pub(super) const STOP: Table =
    Table { label: "[[stop]]", keys: &["id", "room", "text", "says", "sign", "ask", "answers", "right", "because"] };
/// `[[training]]`
pub(super) const TRAINING: Table =
    Table { label: "[[training]]", keys: &["id", "name", "checklist", "valid_days", "use_within_days", "signers"] };
/// `[fire]`
pub(super) const FIRE: Table = Table { label: "[fire]", keys: &["letters", "gather"] };
/// `[[extinguisher]]`
pub(super) const EXTINGUISHER: Table =
    Table { label: "[[extinguisher]]", keys: &["id", "room", "place", "agent", "classes", "live_electrics"] };
/// `[[exit]]`
pub(super) const EXIT: Table = Table { label: "[[exit]]", keys: &["id", "room", "text", "way_out"] };

/// The members file beside the rulebook.
pub(super) const MEMBERS_FILE: Table = Table { label: "a members file", keys: &["member"] };
/// `[[member]]`
pub(super) const MEMBER: Table =
    Table { label: "[[member]]", keys: &["id", "name", "as_of", "inducted_until", "steward", "signer", "signed_off"] };

/// The rulebook's tables, for telling where a misplaced key belongs.
pub(super) const RULEBOOK: &[&Table] = &[
    &SHOP,
    &RESERVE,
    &BUDDY,
    &FIRE_WATCH,
    &STATEMENT,
    &GEAR,
    &ROOM_CHORE,
    &MACHINE_CHORE,
    &MACHINE,
    &ROUND,
    &STOP,
    &TRAINING,
    &FIRE,
    &EXTINGUISHER,
    &EXIT,
];
