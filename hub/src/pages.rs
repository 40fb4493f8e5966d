//! Pages of the log that were just handed out, for whoever asks for the very same: read, taken apart and compressed once.
//!
//! When an entry comes in all phones ask for the same stretch. A page is kept for [`KEPT`] under everything of the store that says what of a
//! stretch is handed out ([`Stretch`]), read in the asker's own look: once anything more was said, proved or erased, it is
//! asked for no more. A page with lines of the asker's own is theirs alone, and so is one with lines that are not
//! quite new, since those go without a word when their time is over.
//!
//! There are few, and none is long: what is kept is bounded by [`PAGES_MAX`] times [`PAGE_BYTES_MAX`].

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant as Steady};

use shared_core::sync::apart::take_apart;
use shared_core::time::{Instant, Span};
use tokio::sync::OnceCell;

use crate::squeezed::Squeezed;
use crate::store::{Look, Pulled, StoreError, Stretch};

/// A page is of use to phones that ask at once.
const KEPT: Duration = Duration::from_secs(5);
const PAGES_MAX: usize = 32;
const PAGE_BYTES_MAX: usize = 64 * 1024;
/// Lines that came in so lately are erased at somebody's wish alone: a log is kept for a day at least.
const NEW: Span = Span::from_minutes(12 * 60);
/// With less the answer fits one packet as it is; squeezing it would cost more than answering.
const SQUEEZED_FROM: usize = 1_024;

/// What of an answer is the same for all who ask for a stretch in the same form.
#[derive(Debug)]
pub(crate) struct Page {
    body: Body,
    pub(crate) cursor: u64,
    pub(crate) more: bool,
    /// Whether it may be kept for others.
    is_new: bool,
}

#[derive(Debug)]
enum Body {
    Plain(String),
    Squeezed(Squeezed),
}

/// In which form an asker takes lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Form {
    /// Apart.
    pub(crate) apart: bool,
    /// As gzip.
    pub(crate) gzip: bool,
}

/// Where the lines go in an answer that was written without any.
const NO_LINES: &str = "\"pull\":[]";

impl Page {
    /// Of what was read just now.
    pub(crate) fn of(pulled: &Pulled, form: Form, now: Instant) -> Self {
        let whole = || format!("\"pull\":{}", json(&pulled.lines));
        let apart = (form.apart && !pulled.lines.is_empty()).then(|| take_apart(&pulled.lines)).flatten();
        let text = match apart.map(|apart| format!("{NO_LINES},\"apart\":{}", json(&apart))) {
            // What phones and hub take of a message is bounded by what lines are whole.
            Some(apart) if apart.len() <= pulled.lines.iter().map(String::len).sum() => apart,
            _ => whole(),
        };
        let squeezed = (form.gzip && text.len() >= SQUEEZED_FROM).then(|| Squeezed::of(&text)).flatten();
        let body = squeezed.map_or(Body::Plain(text), Body::Squeezed);
        let is_new = pulled.oldest.is_none_or(|oldest| now - oldest < NEW) && body.len() <= PAGE_BYTES_MAX;
        Self { body, cursor: pulled.cursor, more: pulled.more, is_new }
    }

    /// Of a stretch in which nothing is.
    pub(crate) fn nothing(stretch: &Stretch) -> Result<Self, StoreError> {
        let Pulled { cursor, more, .. } = Pulled::nothing(stretch)?;
        Ok(Self { body: Body::Plain(NO_LINES.to_owned()), cursor, more, is_new: true })
    }

    /// The page within an answer that was written without lines, and whether that is gzip.
    pub(crate) fn within(&self, written: &str) -> (Vec<u8>, bool) {
        let (before, after) = written.split_once(NO_LINES).unwrap_or((written, ""));
        match &self.body {
            Body::Plain(text) => ([before, text, after].concat().into_bytes(), false),
            Body::Squeezed(squeezed) => (squeezed.between(before, after), true),
        }
    }
}

impl Body {
    fn len(&self) -> usize {
        match self {
            Self::Plain(text) => text.len(),
            Self::Squeezed(squeezed) => squeezed.len(),
        }
    }
}

fn json(value: &impl serde::Serialize) -> String {
    // Texts and numbers are always JSON.
    serde_json::to_string(value).unwrap_or_default()
}

async fn make(look: &mut Look, stretch: &Stretch, form: Form, now: Instant) -> Result<Arc<Page>, StoreError> {
    Ok(Arc::new(Page::of(&look.lines(stretch, None, now).await?, form, now)))
}

/// What was handed out lately.
#[derive(Debug, Default)]
pub(crate) struct Pages(Mutex<VecDeque<Kept>>);

#[derive(Debug)]
struct Kept {
    stretch: Stretch,
    form: Form,
    since: Steady,
    page: Slot,
}

/// A page that somebody makes, or has made: who asks meanwhile waits for it.
type Slot = Arc<OnceCell<Arc<Page>>>;

impl Pages {
    /// The page of a stretch: the one that is there, or one that is read and made now.
    pub(crate) async fn get(
        &self,
        look: &mut Look,
        stretch: &Stretch,
        form: Form,
        now: Instant,
    ) -> Result<Arc<Page>, StoreError> {
        let slot = self.slot(stretch, form, Steady::now());
        let (mut is_own, again) = (false, &mut *look);
        let page = slot.get_or_try_init(|| {
            is_own = true;
            make(again, stretch, form, now)
        });
        let page = Arc::clone(page.await?);
        // Made by another who asked at the same time, and not for others.
        if is_own || page.is_new { Ok(page) } else { make(look, stretch, form, now).await }
    }

    /// The page of a stretch, if it is there.
    pub(crate) fn kept(&self, stretch: &Stretch, form: Form) -> Option<Arc<Page>> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let one = kept.iter().find(|one| one.form == form && one.stretch == *stretch && one.since.elapsed() < KEPT)?;
        one.page.get().filter(|page| page.is_new).cloned()
    }

    fn slot(&self, stretch: &Stretch, form: Form, now: Steady) -> Slot {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        // What turned out to be for one alone is not kept.
        let is_of_use = |one: &Kept| now - one.since < KEPT && one.page.get().is_none_or(|page| page.is_new);
        kept.retain(is_of_use);
        if let Some(one) = kept.iter().find(|one| one.form == form && one.stretch == *stretch) {
            return Arc::clone(&one.page);
        }
        if kept.len() >= PAGES_MAX {
            kept.pop_front();
        }
        let page = Slot::default();
        kept.push_back(Kept { stretch: stretch.clone(), form, since: now, page: Arc::clone(&page) });
        page
    }
}
