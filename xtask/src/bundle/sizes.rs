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

/// All WebAssembly and JavaScript of the app, as sent to a browser of today. The project's own requirement is 300 KiB; this
/// is 2 KB over what there was when words had left the module, so that nothing grows back unseen.
pub(super) const BUDGET_BYTES: usize = 298 * 1024;
/// The same where the standard library came compiled, for speed and with the texts of its panics: what that adds can be
/// changed by nobody here.
const CEILING_BYTES: usize = 372 * 1024;

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

    fn is_code(&self) -> bool {
        matches!(extension(&self.path), "js" | "wasm")
    }

    fn is_style(&self) -> bool {
        extension(&self.path) == "css"
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
pub(super) fn table(copies: &[Copies]) -> String {
    let mut out = format!("  {:<52} {:>9} {:>9} {:>9}\n", "file", "raw", "gzip", "brotli");
    for file in copies {
        let (raw, gzip, brotli) = (file.raw_bytes, file.gzip_bytes(), file.brotli_bytes());
        let _ = writeln!(out, "  {:<52} {raw:>9} {gzip:>9} {brotli:>9}", file.path);
    }
    let spent = code_bytes(copies);
    let percent = spent * 100 / BUDGET_BYTES;
    let _ = writeln!(out, "  wasm + js, brotli: {spent} of {BUDGET_BYTES} bytes ({percent} %)");
    // What a phone is sent besides, of which nothing fails a build.
    let sum =
        |of: &dyn Fn(&Copies) -> bool| copies.iter().filter(|file| of(file)).map(Copies::brotli_bytes).sum::<usize>();
    let _ = writeln!(out, "  styles, brotli: {} bytes", sum(&Copies::is_style));
    for language in Language::ALL {
        let _ =
            writeln!(out, "  words of {}, brotli: {} bytes", language.tag(), sum(&|file| file.is_catalogue(language)));
    }
    out
}

/// Fails when the code of the app is over its budget, or, with a library that came compiled, past the ceiling.
pub(super) fn check_budget(copies: &[Copies], toolchain: Toolchain) -> Result<()> {
    let spent = code_bytes(copies);
    let limit = match toolchain {
        Toolchain::Debian => BUDGET_BYTES,
        Toolchain::Rustup => CEILING_BYTES,
    };
    if spent > limit {
        bail!("wasm + js take {spent} bytes with brotli, {} more than they may", spent - limit);
    }
    Ok(())
}

fn code_bytes(copies: &[Copies]) -> usize {
    copies.iter().filter(|file| file.is_code()).map(Copies::brotli_bytes).sum()
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
    fn the_budget_holds_code_and_nothing_else() {
        for (toolchain, limit) in [(Toolchain::Debian, BUDGET_BYTES), (Toolchain::Rustup, CEILING_BYTES)] {
            for (files, fits) in [
                (vec![("/a.wasm", noise(limit))], true),
                (vec![("/a.wasm", noise(limit)), ("/a.js", noise(1))], false),
                (vec![("/a.wasm", noise(limit)), ("/f.woff2", noise(100))], true),
            ] {
                assert_eq!(check_budget(&compress(&site(&files)), toolchain).is_ok(), fits);
            }
        }
    }
}
