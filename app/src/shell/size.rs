//! How large a place is on the page, told whenever that changes (`js/size.js`).

use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;

use crate::parts::live::whenever;

#[wasm_bindgen(module = "/js/size.js")]
extern "C" {
    #[wasm_bindgen(js_name = onSize)]
    fn on_size(place: &JsValue, told: &Closure<dyn FnMut(u32, u32)>) -> JsValue;
    #[wasm_bindgen(js_name = lookAway)]
    fn look_away(end: &JsValue);
}

/// What looks at a place, until it is dropped.
struct Look {
    end: JsValue,
    _told: Closure<dyn FnMut(u32, u32)>,
}

impl Drop for Look {
    fn drop(&mut self) {
        look_away(&self.end);
    }
}

/// The width and height of a place in px of CSS, followed; nothing before it has been laid out.
pub fn size_of(place: NodeRef<Div>) -> RwSignal<(u32, u32)> {
    let size = RwSignal::new((0, 0));
    let look = StoredValue::new_local(None::<Look>);
    whenever(move || {
        let Some(place) = place.get() else { return };
        let told = Closure::new(move |width_px, height_px| {
            // What was told a picture ago may be gone.
            if size.try_get_untracked().is_some_and(|size| size != (width_px, height_px)) {
                size.try_set((width_px, height_px));
            }
        });
        look.set_value(Some(Look { end: on_size(&place, &told), _told: told }));
    });
    size
}
