//! Safety signs in the shapes and colours of ISO 3864-1: blue disc for what is mandatory, red ring and bar for what
//! is forbidden, yellow triangle for warnings, green square for safe conditions, red square for fire equipment.
//!
//! The pictograms are our own drawings. A sign never stands alone: the words beside it say the same, so it is hidden
//! from screen readers unless it is given a name.

mod glyphs;

use leptos::prelude::*;

/// What a sign says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Wear eye protection.
    Eyes,
    /// Wear hearing protection.
    Ears,
    /// Wear a face shield.
    Face,
    /// Wear toe caps.
    Toes,
    /// Wear sleeves.
    Sleeves,
    /// Wear gloves.
    Gloves,
    /// Wear a mask.
    Mask,
    /// Look through a weld shade only.
    WeldShade,
    /// Tie in hair and cords.
    TiedIn,
    /// Something else that must be done, said in words.
    Must,
    /// No gloves.
    NoGloves,
    /// No loose hair, cords or clothing.
    NoLoose,
    /// No rings or bracelets.
    NoRings,
    /// No alcohol.
    Sober,
    /// Something else that must not be done, said in words.
    Never,
    /// A warning.
    Warning,
    /// The way out.
    Exit,
    /// A door that is no way out.
    NoExit,
    /// Where everybody gathers.
    Muster,
    /// A fire extinguisher.
    Extinguisher,
}

/// The shape and colour that a sign's meaning has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shape {
    Mandatory,
    Prohibition,
    Warning,
    SafeCondition,
    FireEquipment,
}

impl Sign {
    /// The sign beside a statement of the rulebook: `eyes`, `loose`, `sober`, or any word of [`Sign::wear`].
    pub fn statement(word: &str) -> Self {
        match word {
            "sober" | "alcohol" => Self::Sober,
            "rings" => Self::NoRings,
            "exit" => Self::Exit,
            "muster" => Self::Muster,
            "extinguisher" => Self::Extinguisher,
            "warning" => Self::Warning,
            other => Self::wear(other),
        }
    }

    /// The sign for something to wear or do.
    pub fn wear(word: &str) -> Self {
        match word {
            "eyes" => Self::Eyes,
            "ears" => Self::Ears,
            "face" => Self::Face,
            "toes" => Self::Toes,
            "sleeves" => Self::Sleeves,
            "gloves" => Self::Gloves,
            "mask" => Self::Mask,
            "weld_shade" | "weld-shade" => Self::WeldShade,
            "loose" => Self::TiedIn,
            _ => Self::Must,
        }
    }

    /// The sign for something never to wear or do.
    pub fn never(word: &str) -> Self {
        match word {
            "gloves" => Self::NoGloves,
            "loose" | "sleeves" => Self::NoLoose,
            "rings" => Self::NoRings,
            "alcohol" | "sober" => Self::Sober,
            _ => Self::Never,
        }
    }

    fn shape(self) -> Shape {
        match self {
            Self::NoGloves | Self::NoLoose | Self::NoRings | Self::Sober | Self::Never | Self::NoExit => {
                Shape::Prohibition
            }
            Self::Warning => Shape::Warning,
            Self::Exit | Self::Muster => Shape::SafeCondition,
            Self::Extinguisher => Shape::FireEquipment,
            _ => Shape::Mandatory,
        }
    }
}

/// Draws a sign as the content of a 64 by 64 SVG.
pub fn draw(sign: Sign) -> String {
    let glyph = glyphs::glyph(sign);
    match sign.shape() {
        Shape::Mandatory => {
            format!(r#"<circle class="sign-must" cx="32" cy="32" r="31"/><g class="sign-white">{glyph}</g>"#)
        }
        Shape::Prohibition => format!(
            r#"<circle class="sign-ground" cx="32" cy="32" r="31"/><g class="sign-black">{glyph}</g><circle class="sign-ring" cx="32" cy="32" r="27.8"/><path class="sign-ring" d="M12.3 12.3l39.4 39.4"/>"#
        ),
        Shape::Warning => format!(
            r#"<path class="sign-warn" d="M32 5L61 57H3z"/><path class="sign-warn-edge" d="M32 9.5L57 54.5H7z"/><g class="sign-black">{glyph}</g>"#
        ),
        Shape::SafeCondition => {
            format!(r#"<path class="sign-safe" d="M1 1h62v62H1z"/><g class="sign-white">{glyph}</g>"#)
        }
        Shape::FireEquipment => {
            format!(r#"<path class="sign-fire" d="M1 1h62v62H1z"/><g class="sign-white">{glyph}</g>"#)
        }
    }
}

/// A sign, as large as the stylesheet makes it there.
#[component]
pub fn SafetySign(
    /// What it says.
    #[prop(into)]
    sign: Signal<Sign>,
    /// Its name, where no words beside it say the same.
    #[prop(optional, into)]
    name: Option<String>,
) -> impl IntoView {
    let (role, hidden) = if name.is_some() { (Some("img"), None) } else { (None, Some("true")) };
    view! {
        <svg
            class="sign"
            viewBox="0 0 64 64"
            role=role
            aria-label=name
            aria-hidden=hidden
            inner_html=move || draw(sign.get())
        ></svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 3864-1:2011, Table 1: geometric shapes and their meaning (from memory).
    #[test]
    fn words_of_a_rulebook_get_the_shape_of_their_meaning() {
        for (sign, shape) in [
            (Sign::statement("eyes"), Shape::Mandatory),
            (Sign::statement("loose"), Shape::Mandatory),
            (Sign::statement("sober"), Shape::Prohibition),
            (Sign::statement("a word of the steward's own"), Shape::Mandatory),
            (Sign::wear("gloves"), Shape::Mandatory),
            (Sign::never("gloves"), Shape::Prohibition),
            (Sign::never("a word of the steward's own"), Shape::Prohibition),
            (Sign::Warning, Shape::Warning),
            (Sign::Exit, Shape::SafeCondition),
            (Sign::NoExit, Shape::Prohibition),
            (Sign::Extinguisher, Shape::FireEquipment),
        ] {
            assert_eq!(sign.shape(), shape, "{sign:?}");
        }
    }
}
