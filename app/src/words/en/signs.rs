//! Words of English: what stands beside a sign on the sheet of a machine.
//!
//! Words of a rulebook that are not known here are shown as the steward wrote them.

/// Something to wear.
pub fn wear(word: &str) -> String {
    match word {
        "eyes" => "eye protection",
        "ears" => "hearing protection",
        "face" => "face shield, over the glasses",
        "toes" => "toe caps",
        "sleeves" => "long sleeves",
        "gloves" => "gloves",
        "mask" => "mask",
        "weld_shade" | "weld-shade" => "hood, set to its shade",
        "loose" => "hair and cords tied in",
        other => other,
    }
    .into()
}

/// Something never to wear.
pub fn never(word: &str) -> String {
    match word {
        "gloves" => "gloves",
        "loose" => "anything loose: hair, cords, scarves",
        "rings" => "rings and bracelets",
        "sleeves" => "loose sleeves",
        other => other,
    }
    .into()
}
