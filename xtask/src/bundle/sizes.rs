//! What a phone has to download: compressed copies, their sizes, and the budget.
//!
//! The hub sends a copy when there is one, so a copy is kept only where it is smaller by a twentieth.

use std::fmt::Write as _;
use std::io::Write as _;

use anyhow::{Result, bail};
use brotli::enc::backward_references::BrotliEncoderMode;
use words::Language;

use super::site::extension;
use super::sources::Files;
use crate::toolchain::Toolchain;

/// What may be sent, brotli, before the app can be used, and later.
struct Budget {
    /// WebAssembly, JavaScript and styles of the first part, to a browser of today. Words are listed apart.
    first_bytes: usize,
    /// The later part.
    later_bytes: usize,
}

/// The project's own requirement is 250 KiB for the first visit. Compilers differ by a hundredth or two: a build that fails by
/// that tells nobody anything.
const BUDGET: Budget = Budget { first_bytes: 256_000, later_bytes: 274_500 };
/// The same where the standard library came compiled, for speed and with the texts of its panics: what that adds can be
/// changed by nobody here.
const CEILING: Budget = Budget { first_bytes: 342_000, later_bytes: 262_000 };

/// How the path of what comes later begins.
const LATER: &str = "/assets/later";

/// Brotli's best; seconds for what is built once and downloaded by everybody.
const BROTLI_QUALITY: i32 = 11;
/// Brotli's usual window, 4 MiB.
const BROTLI_WINDOW_BITS: i32 = 22;

/// One file and its compressed copies.
pub(super) struct Copies {
    path: String,
    raw_bytes: usize,
    gzip: Option<(String, Vec<u8>)>,
    brotli: Option<(String, Vec<u8>)>,
}

impl Copies {
    /// The copies as files of the site.
    pub(super) fn files(&self) -> impl Iterator<Item = (&String, &Vec<u8>)> {
        self.gzip.iter().chain(&self.brotli).map(|(path, bytes)| (path, bytes))
    }

    fn gzip_bytes(&self) -> usize {
        self.gzip.as_ref().map_or(self.raw_bytes, |(_, bytes)| bytes.len())
    }

    fn brotli_bytes(&self) -> usize {
        self.brotli.as_ref().map_or(self.raw_bytes, |(_, bytes)| bytes.len())
    }

    fn is_later(&self) -> bool {
        self.path.starts_with(LATER)
    }

    /// Whether a phone is sent it before the app can be used.
    fn is_first(&self) -> bool {
        matches!(extension(&self.path), "js" | "wasm" | "css") && !self.is_later()
    }

    /// Whether it is the catalogue of words of a language.
    fn is_catalogue(&self, language: Language) -> bool {
        let start = format!("/assets/{}-", language.tag());
        self.path.starts_with(&start) && extension(&self.path) == "txt"
    }
}

/// Compresses every file that gets smaller by it.
pub(super) fn compress(site: &Files) -> Vec<Copies> {
    let copy = |path: &String, raw: usize, suffix: &str, bytes: Vec<u8>| {
        (bytes.len() * 20 < raw * 19).then(|| (format!("{path}.{suffix}"), bytes))
    };
    site.iter()
        .map(|(path, bytes)| Copies {
            path: path.clone(),
            raw_bytes: bytes.len(),
            gzip: copy(path, bytes.len(), "gz", gzip(bytes)),
            brotli: copy(path, bytes.len(), "br", brotli(bytes)),
        })
        .collect()
}

fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    encoder.write_all(bytes).and_then(|()| encoder.finish()).expect("writing to memory does not fail")
}

fn brotli(bytes: &[u8]) -> Vec<u8> {
    let options = brotli::enc::BrotliEncoderParams {
        quality: BROTLI_QUALITY,
        lgwin: BROTLI_WINDOW_BITS,
        // The mode of a module of numbers and short words turns out to be the one for fonts.
        mode: BrotliEncoderMode::BROTLI_MODE_FONT,
        size_hint: bytes.len(),
        ..Default::default()
    };
    let mut out = Vec::new();
    brotli::BrotliCompress(&mut &bytes[..], &mut out, &options).expect("writing to memory does not fail");
    out
}

/// The table that the build prints: bytes as they are, with gzip, with brotli.
pub(super) fn table(copies: &[Copies], toolchain: Toolchain) -> String {
    let mut out = format!("  {:<52} {:>9} {:>9} {:>9}\n", "file", "raw", "gzip", "brotli");
    for file in copies {
        let (raw, gzip, brotli) = (file.raw_bytes, file.gzip_bytes(), file.brotli_bytes());
        let _ = writeln!(out, "  {:<52} {raw:>9} {gzip:>9} {brotli:>9}", file.path);
    }
    let budget = budget(toolchain);
    for (what, spent, limit) in [
        ("wasm + js + styles of the first visit", sum(copies, Copies::is_first), budget.first_bytes),
        ("what comes later", sum(copies, Copies::is_later), budget.later_bytes),
    ] {
        let percent = spent * 100 / limit;
        let _ = writeln!(out, "  {what}, brotli: {spent} of {limit} bytes ({percent} %)");
    }
    // What a phone is sent besides, of which nothing fails a build.
    for language in Language::ALL {
        let _ = writeln!(
            out,
            "  words of {}, brotli: {} bytes",
            language.tag(),
            sum(copies, |file| file.is_catalogue(language))
        );
    }
    out
}

/// Fails when a part of the app is over its budget, or, with a library that came compiled, past the ceiling.
pub(super) fn check_budget(copies: &[Copies], toolchain: Toolchain) -> Result<()> {
    let budget = budget(toolchain);
    for (what, spent, limit) in [
        ("the first visit takes", sum(copies, Copies::is_first), budget.first_bytes),
        ("what comes later takes", sum(copies, Copies::is_later), budget.later_bytes),
    ] {
        if spent > limit {
            bail!("{what} {spent} bytes with brotli, {} more than it may", spent - limit);
        }
    }
    Ok(())
}

fn budget(toolchain: Toolchain) -> Budget {
    if toolchain.builds_library() { BUDGET } else { CEILING }
}

fn sum(copies: &[Copies], of: impl Fn(&Copies) -> bool) -> usize {
    copies.iter().filter(|file| of(file)).map(Copies::brotli_bytes).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read as _;

    /// Bytes that no compressor makes smaller: SHA-256 of a counter.
    fn noise(bytes: usize) -> Vec<u8> {
        use sha2::{Digest as _, Sha256};
        (0_u64..).flat_map(|count| Sha256::digest(count.to_le_bytes())).take(bytes).collect()
    }

    fn site(files: &[(&str, Vec<u8>)]) -> Files {
        files.iter().map(|(path, bytes)| ((*path).to_owned(), bytes.clone())).collect()
    }

    #[test]
    fn copies_unpack_to_the_file() {
        let text = "the same words again and again ".repeat(200).into_bytes();
        let copies = compress(&site(&[("/a.js", text.clone())]));
        let files: Vec<_> = copies[0].files().collect();
        assert_eq!(files.iter().map(|(path, _)| path.as_str()).collect::<Vec<_>>(), ["/a.js.gz", "/a.js.br"]);
        let mut gunzipped = Vec::new();
        flate2::read::GzDecoder::new(&files[0].1[..]).read_to_end(&mut gunzipped).expect("gzip");
        assert_eq!(gunzipped, text);
        let mut unbrotlied = Vec::new();
        brotli::BrotliDecompress(&mut &files[1].1[..], &mut unbrotlied).expect("brotli");
        assert_eq!(unbrotlied, text);
    }

    #[test]
    fn what_does_not_get_smaller_has_no_copy() {
        assert_eq!(compress(&site(&[("/f.woff2", noise(4096))]))[0].files().count(), 0);
    }

    #[test]
    fn each_part_is_held_to_its_own_budget() {
        for (toolchain, of) in [(Toolchain::Debian, BUDGET), (Toolchain::Rustup, CEILING)] {
            let (first, later) = (of.first_bytes, of.later_bytes);
            for (files, fits) in [
                (vec![("/a.wasm", noise(first))], true),
                (vec![("/a.wasm", noise(first)), ("/a.js", noise(1))], false),
                (vec![("/a.wasm", noise(first)), ("/a.css", noise(1))], false),
                (vec![("/a.wasm", noise(first)), ("/f.woff2", noise(100))], true),
                (vec![("/a.wasm", noise(first)), ("/assets/later_bg-0.wasm", noise(later))], true),
                (vec![("/assets/later_bg-0.wasm", noise(later + 1))], false),
            ] {
                assert_eq!(check_budget(&compress(&site(&files)), toolchain).is_ok(), fits);
            }
        }
    }
}
