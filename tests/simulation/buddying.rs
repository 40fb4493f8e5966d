//! Two people hold their phones to each other: an ask is shown and scanned, an answer is shown and scanned. No network.
//!
//! Codes come across damaged, late, twice, or at the wrong phone. What follows is judged by `shared_core::code` and
//! `decide` alone; this file remembers which answers people really gave, for the checkers.

use std::collections::BTreeMap;

use shared_core::code::answer::{self, Answer, AnswerFault, Draft, Kind};
use shared_core::code::ask::Ask;
use shared_core::code::{self, Scanned};
use shared_core::command::Command;
use shared_core::ids::{MachineId, PersonId, RoomId};
use shared_core::view::buddy::asked;

use crate::chance::Chance;
use crate::phone::Phone;
use crate::shop::{ORIGIN, Shop};

/// Answers that people really gave, by signature.
#[derive(Clone, Debug, Default)]
pub(crate) struct Given(BTreeMap<[u8; 64], Words>);

#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Words {
    pub(crate) buddy: PersonId,
    pub(crate) operator: PersonId,
    pub(crate) room: RoomId,
    pub(crate) kind: Kind,
}

impl Given {
    /// What was really said in an answer.
    pub(crate) fn words(&self, answer: &Answer) -> Option<&Words> {
        self.0.get(&answer.signature)
    }
}

/// What came of it, by name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Met {
    /// The operator's phone may now be told to take it down.
    Answered(Command),
    /// Nothing, and why.
    Nothing(String),
}

/// The operator shows an ask; it stays on the screen until it is answered or made anew.
pub(crate) fn show_ask(phone: &mut Phone, chance: &mut Chance, machine: Option<MachineId>) -> Option<Ask> {
    let page = phone.page.as_mut()?;
    let session = page.state.sessions.get(page.session.as_ref()?).filter(|session| session.is_open())?;
    let fresh = Ask {
        session: session.id.clone(),
        operator: session.who.clone(),
        room: session.room.clone(),
        machine,
        nonce: chance.bytes(),
        issued_at: page.steady.now(),
    };
    // Now and then the ask from before is still on the screen, as old as it is.
    let ask = page.ask.take().filter(|_| chance.hit(100)).unwrap_or(fresh);
    page.ask = Some(ask.clone());
    Some(ask)
}

/// The buddy scans the ask and answers.
pub(crate) fn answer(
    buddy: &Phone,
    shop: &Shop,
    ask: &Ask,
    kind: Kind,
    chance: &mut Chance,
    given: &mut Given,
) -> Result<String, String> {
    let shown = ask.write().map_err(|fault| format!("ask {fault}"))?;
    let Ok(Scanned::Ask(scanned)) = code::read(&come_across(shown, chance), ORIGIN) else {
        return Err("ask not read".to_owned());
    };
    let viewer = buddy.viewer(shop).ok_or("the buddy's phone is off")?;
    let Ask { session, operator, room, machine, .. } = &scanned;
    let refusal = asked(&viewer, session, operator, room, machine.as_ref(), false).refusal;
    if let (Some(refusal), Kind::Here) = (refusal, kind) {
        return Err(format!("asked {}", crate::tally::variant(&refusal)));
    }
    let draft = Draft::to(&scanned, kind, viewer.now, buddy.me.clone(), buddy.dev.clone());
    let signature = buddy.sign(&draft.signing_input(&scanned).map_err(|fault| format!("answer {fault}"))?);
    let words = Words { buddy: buddy.me.clone(), operator: scanned.operator, room: scanned.room, kind };
    given.0.insert(signature, words);
    draft.assemble(signature).write().map_err(|fault| format!("answer {fault}"))
}

/// The operator scans an answer.
pub(crate) fn scan(operator: &mut Phone, shop: &Shop, shown: String, chance: &mut Chance) -> Met {
    let text = come_across(shown, chance);
    let Ok(Scanned::Answer(answer)) = code::read(&text, ORIGIN) else { return Met::Nothing("not read".to_owned()) };
    let me = operator.me.clone();
    let Some(page) = operator.page.as_mut() else { return Met::Nothing("the phone is off".to_owned()) };
    let Some(ask) = page.ask.clone() else { return Met::Nothing("nothing was asked".to_owned()) };
    let person_of = |dev: &_| shop.devices.get(dev).cloned();
    let accepted = answer::accept(&answer, &ask, page.steady.now(), &me, &person_of, &page.used, None);
    match accepted {
        Ok(accepted) => {
            page.used.insert(answer.said.nonce);
            assert_eq!(
                (answer.said.nonce, &answer.said.session),
                (ask.nonce, &ask.session),
                "an answer to another ask"
            );
            Met::Answered(match accepted.kind {
                Kind::Here => {
                    let (buddy, given) = (accepted.buddy, accepted.given);
                    Command::ConfirmBuddy { buddy, machine: ask.machine, proof: Some(text), given }
                }
                Kind::Leaving => Command::EndBuddy { buddy: accepted.buddy },
            })
        }
        Err(fault) => Met::Nothing(name(fault).to_owned()),
    }
}

fn name(fault: AnswerFault) -> &'static str {
    match fault {
        AnswerFault::AskTooOld => "ask too old",
        AnswerFault::OtherAsk => "other ask",
        AnswerFault::UsedBefore => "used before",
        AnswerFault::BoardCode => "the board's code",
        AnswerFault::Oneself => "oneself",
        AnswerFault::Signature => "signature",
        AnswerFault::UnknownPhone => "unknown phone",
        AnswerFault::OtherPerson => "other person",
    }
}

/// A camera reads a code; one in fifty comes across with a wrong character.
fn come_across(mut text: String, chance: &mut Chance) -> String {
    if chance.hit(20) {
        let at = chance.below(text.len());
        text.replace_range(at..=at, chance.pick::<&str>(&["A", "0", ":", "Z"]));
    }
    text
}
