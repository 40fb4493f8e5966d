//! Where the app can be, and the only place that reads or writes a path.
//!
//! An address that hangs in the shop (a door, a machine, a stop, a round, an invitation) is no screen: it is handed on as a scanned
//! text, and the member lands at Door. What it says is understood in `shared_core::code`, not here.

use shared_core::code::door::is_posted;
use shared_core::ids::RoomId;

use crate::store::Screen;

/// The address of a board, before the room's id.
const BOARD: &str = "/board/";

/// The address of a room's board.
pub fn board_href(room: &RoomId) -> String {
    [BOARD, room.as_str()].concat()
}

/// A place of the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Route {
    /// Arrive.
    Door,
    /// Work.
    Bench,
    /// Close down.
    Sweep,
    /// Who is here.
    Room,
    /// The log.
    Book,
    /// A page of Book.
    Page(Page),
    /// What the app cannot do for anybody.
    Cautions,
    /// A room's wall board; which room's is in the address.
    Board,
    /// An address that hangs in the shop.
    Posted,
    /// Every part with its states.
    #[cfg(feature = "gallery")]
    Gallery,
}

/// A page of Book: one thing that a steward sees to, or a member looks up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// Who is in, and what needs the steward.
    Today,
    /// The induction walk.
    Walk,
    /// What this member may run, and what comes next.
    SignOffs,
    /// Who is who: roles, sign-offs, phones, codes, leaving.
    People,
    /// The rulebook, written and published.
    Rules,
    /// Which rounds are due, and who did them when.
    Rounds,
    /// What months were like.
    Figures,
    /// Codes to hang up.
    Print,
    /// Machines that are out, and their threads.
    Repairs,
    /// Messes, and who could have left them.
    Finds,
    /// Incidents and near misses.
    Incidents,
}

impl Page {
    /// All of them, in the order in which Book names them.
    pub const ALL: [Self; 11] = [
        Self::Today,
        Self::Repairs,
        Self::Finds,
        Self::Incidents,
        Self::Walk,
        Self::SignOffs,
        Self::People,
        Self::Rounds,
        Self::Figures,
        Self::Rules,
        Self::Print,
    ];

    /// Its path.
    pub const fn href(self) -> &'static str {
        match self {
            Self::Today => "/book/today",
            Self::Walk => "/book/walk",
            Self::SignOffs => "/book/sign-offs",
            Self::People => "/book/people",
            Self::Rules => "/book/rules",
            Self::Rounds => "/book/rounds",
            Self::Figures => "/book/figures",
            Self::Print => "/book/print",
            Self::Repairs => "/book/repairs",
            Self::Finds => "/book/finds",
            Self::Incidents => "/book/incidents",
        }
    }

    /// Whether it is the steward's alone.
    pub const fn is_stewards(self) -> bool {
        match self {
            Self::Today | Self::Finds | Self::Incidents | Self::Rules | Self::Rounds | Self::Figures | Self::Print => {
                true
            }
            Self::Repairs | Self::Walk | Self::SignOffs | Self::People => false,
        }
    }

    /// Whether what stands there is reckoned from the log, and may be another once more of it was heard.
    pub const fn is_reckoned(self) -> bool {
        !matches!(self, Self::Rules | Self::Print)
    }
}

impl Route {
    /// The places at the foot of every screen, in order.
    pub const PLACES: [Self; 5] = [Self::Door, Self::Bench, Self::Sweep, Self::Room, Self::Book];

    /// What a path means; unknown paths lead to Door.
    pub fn of_path(path: &str) -> Self {
        match path {
            "/bench" => Self::Bench,
            "/sweep" => Self::Sweep,
            "/room" => Self::Room,
            "/book" => Self::Book,
            "/cautions" => Self::Cautions,
            #[cfg(feature = "gallery")]
            "/gallery" => Self::Gallery,
            _ if path.starts_with(BOARD) => Self::Board,
            _ if is_posted(path) || path == "/join" => Self::Posted,
            _ => Page::ALL.into_iter().find(|page| page.href() == path).map_or(Self::Door, Self::Page),
        }
    }

    /// The place at the foot that it belongs to.
    pub const fn place(self) -> Self {
        if let Self::Page(_) = self { Self::Book } else { self }
    }

    /// Its path.
    pub const fn href(self) -> &'static str {
        match self {
            Self::Page(page) => page.href(),
            Self::Door | Self::Posted => "/",
            Self::Bench => "/bench",
            Self::Sweep => "/sweep",
            Self::Room => "/room",
            Self::Book => "/book",
            Self::Cautions => "/cautions",
            Self::Board => BOARD,
            #[cfg(feature = "gallery")]
            Self::Gallery => "/gallery",
        }
    }

    /// Whose board a path asks for; of other paths, no room's.
    pub fn board_room(path: &str) -> RoomId {
        RoomId::from(path.strip_prefix(BOARD).unwrap_or_default())
    }
}

impl From<Screen> for Route {
    fn from(screen: Screen) -> Self {
        match screen {
            Screen::Door => Self::Door,
            Screen::Bench => Self::Bench,
            Screen::Sweep => Self::Sweep,
            Screen::Room => Self::Room,
            Screen::Walk => Self::Page(Page::Walk),
            Screen::SignOffs => Self::Page(Page::SignOffs),
            Screen::People => Self::Page(Page::People),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_is_found_by_its_own_path() {
        for route in Route::PLACES.into_iter().chain([Route::Cautions]).chain(Page::ALL.map(Route::Page)) {
            assert_eq!(Route::of_path(route.href()), route);
        }
    }

    #[test]
    fn a_board_is_a_rooms() {
        assert_eq!(Route::board_room("/board/forge"), RoomId::from("forge"));
        assert_eq!(Route::board_room("/bench"), RoomId::from(""));
    }

    #[test]
    fn posted_addresses_are_not_screens() {
        for (path, route) in [
            ("/d/forge", Route::Posted),
            ("/m/lathe", Route::Posted),
            ("/s/bin", Route::Posted),
            ("/r/bin", Route::Posted),
            ("/join", Route::Posted),
            ("/board/forge", Route::Board),
            ("/doors", Route::Door),
            ("/book/nothing", Route::Door),
            ("", Route::Door),
        ] {
            assert_eq!(Route::of_path(path), route, "{path}");
        }
    }
}
