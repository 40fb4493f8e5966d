//! Words of English: the camera.

/// Its sheet.
pub const TITLE: &str = "Scan";
/// What to do.
pub const HOW: &str = "Hold the code in the picture. A hand's width away is about right.";
/// Without a camera.
pub const TYPED: &str = "Or type the name on the door";
/// Uses it.
pub const USE: &str = "Use it";
/// No camera.
pub const MISSING: &str = "There is no camera here.";
/// Refused.
pub const REFUSED: &str = "The camera may not be used by this page.";
/// In use.
pub const BUSY: &str = "Another program has the camera.";
/// Something else.
pub const OTHER: &str = "The camera does not start.";
/// What to do.
pub const MISSING_NEXT: &str = "Type the name on the door, or scan with another phone.";
/// What to do.
pub const REFUSED_NEXT: &str = "Allow it in the browser's settings for this page, or type the name on the door.";
/// What to do.
pub const BUSY_NEXT: &str = "Close the other program, go back, and scan again.";
