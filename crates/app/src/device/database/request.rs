//! A request of the database, waited for.

use super::trouble::Trouble;
use futures::channel::oneshot;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::IdbRequest;

/// Hears of a request until it is dropped.
struct Ear<'r> {
    request: &'r IdbRequest,
    _succeeds: Closure<dyn FnMut()>,
    _fails: Closure<dyn FnMut()>,
}

impl Drop for Ear<'_> {
    fn drop(&mut self) {
        self.request.set_onsuccess(None);
        self.request.set_onerror(None);
    }
}

/// What a request gives.
///
/// The wait ends inside the browser's own call, so a transaction is still open when this returns.
pub(super) async fn answer(request: &IdbRequest) -> Result<JsValue, Trouble> {
    let (tell, told) = oneshot::channel();
    let tell = Rc::new(Cell::new(Some(tell)));
    let say = |tell: &Rc<Cell<Option<oneshot::Sender<()>>>>| {
        let tell = Rc::clone(tell);
        Closure::<dyn FnMut()>::new(move || {
            // The other side may have gone; there is nobody left to tell then.
            tell.take().map(|tell| tell.send(()).ok());
        })
    };
    let ear = Ear { request, _succeeds: say(&tell), _fails: say(&tell) };
    request.set_onsuccess(Some(ear._succeeds.as_ref().unchecked_ref()));
    request.set_onerror(Some(ear._fails.as_ref().unchecked_ref()));
    told.await.map_err(|_| Trouble::Closed)?;
    match request.error() {
        Ok(Some(error)) => Err(Trouble::of_exception(&error)),
        _ => request.result().map_err(|thrown| Trouble::of(&thrown)),
    }
}
