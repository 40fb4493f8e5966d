//! Text that is compressed once and stands in many answers: gzip (RFC 1952) whose middle was made before.
//!
//! The middle is whole blocks of DEFLATE (RFC 1951) that refer to nothing before them and end at a byte; what stands before and
//! behind it differs from answer to answer and goes along as it is.

use flate2::{Compress, Compression, Crc, FlushCompress, Status};

/// Done once for many: the best that is not slow. Of a page of 200 lines the highest level saves no hundredth more.
const LEVEL: Compression = Compression::new(6);

/// RFC 1952 section 2.3: DEFLATE, no name, no time, any system.
const HEAD: [u8; 10] = [0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255];
/// The most that a block takes as it is (RFC 1951 section 3.2.4).
const STORED_MAX: usize = 0xffff;

/// The middle of an answer, compressed.
#[derive(Debug)]
pub(crate) struct Squeezed {
    blocks: Vec<u8>,
    crc: Crc,
}

impl Squeezed {
    /// Of a text; nothing if that cannot be done.
    pub(crate) fn of(text: &str) -> Option<Self> {
        let (mut deflate, mut blocks) = (Compress::new(LEVEL, false), Vec::with_capacity(text.len() / 2 + 64));
        loop {
            let taken = usize::try_from(deflate.total_in()).ok()?;
            let status = deflate.compress_vec(&text.as_bytes()[taken..], &mut blocks, FlushCompress::Sync).ok()?;
            // Room that is left says that everything is out.
            if blocks.len() < blocks.capacity() && deflate.total_in() == text.len() as u64 {
                break;
            }
            if status != Status::Ok {
                return None;
            }
            blocks.reserve(text.len() / 4 + 64);
        }
        blocks.shrink_to_fit();
        let mut crc = Crc::new();
        crc.update(text.as_bytes());
        Some(Self { blocks, crc })
    }

    /// How long it is.
    pub(crate) fn len(&self) -> usize {
        self.blocks.len()
    }

    /// A whole text with this in the middle, as gzip.
    pub(crate) fn between(&self, before: &str, after: &str) -> Vec<u8> {
        let mut gzip = Vec::with_capacity(self.blocks.len() + before.len() + after.len() + 64);
        gzip.extend(HEAD);
        let mut crc = Crc::new();
        for piece in before.as_bytes().chunks(STORED_MAX) {
            stored(piece, false, &mut gzip);
        }
        crc.update(before.as_bytes());
        gzip.extend(&self.blocks);
        crc.combine(&self.crc);
        for piece in after.as_bytes().chunks(STORED_MAX) {
            stored(piece, false, &mut gzip);
        }
        crc.update(after.as_bytes());
        stored(&[], true, &mut gzip);
        gzip.extend(crc.sum().to_le_bytes());
        gzip.extend(crc.amount().to_le_bytes());
        gzip
    }
}

/// A block as it is, at the beginning of a byte.
fn stored(piece: &[u8], is_last: bool, to: &mut Vec<u8>) {
    let length = u16::try_from(piece.len()).unwrap_or(u16::MAX);
    to.push(u8::from(is_last));
    to.extend(length.to_le_bytes());
    to.extend((!length).to_le_bytes());
    to.extend(piece);
}

#[cfg(test)]
mod tests {
    use std::fmt::Write as _;
    use std::io::Read as _;

    use flate2::bufread::GzDecoder;

    use super::*;

    #[test]
    fn what_was_squeezed_stands_between_whatever_there_is() {
        let mut lines = String::new();
        for nth in 0..40_000_u64 {
            let _ = write!(lines, "{:x} ", nth.wrapping_mul(0x9e37_79b9_7f4a_7c15));
        }
        let long = "y".repeat(2 * STORED_MAX + 7);
        for (before, middle, after) in
            [("", "", ""), ("{", "\"pull\":[]", "}"), (&long, "x", &long), ("a", &lines, ""), ("", &long, "b")]
        {
            let gzip = Squeezed::of(middle).expect("into memory").between(before, after);
            let (mut read, mut decoder) = (String::new(), GzDecoder::new(gzip.as_slice()));
            decoder.read_to_string(&mut read).expect("gzip, its sum and length right");
            assert_eq!(read, [before, middle, after].concat());
            assert_eq!(decoder.into_inner().len(), 0, "nothing behind it");
        }
    }
}
