//! `POST /api/sync`: a phone's entries come in, others' go out.
//!
//! What is brought is written together with what others bring at that moment ([`crate::taking`]); then one glance at whether
//! there is anything to answer, and only if there is, one look for all of it. Every line is shown to be its phone's and in its
//! place, what is stored is on the disk before the answer says so, and what is not counted is told with the reason. A request
//! that comes twice changes nothing. Lines of a long push that a later one vouches for are handed to nobody before they are
//! proved by themselves ([`crate::proving`]).

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::{IntoResponse as _, Response};
use shared_core::log::chain::Head;
use shared_core::sync::message::{MESSAGE_BYTES_MAX, MessageFault, Rejected, Stretch, SyncAnswer, SyncRequest};
use shared_core::time::Instant;

use crate::api::read_text;
use crate::clock;
use crate::hub::Hub;
use crate::pages::{Form, Page};
use crate::problem::Problem;
use crate::store::{Forgotten, Glance, SignedIn, StoreError, Whom};

impl From<MessageFault> for Problem {
    fn from(fault: MessageFault) -> Self {
        match fault {
            MessageFault::TooLong { .. } => Self::TooLarge { limit_bytes: MESSAGE_BYTES_MAX },
            MessageFault::Newer { .. } | MessageFault::Older { .. } => Self::OtherProtocol(fault.to_string()),
            MessageFault::Damaged { why } => Self::Unreadable(why),
        }
    }
}

/// Takes what is pushed, answers what is to be pulled.
pub(crate) async fn sync(State(hub): State<Arc<Hub>>, caller: SignedIn, request: Request) -> Result<Response, Problem> {
    let gzip = takes_gzip(request.headers());
    let text = read_text(request, MESSAGE_BYTES_MAX).await?;
    let mut ask = SyncRequest::read(&text)?;
    let form = Form { apart: ask.apart, gzip };
    drop(text);
    let now = clock::now();
    let taken = if ask.push.is_empty() {
        None
    } else {
        Some(hub.taking.take(&caller, std::mem::take(&mut ask.push), &ask.lost).await?)
    };
    let whom = if hub.shop.get().is_steward(&caller.member) { Whom::Steward } else { Whom::Member };
    let glance = hub.store.glance(&caller.dev, &caller.member, now).await?;
    let own = taken.as_ref().and_then(|taken| taken.places);
    let told = match at_hand(&hub, &glance, &ask, own, whom, form)? {
        Some(told) => told,
        None => look(&hub, &caller, &ask, whom, form, now).await?,
    };
    let (head, rejected) = taken.map_or((told.head, Vec::new()), |taken| (taken.head, taken.rejected));
    let mut answer = SyncAnswer::new(now, head, hub.shop.get().rev.clone());
    answer.goes_on = Some(ask.goes_on());
    answer.rejected = rejected;
    let known: Vec<u64> = answer.rejected.iter().map(|rejected| rejected.seq).collect();
    answer.rejected.extend(told.unsigned.into_iter().filter(|unsigned| !known.contains(&unsigned.seq)));
    answer.cursor = told.page.cursor;
    answer.forget = told.forgotten.stretches;
    answer.forget.extend(told.gone);
    answer.forgot = told.forgotten.last;
    answer.more = told.page.more || told.forgotten.more;
    if told.is_carried_to {
        answer.carried = hub.store.take_carried(&caller.member, &caller.dev, now).await?;
    }
    let (bytes, is_gzip) = told.page.within(&answer.write());
    Ok(reply(bytes, is_gzip))
}

/// What a phone is told.
struct Told {
    head: Head,
    page: Arc<Page>,
    forgotten: Forgotten,
    /// What it may have heard begin and can hear the end of no more.
    gone: Vec<Stretch>,
    unsigned: Vec<Rejected>,
    is_carried_to: bool,
}

/// What can be told without asking the store for more: that there is nothing, or what others were just handed.
fn at_hand(
    hub: &Hub,
    glance: &Glance,
    ask: &SyncRequest,
    own: Option<(i64, i64)>,
    whom: Whom,
    form: Form,
) -> Result<Option<Told>, StoreError> {
    // Whoever asks once more from the start is told what of what they know is gone.
    if ask.heard_to > 0 || glance.has_unsigned || glance.is_carried_to || !glance.has_forgotten(ask.forgot) {
        return Ok(None);
    }
    let Some(stretch) = glance.stretch(ask.since, whom)? else { return Ok(None) };
    if stretch.misses(glance) {
        return Ok(None);
    }
    let page = if stretch.is_empty() || own.is_some_and(|(first, last)| stretch.is_within(first, last)) {
        Some(Arc::new(Page::nothing(&stretch)?))
    } else if stretch.is_behind(glance.newest_own) {
        hub.pages.kept(&stretch, form)
    } else {
        None
    };
    let forgotten = Forgotten { last: ask.forgot, ..Forgotten::default() };
    let told = |page| {
        let (gone, unsigned) = (Vec::new(), Vec::new());
        Told { head: glance.head.clone(), page, forgotten, gone, unsigned, is_carried_to: false }
    };
    Ok(page.map(told))
}

/// One look for all that is told.
async fn look(
    hub: &Hub,
    caller: &SignedIn,
    ask: &SyncRequest,
    whom: Whom,
    form: Form,
    now: Instant,
) -> Result<Told, StoreError> {
    let mut look = hub.store.look().await?;
    let glance = look.glance(&caller.dev, &caller.member, now).await?;
    let forgotten = look.forgotten(&glance, ask.forgot).await?;
    let unsigned = if glance.has_unsigned { look.unsigned(&caller.dev).await? } else { Vec::new() };
    let mut stretch = look.stretch(&glance, ask.since, whom).await?;
    if ask.heard_to > 0 {
        stretch = stretch.known();
    }
    let known = look.stretch(&glance, ask.knows_to(), whom).await?;
    let gone = if known.misses(&glance) { look.gone_before(&known, &caller.dev).await? } else { Vec::new() };
    let page = if stretch.is_behind(glance.newest_own) && !stretch.is_empty() {
        hub.pages.get(&mut look, &stretch, form, now).await?
    } else {
        Arc::new(Page::of(&look.lines(&stretch, Some(&caller.dev), now).await?, form, now))
    };
    // The look is given back before anything is written: readers are few.
    Ok(Told { head: glance.head, page, forgotten, gone, unsigned, is_carried_to: glance.is_carried_to })
}

/// As JSON; compressed or not, it differs by what whoever asks takes.
fn reply(bytes: Vec<u8>, is_gzip: bool) -> Response {
    let json = HeaderValue::from_static("application/json");
    let vary = HeaderValue::from_static("accept-encoding");
    let mut response = ([(header::CONTENT_TYPE, json), (header::VARY, vary)], bytes).into_response();
    if is_gzip {
        response.headers_mut().insert(header::CONTENT_ENCODING, HeaderValue::from_static("gzip"));
    }
    response
}

/// Whether whoever asks takes gzip (RFC 9110 section 12.5.3).
fn takes_gzip(headers: &HeaderMap) -> bool {
    let lines = headers.get_all(header::ACCEPT_ENCODING).into_iter().filter_map(|line| line.to_str().ok());
    lines.flat_map(|line| line.split(',')).any(|coding| {
        let mut words = coding.split(';').map(str::trim);
        let is_gzip = words.next().is_some_and(|name| name.eq_ignore_ascii_case("gzip") || name == "*");
        let is_refused = |word: &str| word.strip_prefix("q=").is_some_and(|q| q.trim_matches(['0', '.']).is_empty());
        is_gzip && !words.any(is_refused)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gzip_is_for_whoever_takes_it() {
        for (accepted, takes) in [
            (&["gzip"][..], true),
            (&["br, gzip;q=0.5"], true),
            (&["br", "GZIP"], true),
            (&["*"], true),
            (&["gzip;q=0"], false),
            (&["br, gzip; q=0.000"], false),
            (&["br"], false),
            (&["x-gzip-not"], false),
            (&[], false),
        ] {
            let mut headers = HeaderMap::new();
            for line in accepted {
                headers.append(header::ACCEPT_ENCODING, HeaderValue::from_static(line));
            }
            assert_eq!(takes_gzip(&headers), takes, "{accepted:?}");
        }
    }
}
