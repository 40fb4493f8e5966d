//! From a fresh phone to the door: a code, a name, the rules; and what each fault leads to.

use shared_core::sync::shop::{Choice, JoinChoices};
use shared_core::view::door::DoorView;

use super::*;
use crate::shell::hub_link::LinkFault;
use crate::store::{Gate, Link};

fn fresh(seed: u8) -> Phone {
    Phone::open(TestKey::of(seed), Memory::default(), at(START))
}

fn choices() -> JoinChoices {
    JoinChoices {
        shop: "Canal Yard".into(),
        members: vec![Choice { id: "ada".into(), name: "Ada".into() }],
        invite: None,
    }
}

#[test]
fn a_door_code_leads_through_joining_to_its_door() {
    let mut ada = fresh(1);
    assert_eq!(ada.shown().gate, Gate::Fetching { fault: None });
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Shop)));
    assert_eq!(ada.hub(Hub::Shop(Err(LinkFault::NotJoined))).gate, Gate::JoinCode { fault: None });
    assert_eq!(ada.ui(Ui::Scanned("https://shop.test/d/forge#j=K7".into())).gate, Gate::JoinChecking);
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::CheckJoin("K7".into()))));
    let shown = ada.hub(Hub::Choices("K7".into(), Ok(choices())));
    assert_eq!(shown.gate, Gate::JoinChoose { choices: choices(), fault: None });
    ada.ui(Ui::JoinAs("ada".into()));
    assert!(ada.errands.contains(&Errand::Later(LaterErrand::Join { code: "K7".into(), member: "ada".into() })));
    assert_eq!(ada.hub(Hub::Joined(Ok(()))).gate, Gate::Fetching { fault: None });
    let shown = ada.hub(Hub::Shop(Ok(text(&shop()))));
    assert_eq!(shown.gate, Gate::Open);
    assert!(matches!(&shown.door, Some(DoorView::Attest { step: 1, of: 2, .. })), "{:?}", shown.door);
    // The rules are kept: after this the phone needs no network.
    assert_eq!(ada.reopened_after(1).shown().gate, Gate::Open);
}

#[test]
fn a_phone_that_nobody_knows_yet_asks_for_a_code_at_once() {
    let mut ada = Phone::open(TestKey::new(1), Memory::default(), at(START));
    assert_eq!(ada.shown().gate, Gate::JoinCode { fault: None });
    assert_eq!(ada.wait(Span::from_minutes(2)).gate, Gate::JoinCode { fault: None });
    assert_eq!(ada.errands, [], "no hub knows it");
    ada.ui(Ui::JoinWith("K7".into()));
    ada.hub(Hub::Choices("K7".into(), Ok(choices())));
    ada.ui(Ui::JoinAs("ada".into()));
    ada.hub(Hub::Joined(Ok(())));
    assert_eq!(ada.hub(Hub::Shop(Ok(text(&shop())))).gate, Gate::Open);
}

/// What asks the hub is of the later part, and may not come.
#[test]
fn where_nobody_can_be_asked_it_is_as_if_there_were_no_network() {
    let offline = || Some(LinkFault::Offline);
    let mut ada = fresh(1);
    assert_eq!(ada.send(Intent::Phone(Told::Unreached)).gate, Gate::Fetching { fault: offline() });
    ada.ui(Ui::JoinWith("K7".into()));
    assert_eq!(ada.send(Intent::Phone(Told::Unreached)).gate, Gate::JoinCode { fault: offline() });

    let mut ada = Phone::joined(1);
    let asks = |ada: &Phone| ada.errands.iter().any(|errand| matches!(errand, Errand::Later(LaterErrand::Sync(_))));
    assert!(asks(&ada));
    let shown = ada.send(Intent::Phone(Told::Unreached));
    assert_eq!((&shown.gate, &shown.sync.link), (&Gate::Open, &Link::Fault(LinkFault::Offline)));
    ada.wait(Span::from_minutes(5));
    assert!(asks(&ada), "it asks again");
}

#[test]
fn each_fault_leads_somewhere() {
    let mut ada = fresh(1);
    let offline = Some(LinkFault::Offline);
    assert_eq!(ada.hub(Hub::Shop(Err(LinkFault::Offline))).gate, Gate::Fetching { fault: offline.clone() });
    ada.ui(Ui::JoinWith("nope".into()));
    let shown = ada.hub(Hub::Choices("nope".into(), Err(LinkFault::Offline)));
    assert_eq!(shown.gate, Gate::JoinCode { fault: offline.clone() });
    ada.ui(Ui::JoinWith("K7".into()));
    ada.hub(Hub::Choices("K7".into(), Ok(choices())));
    ada.ui(Ui::JoinAs("ada".into()));
    let shown = ada.hub(Hub::Joined(Err(LinkFault::Offline)));
    assert_eq!(shown.gate, Gate::JoinChoose { choices: choices(), fault: offline });
    ada.hub(Hub::Joined(Ok(())));
    // A bundle that does not know this phone is another shop's, or the device was taken off.
    let mut other = shop();
    other.devices.clear();
    assert_eq!(ada.hub(Hub::Shop(Ok(text(&other)))).gate, Gate::JoinCode { fault: None });
}

#[test]
fn who_is_not_inducted_is_told_so_at_the_door() {
    let mut cem = Phone::joined(3);
    let shown = cem.ui(Ui::ArriveAt("forge".into()));
    assert!(matches!(&shown.door, Some(DoorView::Barred(_))), "{:?}", shown.door);
}

#[test]
fn who_does_not_want_to_join_goes_back_to_where_they_were() {
    let offered = |phone: &mut Phone| {
        phone.ui(Ui::Scanned("https://shop.test/join#K7".into()));
        let shown = phone.hub(Hub::Choices("K7".into(), Ok(choices())));
        assert_eq!(shown.gate, Gate::JoinChoose { choices: choices(), fault: None });
    };
    let (mut joined, mut new) = (Phone::joined(1), fresh(2));
    offered(&mut joined);
    assert_eq!(joined.ui(Ui::StopJoining).gate, Gate::Open);
    offered(&mut new);
    assert_eq!(new.ui(Ui::StopJoining).gate, Gate::JoinCode { fault: None });
}
