//! Asking the office over HTTP, with an end to waiting.
//!
//! Never: take an answer for one that is not; a network's sign-in page answers everything with "good".

use js_sys::{Array, Uint8Array};
use record::DeviceId;
use serde::de::DeserializeOwned;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortController, Headers, Request, RequestCache, RequestCredentials, RequestInit, Response};
use wire::http::{OWN_KEY_HEADER, PREFIX};

/// An ordinary question is given up after this time.
const PATIENCE_MS: u32 = 20_000;

/// What is sent with a question.
#[derive(Debug, Clone)]
pub(super) enum Body {
    /// Nothing.
    None,
    /// JSON.
    Json(String),
    /// Entries, one a line, and the key this device signs its own with.
    Lines(String, DeviceId),
    /// A file.
    Bytes(Rc<[u8]>),
}

/// A question.
#[derive(Debug, Clone)]
pub(super) struct Ask<'a> {
    method: &'static str,
    path: &'a str,
    body: Body,
    /// How long to wait for the whole answer.
    patience_ms: u32,
}

impl<'a> Ask<'a> {
    pub(super) fn get(path: &'a str) -> Self {
        Ask { method: "GET", path, body: Body::None, patience_ms: PATIENCE_MS }
    }

    pub(super) fn post(path: &'a str, body: Body) -> Self {
        Ask { method: "POST", path, body, patience_ms: PATIENCE_MS }
    }

    pub(super) fn put(path: &'a str, body: Body) -> Self {
        Ask { method: "PUT", path, body, patience_ms: PATIENCE_MS }
    }
}

impl Ask<'_> {
    /// The same, with another end of waiting.
    pub(super) fn patient(self, milliseconds: u32) -> Self {
        Ask { patience_ms: milliseconds, ..self }
    }
}

/// No answer came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Lost;

/// An answer.
#[derive(Debug)]
pub(super) struct Reply {
    pub(super) status: u16,
    headers: Headers,
    bytes: Vec<u8>,
}

impl Reply {
    /// The office did what it was asked.
    pub(super) fn is_good(&self) -> bool {
        (200..300).contains(&self.status)
    }

    /// The answer as JSON of a known shape.
    pub(super) fn json<T: DeserializeOwned>(&self) -> Option<T> {
        serde_json::from_slice(&self.bytes).ok()
    }

    /// The answer as text.
    pub(super) fn text(&self) -> Option<&str> {
        std::str::from_utf8(&self.bytes).ok()
    }

    /// A header of the answer.
    pub(super) fn header(&self, name: &str) -> Option<String> {
        self.headers.get(name).ok().flatten()
    }
}

/// Asks, and waits for the whole answer.
///
/// # Errors
/// None came in time.
pub(super) async fn fetch(ask: &Ask<'_>) -> Result<Reply, Lost> {
    let ending = Ending::after(ask.patience_ms).ok_or(Lost)?;
    let reply = reply(ask, &ending.controller).await.map_err(|_| Lost);
    drop(ending);
    reply
}

async fn reply(ask: &Ask<'_>, ending: &AbortController) -> Result<Reply, JsValue> {
    let window = web_sys::window().ok_or(JsValue::NULL)?;
    let request = request(ask, ending)?;
    let response: Response = JsFuture::from(window.fetch_with_request(&request)).await?.dyn_into()?;
    let bytes = JsFuture::from(response.array_buffer()?).await?;
    let bytes = Uint8Array::new(&bytes).to_vec();
    Ok(Reply { status: response.status(), headers: response.headers(), bytes })
}

fn request(ask: &Ask<'_>, ending: &AbortController) -> Result<Request, JsValue> {
    let init = RequestInit::new();
    init.set_method(ask.method);
    init.set_signal(Some(&ending.signal()));
    init.set_credentials(RequestCredentials::SameOrigin);
    init.set_cache(RequestCache::NoStore);
    let headers = Headers::new()?;
    match &ask.body {
        Body::None => {}
        Body::Json(text) => {
            headers.set("content-type", "application/json")?;
            init.set_body(&JsValue::from_str(text));
        }
        Body::Lines(text, own) => {
            headers.set("content-type", "application/jsonl")?;
            headers.set(OWN_KEY_HEADER, &own.to_string())?;
            init.set_body(&JsValue::from_str(text));
        }
        Body::Bytes(bytes) => {
            headers.set("content-type", "application/octet-stream")?;
            init.set_body(&Uint8Array::from(&bytes[..]).into());
        }
    }
    init.set_headers(&headers);
    Request::new_with_str_and_init(&format!("{PREFIX}{}", ask.path), &init)
}

/// The end of waiting: the question is given up when it has not been dropped by then.
struct Ending {
    controller: AbortController,
    timer: i32,
    fired: Rc<Cell<bool>>,
    _end: Closure<dyn FnMut()>,
}

impl Ending {
    fn after(milliseconds: u32) -> Option<Self> {
        let controller = AbortController::new().ok()?;
        let fired = Rc::new(Cell::new(false));
        let end = {
            let (controller, fired) = (controller.clone(), Rc::clone(&fired));
            Closure::<dyn FnMut()>::new(move || {
                fired.set(true);
                controller.abort();
            })
        };
        let span = i32::try_from(milliseconds).unwrap_or(i32::MAX);
        let set = end.as_ref().unchecked_ref();
        let timer =
            web_sys::window()?.set_timeout_with_callback_and_timeout_and_arguments_0(set, span).ok()?;
        Some(Ending { controller, timer, fired, _end: end })
    }
}

impl Drop for Ending {
    fn drop(&mut self) {
        if let (false, Some(window)) = (self.fired.get(), web_sys::window()) {
            window.clear_timeout_with_handle(self.timer);
        }
    }
}

/// A photo the office holds, with its sort; `None` when it gave none.
pub(super) async fn photo(hash: &str) -> Option<(Vec<u8>, String)> {
    let path = format!("/photos/{hash}");
    let reply = fetch(&Ask::get(&path)).await.ok()?;
    let media = reply.header("content-type").unwrap_or_else(|| "image/jpeg".to_owned());
    reply.is_good().then_some((reply.bytes, media))
}

/// A name as it stands in an address.
pub(super) fn in_address(name: &str) -> String {
    String::from(js_sys::encode_uri_component(name))
}

/// Takes the lock of an errand that only one tab does at a time; the errand runs until what is given back is
/// dropped. `None`: another tab is at it.
pub(super) async fn alone(errand: &str) -> Option<Alone> {
    let Some(locks) = locks() else { return Some(Alone(None)) };
    let (tell, told) = futures::channel::oneshot::channel();
    let tell = Rc::new(Cell::new(Some(tell)));
    let granted = Closure::<dyn FnMut(JsValue) -> JsValue>::new(move |lock: JsValue| {
        let mut release = None;
        let held = js_sys::Promise::new(&mut |done, _| release = Some(done));
        let release = release.filter(|_| !lock.is_null());
        let taken = release.is_some();
        tell.take().map(|tell| tell.send(release).ok());
        if taken { held.into() } else { JsValue::UNDEFINED }
    });
    let options = js_sys::Object::new();
    js_sys::Reflect::set(&options, &"ifAvailable".into(), &true.into()).ok()?;
    let request: js_sys::Function = js_sys::Reflect::get(&locks, &"request".into()).ok()?.unchecked_into();
    let arguments = Array::of3(&errand.into(), &options, granted.as_ref());
    request.apply(&locks, &arguments).ok()?;
    let release = told.await.ok()??;
    Some(Alone(Some(release)))
}

/// The locks of the browser; `None` in one that has none, where two tabs may ask the same twice.
fn locks() -> Option<JsValue> {
    let navigator = web_sys::window()?.navigator();
    js_sys::Reflect::get(&navigator, &"locks".into()).ok().filter(JsValue::is_object)
}

/// Nobody else is at the errand.
pub(super) struct Alone(Option<js_sys::Function>);

impl Drop for Alone {
    fn drop(&mut self) {
        if let Some(release) = &self.0 {
            release.call0(&JsValue::NULL).ok();
        }
    }
}
