//! The camera that faces away, looking for a code while its picture is on the screen.
//!
//! The browser's own detector reads the picture where there is one; elsewhere a reader of our own does, in a worker beside the
//! page (`public/later_camera.js`, `app/reader`). Nothing is kept and nothing leaves the phone. The camera is dark whenever the
//! page is hidden or the view is gone.

use leptos::html::Video;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::HtmlVideoElement;

use super::js::word;
use crate::parts::live::whenever;

#[wasm_bindgen(module = "/js/camera.js")]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn start(video: &HtmlVideoElement, found: &Closure<dyn FnMut(String)>) -> Result<JsValue, JsValue>;
}

/// Why there is no picture.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CameraFault {
    /// There is no camera, or the page may not ask for one.
    #[error("there is no camera")]
    Missing,
    /// The member or the browser said no.
    #[error("the camera may not be used")]
    Refused,
    /// Another program has it.
    #[error("the camera is in use")]
    Busy,
    /// The browser says something else.
    #[error("the camera does not start: {0}")]
    Other(String),
}

/// The camera's picture. Tells `on_text` of each code that it reads, once while it stays the same.
#[component]
pub fn CameraView(
    /// Told of what a code says.
    on_text: Callback<String>,
    /// Told why there is no picture.
    on_fault: Callback<CameraFault>,
) -> impl IntoView {
    let video = NodeRef::<Video>::new();
    let eye = StoredValue::new_local(None::<Eye>);
    whenever(move || {
        let Some(video) = video.get() else { return };
        leptos::task::spawn_local(async move {
            match Eye::open(&video, move |text| on_text.run(text)).await {
                // The view may be gone by now: an eye that cannot be stored is dropped, and closes.
                Ok(opened) => drop(eye.try_set_value(Some(opened))),
                // Nor is there anybody to be told.
                Err(fault) => drop(on_fault.try_run(fault)),
            }
        });
    });
    view! { <video node_ref=video class="camera"/> }
}

/// An open camera, until it is dropped.
struct Eye {
    stop: js_sys::Function,
    _found: Closure<dyn FnMut(String)>,
}

impl Eye {
    async fn open(video: &HtmlVideoElement, mut tell: impl FnMut(String) + 'static) -> Result<Self, CameraFault> {
        let mut last = String::new();
        let found = Closure::new(move |text: String| {
            if text != last {
                last.clone_from(&text);
                tell(text);
            }
        });
        let stop = start(video, &found).await.map_err(|thrown| match word(&thrown).as_str() {
            "none" => CameraFault::Missing,
            "refused" => CameraFault::Refused,
            "busy" => CameraFault::Busy,
            other => CameraFault::Other(other.to_owned()),
        })?;
        Ok(Self { stop: stop.unchecked_into(), _found: found })
    }
}

impl Drop for Eye {
    fn drop(&mut self) {
        let _ = self.stop.call0(&JsValue::UNDEFINED);
    }
}
