//! The phones of `cargo xtask bench --sync`: fifty that push and five that pull, over real HTTP, each thing when it is told.
//!
//! Beside this file is what a web developer would take instead, and says the same lines on the same cues: `peer.mjs`.
//! Nothing of either ships.

mod documents;
mod phone;

use std::io::BufRead as _;
use std::time::{Instant as Steady, SystemTime, UNIX_EPOCH};

use ed25519_dalek::{Signer as _, SigningKey};
use shared_core::time::Instant;

use crate::documents::{ENTRIES_EACH, PHONES};
use crate::phone::Phone;

/// Phones that read along.
const READERS: usize = 5;
/// Signatures of the bare curve.
const BARE: u32 = 4_000;
/// What a signed line is long, without its signature.
const LINE_BYTES: usize = 400;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["documents"] => print!("{}", documents::documents(now())),
        ["curve"] => println!("curve {:.0}", curve()),
        ["phones", url, code, rest @ ..] => phones(url, code, rest.contains(&"plain")),
        other => panic!("{other:?}: documents, curve, or phones URL CODE [plain]"),
    }
}

fn now() -> Instant {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).expect("after 1970");
    Instant::from_ms(i64::try_from(since.as_millis()).expect("this era"))
}

/// Verifications a second on one core, with nothing around them.
fn curve() -> f64 {
    let key = SigningKey::from_bytes(&[7; 32]);
    let lines: Vec<_> = (0..BARE)
        .map(|nth| {
            let mut line = nth.to_string();
            line.extend(std::iter::repeat_n('x', LINE_BYTES - line.len()));
            let signature = key.sign(line.as_bytes());
            (line, signature)
        })
        .collect();
    let (key, began) = (key.verifying_key(), Steady::now());
    for (line, signature) in &lines {
        key.verify_strict(line.as_bytes(), signature).expect("our own signature");
    }
    f64::from(BARE) / began.elapsed().as_secs_f64()
}

/// Everybody joins, then does what the lines on standard input say.
fn phones(url: &str, code: &str, plain: bool) {
    let join = |number: usize, member: String, code: &str| {
        Phone::join(url, u8::try_from(number).expect("a small number"), member.as_str().into(), code, !plain)
    };
    let steward = join(200, "steward".to_owned(), code);
    let invited = |number: usize, member: String| {
        let code = steward.invite(&member.as_str().into());
        join(number, member, &code)
    };
    let mut writers: Vec<Phone> = (0..PHONES).map(|n| invited(n, documents::member(n).to_string())).collect();
    let mut readers: Vec<Phone> = (0..READERS).map(|n| invited(100 + n, format!("r{n}"))).collect();
    let (mut early, mut one) = (vec![invited(110, "early".to_owned())], vec![invited(111, "one".to_owned())]);
    let (now, all) = (now(), PHONES * ENTRIES_EACH);
    for (number, phone) in writers.iter_mut().enumerate() {
        phone.say(&documents::entries(&documents::member(number), number, ENTRIES_EACH, now));
    }
    one[0].say(&documents::entries(&"one".into(), PHONES, all, now));
    println!("ready");
    for cue in std::io::stdin().lock().lines().map_while(Result::ok) {
        let began = Steady::now();
        match cue.as_str() {
            "in" => at_once(&mut writers, Phone::push),
            "early" => at_once(&mut early, |phone| phone.pull(all)),
            "again" => at_once(&mut writers, |phone| {
                phone.forget();
                phone.push();
            }),
            "out" => at_once(&mut readers, |phone| phone.pull(all)),
            "one" => at_once(&mut one, Phone::push),
            other => panic!("{other}: in, early, again, out or one"),
        }
        println!("{cue} {:.6}", began.elapsed().as_secs_f64());
    }
}

fn at_once(phones: &mut [Phone], act: impl Fn(&mut Phone) + Sync) {
    std::thread::scope(|scope| {
        for phone in phones {
            scope.spawn(|| act(phone));
        }
    });
}
