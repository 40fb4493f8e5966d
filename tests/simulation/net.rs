//! The network between phones and hub: messages are lost, repeated, late, overtaken and cut short; phones are cut off.
//!
//! Carries questions and answers as text and reads neither. An answer carries its question's number, as over HTTP;
//! with `stale_answers` the phone forgets to look at it.

use crate::chance::Chance;
use crate::options::NetOptions;

/// Who may be written to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    Hub,
    Phone(usize),
}

#[derive(Clone, Debug)]
pub(crate) struct Message {
    /// The phone that asks or is answered.
    pub(crate) phone: usize,
    pub(crate) to: End,
    /// Which question.
    pub(crate) number: u64,
    pub(crate) text: String,
    arrives: usize,
}

#[derive(Debug)]
pub(crate) struct Net {
    options: NetOptions,
    healed: bool,
    under_way: Vec<Message>,
    cut_off: Vec<bool>,
}

impl Net {
    pub(crate) fn new(options: NetOptions, phones: usize) -> Self {
        Self { options, healed: false, under_way: Vec::new(), cut_off: vec![false; phones] }
    }

    pub(crate) fn stale_answers(&self) -> bool {
        self.options.stale_answers && !self.healed
    }

    pub(crate) fn is_cut_off(&self, phone: usize) -> bool {
        self.cut_off[phone]
    }

    /// From now on every message arrives, once, whole and in order. What is under way may still come late.
    pub(crate) fn heal(&mut self) {
        self.healed = true;
        self.cut_off.fill(false);
    }

    /// Weather changes. Answers the phones that found the network again.
    pub(crate) fn tick(&mut self, chance: &mut Chance) -> Vec<usize> {
        let mut back = Vec::new();
        if self.healed {
            return back;
        }
        for (phone, cut) in self.cut_off.iter_mut().enumerate() {
            let turns = chance.hit(if *cut { self.options.heal } else { self.options.partition });
            if turns && *cut {
                back.push(phone);
            }
            *cut ^= turns;
        }
        back
    }

    pub(crate) fn send(&mut self, chance: &mut Chance, now: usize, phone: usize, to: End, number: u64, text: &str) {
        let copies = if self.healed { 1 } else { 1 + usize::from(chance.hit(self.options.twice)) };
        for _ in 0..copies {
            let mut text = text.to_owned();
            let mut way = 0;
            if !self.healed {
                if self.cut_off[phone] || chance.hit(self.options.loss) {
                    continue;
                }
                if chance.hit(self.options.cut) {
                    let at = chance.below(text.len());
                    text.truncate((0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0));
                }
                way = usize::try_from(chance.range(0, self.options.way_ticks_max)).unwrap_or(0);
            }
            self.under_way.push(Message { phone, to, number, text, arrives: now + way });
        }
    }

    /// What arrives now, in any order.
    pub(crate) fn arriving(&mut self, chance: &mut Chance, now: usize) -> Vec<Message> {
        let (mut here, later): (Vec<_>, Vec<_>) = self.under_way.drain(..).partition(|message| message.arrives <= now);
        self.under_way = later;
        for last in (1..here.len()).rev() {
            here.swap(last, chance.below(last + 1));
        }
        here.retain(|message| !self.cut_off[message.phone]);
        here
    }
}
