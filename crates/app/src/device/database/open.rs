//! Opening the database, and bringing an older one to this version without losing a row.
//!
//! Words: *heard* = what the browser tells about an open database later on.

use super::request::answer;
use super::trouble::Trouble;
use super::{BY_JOB, BY_ORDER, ENTRIES, FIRST, OUTBOX};
use futures::channel::mpsc::{UnboundedReceiver, UnboundedSender, unbounded};
use futures::future::{Either, select};
use std::pin::pin;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbFactory, IdbOpenDbRequest, IdbVersionChangeEvent};

/// The name of the database.
const NAME: &str = "shaftbook";
/// The version of its stores. A higher one adds to them; a store is never dropped with rows in it.
const VERSION: u32 = 1;
/// A tab of an older version has this long to let go of the database.
const PATIENCE_MS: u32 = 4000;

/// What the browser tells about the open database.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::device) enum Heard {
    /// Another tab needs it for a newer version; it was let go.
    NewerVersion,
    /// The browser closed it: storage was cleared, or failed.
    Closed,
}

/// The open database.
pub(in crate::device) struct Database {
    handle: IdbDatabase,
    _ears: [Closure<dyn FnMut()>; 2],
}

impl Database {
    pub(super) fn handle(&self) -> IdbDatabase {
        self.handle.clone()
    }

    /// Listens to the browser; a newer version gets the database at once, so that it is not blocked.
    fn heard(handle: IdbDatabase, tell: &UnboundedSender<Heard>) -> Self {
        let newer = {
            let (handle, tell) = (handle.clone(), tell.clone());
            Closure::<dyn FnMut()>::new(move || {
                handle.close();
                tell.unbounded_send(Heard::NewerVersion).ok();
            })
        };
        let closed = {
            let tell = tell.clone();
            Closure::<dyn FnMut()>::new(move || {
                tell.unbounded_send(Heard::Closed).ok();
            })
        };
        handle.set_onversionchange(Some(newer.as_ref().unchecked_ref()));
        handle.set_onclose(Some(closed.as_ref().unchecked_ref()));
        Database { handle, _ears: [newer, closed] }
    }
}

/// Opens the database, making or growing its stores.
pub(in crate::device) async fn open() -> Result<(Database, UnboundedReceiver<Heard>), Trouble> {
    let request = factory()?.open_with_u32(NAME, VERSION).map_err(|thrown| Trouble::of(&thrown))?;
    let grows = Closure::<dyn FnMut(IdbVersionChangeEvent)>::new({
        let request = request.clone();
        move |event: IdbVersionChangeEvent| grow(&request, event.old_version() as u32)
    });
    request.set_onupgradeneeded(Some(grows.as_ref().unchecked_ref()));
    let opened = wait(&request).await?;
    request.set_onupgradeneeded(None);
    let (tell, told) = unbounded();
    Ok((Database::heard(opened.unchecked_into(), &tell), told))
}

fn factory() -> Result<IdbFactory, Trouble> {
    let window = web_sys::window().ok_or(Trouble::Absent)?;
    window.indexed_db().ok().flatten().ok_or(Trouble::Absent)
}

/// Waits for the opening; a tab of an older version may stand in the way for a while.
async fn wait(request: &IdbOpenDbRequest) -> Result<JsValue, Trouble> {
    let patience = crate::device::time::pause(PATIENCE_MS);
    match select(pin!(answer(request)), pin!(patience)).await {
        Either::Left((opened, _)) => opened,
        Either::Right(_) => {
            // It may still come later; a page that is loaded again finds it open then.
            Err(Trouble::Blocked)
        }
    }
}

/// Brings the stores from an older version to this one. Each step adds, so that every row stays; a step that
/// fails undoes the whole, and the opening tells why.
fn grow(request: &IdbOpenDbRequest, from: u32) {
    let grown = request.result().map(JsCast::unchecked_into::<IdbDatabase>);
    let grown = grown.and_then(|database| if from < 1 { first(&database) } else { Ok(()) });
    if let (Err(_), Some(transaction)) = (grown, request.transaction()) {
        transaction.abort().ok();
    }
}

fn first(database: &IdbDatabase) -> Result<(), JsValue> {
    for name in FIRST {
        let store = database.create_object_store(name)?;
        if matches!(*name, ENTRIES | OUTBOX) {
            store.create_index_with_str(BY_JOB, "job")?;
        }
        if *name == OUTBOX {
            store.create_index_with_str(BY_ORDER, "order")?;
        }
    }
    Ok(())
}
