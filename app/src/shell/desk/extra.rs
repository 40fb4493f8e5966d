//! Reckoning what one screen alone shows, while it does. Of the later part: see `crate::later`.

use std::cell::RefCell;

use shared_core::card::face::Face;
use shared_core::code::line;
use shared_core::entry::{Entry, Fact};
use shared_core::figures::Reach;
use shared_core::ids::{BookId, ChoreId, DeviceId, PersonId, RoomId};
use shared_core::ordered::{Map, Set};
use shared_core::rulebook::Chore;
use shared_core::standing::said_by;
use shared_core::state::Session;
use shared_core::sync::shop::ShopBundle;
use shared_core::time::MINUTE_MS;
use shared_core::view::bench::{self, Times};
use shared_core::view::board;
use shared_core::view::book::{self, BookLine};
use shared_core::view::figures;
use shared_core::view::history::{self, Evening};
use shared_core::view::kept;
use shared_core::view::people::{self, PeopleView};
use shared_core::view::posted;
use shared_core::view::walk::{self, WalkView};
use shared_core::view::why::Reasons;
use shared_core::view::{finds, incidents, repairs, today};
use shared_core::viewer::Viewer;

use crate::intent::Wanted;
use crate::route::Page;
use crate::shell::journal::Standing;
use crate::shell::journal::open::Own;
use crate::store::Extra;
use crate::words::count;

/// The book shows the newest lines; the rest is in the log.
const LINES_MOST: usize = 300;

/// What Book shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Book {
    /// This phone's log, newest first.
    pub lines: Vec<BookLine>,
    /// This member's sessions that are over.
    pub evenings: Vec<Evening>,
    /// This phone.
    pub dev: DeviceId,
    /// The face of its card, as a code's text.
    pub face: Option<String>,
    /// Lines that the hub does not hold.
    pub unsent: Vec<String>,
    /// Everybody of the shop, and what they are called.
    pub people: Vec<(PersonId, String)>,
}

/// Another out-by, weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The times as it would make them, if there is a plan.
    pub times: Option<Times>,
    /// Why the times are what they are now.
    pub reasons: Reasons,
}

/// What the walk's page shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// The walk.
    pub walk: WalkView,
    /// That it is done, for the steward's phone, as a code's text.
    pub code: Option<String>,
}

/// What the rulebook's page knows without the hub.
#[derive(Clone, Debug, PartialEq)]
pub struct RulesKnown {
    /// Who looks.
    pub me: PersonId,
    /// Which rules the log says that they published: number and id.
    pub published: Set<(i64, BookId)>,
    /// What members are called.
    pub people: Vec<(PersonId, String)>,
    /// What rooms are called under the rules in force, in this phone's language.
    pub rooms: Vec<(RoomId, String)>,
    /// What machines and chores are called there, by id: a chore's has its owner's before a stroke.
    pub names: Map<String, String>,
}

/// What People shows.
#[derive(Clone, Debug, PartialEq)]
pub struct People {
    /// Who is found, and the one who is looked at.
    pub view: PeopleView,
    /// This phone's newest word about them, for their phone, as a code's text.
    pub code: Option<String>,
    /// Everybody of the shop, and what they are called.
    pub names: Vec<(PersonId, String)>,
    /// This phone.
    pub dev: DeviceId,
}

/// What is wanted: [`Book`], [`Weighed`], [`Reasons`], what a page of Book shows, or the board of a room, none of a room that is not in the rulebook.
pub fn reckon(wanted: &Wanted, viewer: &Viewer<'_>, own: &[Own], dev: &DeviceId, shop: &ShopBundle) -> Extra {
    match wanted {
        // These are asked for with what is typed or picked there.
        Wanted::Nothing | Wanted::Page(Page::People | Page::Figures) => Extra::default(),
        Wanted::Page(Page::Rules) => Extra::of(rules_known(viewer)),
        Wanted::OutBy(out_by) => {
            Extra::of(Weighed { times: bench::times_if(viewer, *out_by), reasons: Reasons::of(viewer) })
        }
        Wanted::Why => Extra::of(Reasons::of(viewer)),
        Wanted::Page(Page::Walk) => {
            let walk = walk::walk(viewer);
            let is_done = |entry: &Entry| matches!(&entry.fact, Fact::WalkDone { .. });
            let code = walk.done.and_then(|_| code_of_last(own, &is_done));
            Extra::of(Walk { walk, code })
        }
        Wanted::Page(Page::SignOffs) => Extra::of(people::person(viewer, viewer.me)),
        Wanted::People { typed, who } => {
            let is_of = |entry: &Entry| said_by(&entry.fact).is_some_and(|(person, ..)| Some(person) == who.as_ref());
            Extra::of(People {
                view: people::people(viewer, typed, who.as_ref()),
                code: code_of_last(own, &is_of),
                names: names(viewer),
                dev: dev.clone(),
            })
        }
        Wanted::Page(Page::Today) => Extra::of(today::today(viewer)),
        Wanted::Page(Page::Rounds) => Extra::of(kept::kept(viewer)),
        Wanted::Figures(reach) => figures_of(viewer, shop, *reach),
        Wanted::Page(Page::Print) => Extra::of(posted::posted(viewer)),
        Wanted::Page(Page::Repairs) => Extra::of(repairs::repairs(viewer)),
        Wanted::Page(Page::Finds) => Extra::of(finds::finds(viewer)),
        Wanted::Page(Page::Incidents) => Extra::of(incidents::incidents(viewer)),
        Wanted::Board(room) => Extra::of(board::board(viewer, room)),
        Wanted::Book => {
            let is_own = |text: &&String| Face::read(text).is_some_and(|face| face.shown.dev == *dev);
            let waiting = own.iter().filter(|own| own.line.standing == Standing::Waiting);
            Extra::of(Book {
                lines: lines(viewer, own),
                evenings: history::evenings(viewer),
                dev: dev.clone(),
                face: shop.faces.iter().find(is_own).cloned(),
                unsent: waiting.map(|own| own.line.jws.clone()).collect(),
                people: names(viewer),
            })
        }
    }
}

fn rules_known(viewer: &Viewer) -> RulesKnown {
    let mine = viewer.state.published.iter().filter(|(_, _, by)| by == viewer.me);
    let mut names = Map::new();
    for room in &viewer.book.rooms {
        names.extend(room.chores.iter().map(|chore| named(room.id.as_str(), chore)));
    }
    for machine in &viewer.book.machines {
        names.insert(machine.id.to_string(), machine.name.clone());
        names.extend(machine.chores.iter().map(|chore| named(machine.id.as_str(), chore)));
    }
    RulesKnown {
        me: viewer.me.clone(),
        people: self::names(viewer),
        rooms: viewer.book.rooms.iter().map(|room| (room.id.clone(), room.name.clone())).collect(),
        published: mine.map(|(number, book, _)| (i64::from(*number), book.clone())).collect(),
        names,
    }
}

fn named(owner: &str, chore: &Chore) -> (String, String) {
    (ChoreId::of(owner, &chore.id).to_string(), chore.text.clone())
}

fn names(viewer: &Viewer) -> Vec<(PersonId, String)> {
    viewer.members.iter().map(|member| (member.id.clone(), member.name.clone())).collect()
}

/// The code of this phone's newest line of that kind, unless the hub would not take it.
fn code_of_last(own: &[Own], kind: &dyn Fn(&Entry) -> bool) -> Option<String> {
    let last = own.iter().rev().find(|own| kind(&own.signed.entry))?;
    let stands = !matches!(last.line.standing, Standing::Rejected { .. });
    stands.then(|| line::write(&last.signed)?.ok()).flatten()
}

/// The figures, reckoned anew only when the log has grown or minutes have passed: two years of it take a while.
fn figures_of(viewer: &Viewer<'_>, shop: &ShopBundle, reach: Reach) -> Extra {
    /// What the figures were reckoned of, told apart by counts and times alone.
    type Of = (usize, usize, usize, i64, i64);
    /// The last of each reach.
    type Last = Vec<(Reach, Of, Extra)>;
    thread_local! {
        static LAST: RefCell<Last> = const { RefCell::new(Vec::new()) };
    }
    const ANEW_MS: i64 = 10 * MINUTE_MS;
    let state = viewer.state;
    let words = state.tag_words.values().map(Set::len).chain(state.rounds_done.values().map(Set::len)).sum();
    let told = |session: &Session| session.last_at.ms() + count(session.chores.len() + session.uses.len());
    let told = state.sessions.values().map(told).fold(0, i64::wrapping_add);
    let of = (state.sessions.len(), state.found.len(), words, told, viewer.now.ms().div_euclid(ANEW_MS));
    LAST.with_borrow_mut(|last| {
        last.retain(|(_, known, _)| *known == of);
        if let Some((_, _, shown)) = last.iter().find(|(known, ..)| *known == reach) {
            return shown.clone();
        }
        let shown = Extra::of(figures::figures(viewer, &shop.utc_offsets, reach));
        last.push((reach, of, shown.clone()));
        shown
    })
}

fn lines(viewer: &Viewer, own: &[Own]) -> Vec<book::BookLine> {
    let newest = own.iter().rev().take(LINES_MOST);
    let line = |own: &Own| {
        let standing = match &own.line.standing {
            Standing::Waiting => book::Standing::Waiting,
            Standing::Acked => book::Standing::Held,
            Standing::Rejected { why } => book::Standing::Rejected(why.clone()),
        };
        book::line(viewer, own.line.seq, &own.signed.entry, standing)
    };
    newest.map(line).collect()
}
