//! The door of the demo shop: what is attested, and in which order.

use shared_core::attestation::Arriving;
use shared_core::ids::{RoomId, StatementId};
use shared_core::time::Instant;

/// Loose items secured, eye protection on, no alcohol before or during: common practice, no source.
#[test]
fn the_door_asks_for_every_statement_in_order() {
    let (book, problems) = shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
    assert_eq!(problems, []);
    let book = book.expect("the demo rulebook");
    let now = Instant::from_ms(0);
    let mut arriving = Arriving::at(RoomId::from("forge"), now);
    let mut asked = Vec::new();
    while let Some((index, statement)) = arriving.next_statement(&book) {
        assert_eq!(index, asked.len());
        let id = statement.id.clone();
        // Attesting anything else first changes nothing.
        let before = arriving.clone();
        for other in book.statements.iter().filter(|other| other.id != id) {
            arriving.attest(&book, &other.id, now);
        }
        arriving.attest(&book, &StatementId::from("no such statement"), now);
        assert_eq!(arriving, before);
        arriving.attest(&book, &id, now);
        asked.push(id);
    }
    assert_eq!(asked, ["loose", "eyes", "sober"].map(StatementId::from));
}
