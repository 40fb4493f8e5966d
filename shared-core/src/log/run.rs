//! Many lines at once: one signature, over the newest of a run, vouches for every line before it in the run.
//!
//! A run is consecutive lines of one device, each naming the [`jws::hash`] of the one before, signature and all. Who signed
//! the newest has said those very bytes, so a hash a line and one signature a run show whose they are. What that does
//! not show is that a line opens by itself, as others open it who meet it alone: [`Proof`] tells the two apart.
//!
//! Judges no order: where a run begins, and whether it may go on from there, is [`super::chain`]'s and the hub's question.

use super::jws::{self, JwsFault, Sealed, Signed, Unchecked};

/// What shows whose a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Proof {
    /// Its own signature.
    Own,
    /// That of a later line of the run, which vouches for it. Its own was not looked at and may be none.
    Later,
}

/// A line that its device has said.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// Where it stands, and what it says if that can be read.
    pub sealed: Sealed,
    /// Its [`jws::hash`].
    pub hash: String,
    /// By what it is known.
    pub proof: Proof,
}

impl Opened {
    /// The entry, if its body can be read. `jws` is the line.
    pub fn signed(self, jws: &str) -> Result<Signed, JwsFault> {
        let Sealed { link: jws::Link { dev, seq, prev, book }, body } = self.sealed;
        Ok(Signed { jws: jws.to_owned(), dev, seq, prev, book, entry: body.map_err(JwsFault::Body)? })
    }
}

/// Opens lines with a signature for each run. The newest good one vouches; what stands behind it in its run is not signed.
pub fn open_runs<'a>(lines: impl IntoIterator<Item = &'a str>) -> Vec<Result<Opened, JwsFault>> {
    let (mut opened, mut run) = (Vec::new(), Vec::new());
    for line in lines {
        let fault = match jws::take_apart(line) {
            Ok(apart) => {
                let next = Link { hash: jws::hash(line), apart };
                if !run.last().is_some_and(|before| next.follows(before)) {
                    close(&mut run, &mut opened);
                }
                run.push(next);
                continue;
            }
            Err(fault) => fault,
        };
        close(&mut run, &mut opened);
        opened.push(Err(fault));
    }
    close(&mut run, &mut opened);
    opened
}

/// Opens a line by its own signature.
pub fn open_one(line: &str) -> Result<Opened, JwsFault> {
    Ok(Opened { sealed: jws::unseal(line)?, hash: jws::hash(line), proof: Proof::Own })
}

struct Link<'a> {
    apart: Unchecked<'a>,
    hash: String,
}

impl Link<'_> {
    fn follows(&self, before: &Self) -> bool {
        let (own, earlier) = (self.apart.link(), before.apart.link());
        own.dev == earlier.dev && own.seq == earlier.seq + 1 && own.prev == before.hash
    }
}

/// Ends a run: from its end, the first good signature is looked for.
fn close(run: &mut Vec<Link<'_>>, opened: &mut Vec<Result<Opened, JwsFault>>) {
    let mut unsigned = Vec::new();
    while let Some(Err(fault)) = run.last().map(|newest| newest.apart.check()) {
        run.pop();
        unsigned.push(Err(fault));
    }
    let newest = run.len().saturating_sub(1);
    for (at, Link { apart, hash }) in run.drain(..).enumerate() {
        let proof = if at == newest { Proof::Own } else { Proof::Later };
        opened.push(Ok(Opened { sealed: apart.into_sealed(), hash, proof }));
    }
    opened.extend(unsigned.into_iter().rev());
}
