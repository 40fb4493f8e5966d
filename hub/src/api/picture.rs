//! `PUT /api/picture/{sha}`: a phone hands over a picture that a line of its member names. `GET /api/picture/{sha}`: it is seen.
//!
//! What a tag names, all members see: it shows a machine. What a chore alone names, stewards and its own member see.
//! For others it is as if it were not there.

use std::sync::Arc;

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, Request, State};
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use super::body::read_bytes;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::secret::{base64url, digest};
use crate::store::{News, PICTURES_MAX, SignedIn};

/// A picture as phones make it has 200 to 500 KB (`public/later_pictures.js`).
const PICTURE_BYTES_MAX: usize = 600_000;
const JPEG: &str = "image/jpeg";
/// A JPEG begins with the marker SOI, and then another (ITU-T T.81, B.1.1.3 and table B.1).
const BEGINS: [u8; 3] = [0xff, 0xd8, 0xff];
/// Its name is of its bytes, so that it never changes.
const FOR_GOOD: &str = "private, max-age=31536000, immutable";

type Named = Result<Path<String>, PathRejection>;

/// Keeps it; 204, the second time too.
pub(crate) async fn put(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    named: Named,
    request: Request,
) -> Result<StatusCode, Problem> {
    let sha = sha_of(named)?;
    let bytes = read_bytes(request, JPEG, PICTURE_BYTES_MAX).await?;
    if hub.store.has_picture(&sha, &caller.dev).await? {
        return Ok(StatusCode::NO_CONTENT);
    }
    let of_tag = hub.store.names_picture(&caller.member, &sha).await?.ok_or(Problem::NotNamedYet)?;
    if !bytes.starts_with(&BEGINS) {
        return Err(Problem::UnfitPicture("it is no JPEG"));
    }
    if base64url(digest(&bytes)) != sha {
        return Err(Problem::UnfitPicture("its bytes are not those that the log names"));
    }
    let mut change = hub.store.change().await?;
    if !change.keep_picture(&sha, &caller.dev, of_tag, &bytes, clock::now()).await? {
        return Err(Problem::TooManyPictures { limit: PICTURES_MAX });
    }
    if of_tag {
        // Whoever has its line looks for it again.
        change.tell(News::Picture);
    }
    change.commit().await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Shows it to whoever may see it.
pub(crate) async fn get(State(hub): State<Arc<Hub>>, caller: SignedIn, named: Named) -> Result<Response, Problem> {
    let picture = hub.store.picture(&sha_of(named)?, &caller.member).await?.ok_or(Problem::NotFound)?;
    if !(picture.of_tag || picture.of == caller.member || hub.shop.get().is_steward(&caller.member)) {
        return Err(Problem::NotFound);
    }
    Ok(([(CONTENT_TYPE, JPEG), (CACHE_CONTROL, FOR_GOOD)], picture.bytes).into_response())
}

/// The name of a picture: a SHA-256, base64url. Nothing else has ever been kept here.
fn sha_of(named: Named) -> Result<String, Problem> {
    let Path(sha) = named.map_err(|_| Problem::NotFound)?;
    let is_name = sha.len() == 43 && sha.bytes().all(|it| it.is_ascii_alphanumeric() || b"-_".contains(&it));
    if is_name { Ok(sha) } else { Err(Problem::NotFound) }
}
