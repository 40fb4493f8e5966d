//! Words of what stands beside a sign on the sheet of a machine.
//!
//! Words of a rulebook that are not known here are shown as the steward wrote them.

use super::said::signs as said;

/// Something to wear.
pub fn wear(word: &str) -> String {
    match word {
        "eyes" => said::wear_eyes(),
        "ears" => said::wear_ears(),
        "face" => said::wear_face(),
        "toes" => said::wear_toes(),
        "sleeves" => said::wear_sleeves(),
        "gloves" => said::wear_gloves(),
        "mask" => said::wear_mask(),
        "weld_shade" | "weld-shade" => said::wear_weld_shade(),
        "loose" => said::wear_loose(),
        other => other,
    }
    .into()
}

/// Something never to wear.
pub fn never(word: &str) -> String {
    match word {
        "gloves" => said::never_gloves(),
        "loose" => said::never_loose(),
        "rings" => said::never_rings(),
        "sleeves" => said::never_sleeves(),
        other => other,
    }
    .into()
}
