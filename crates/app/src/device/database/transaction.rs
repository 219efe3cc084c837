//! A transaction: all of it or none, and done only when the browser says `complete`.
//!
//! Never: wait inside a transaction for anything but its own requests; the browser would close it.

use super::open::Database;
use super::request::answer;
use super::trouble::Trouble;
use futures::channel::oneshot;
use js_sys::{Array, Function, Object, Reflect};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction};

/// How sure the browser has to be that a change is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::device) enum Durability {
    /// On the disk. For everything a person was told is saved.
    Strict,
    /// Handed to the system. For what is written at every key and can be typed again.
    Relaxed,
}

/// An open transaction; dropped without `commit`, it is undone.
pub(in crate::device) struct Transaction {
    inner: IdbTransaction,
    told: Option<oneshot::Receiver<Option<Trouble>>>,
    _ears: [Closure<dyn FnMut()>; 2],
}

type Tell = Rc<Cell<Option<oneshot::Sender<Option<Trouble>>>>>;

impl Transaction {
    /// Begins to read.
    pub(in crate::device) fn to_read(database: &Database, stores: &[&str]) -> Result<Self, Trouble> {
        Self::begin(database, stores, "readonly", Durability::Relaxed)
    }

    /// Begins to write; nobody else writes to these stores until it ends.
    pub(in crate::device) fn to_write(
        database: &Database,
        stores: &[&str],
        durability: Durability,
    ) -> Result<Self, Trouble> {
        Self::begin(database, stores, "readwrite", durability)
    }

    fn begin(
        database: &Database,
        stores: &[&str],
        mode: &str,
        durability: Durability,
    ) -> Result<Self, Trouble> {
        let options = Object::new();
        let word = if durability == Durability::Strict { "strict" } else { "relaxed" };
        let wrong = |thrown: JsValue| Trouble::of(&thrown);
        Reflect::set(&options, &"durability".into(), &word.into()).map_err(wrong)?;
        let names: Array = stores.iter().map(|name| JsValue::from_str(name)).collect();
        let handle = database.handle();
        // The bindings know `transaction` without its options only.
        let begin: Function = Reflect::get(&handle, &"transaction".into()).map_err(wrong)?.unchecked_into();
        let begun = begin.call3(&handle, &names, &mode.into(), &options).map_err(wrong)?;
        Ok(Self::heard(begun.unchecked_into()))
    }

    fn heard(inner: IdbTransaction) -> Self {
        let (tell, told) = oneshot::channel();
        let tell: Tell = Rc::new(Cell::new(Some(tell)));
        let completes = {
            let tell = Rc::clone(&tell);
            Closure::<dyn FnMut()>::new(move || say(&tell, None))
        };
        let aborts = {
            let inner = inner.clone();
            Closure::<dyn FnMut()>::new(move || {
                let why = inner.error().map_or(Trouble::Closed, |error| Trouble::of_exception(&error));
                say(&tell, Some(why));
            })
        };
        inner.set_oncomplete(Some(completes.as_ref().unchecked_ref()));
        inner.set_onabort(Some(aborts.as_ref().unchecked_ref()));
        Transaction { inner, told: Some(told), _ears: [completes, aborts] }
    }

    fn store(&self, name: &str) -> Result<IdbObjectStore, Trouble> {
        self.inner.object_store(name).map_err(|thrown| Trouble::of(&thrown))
    }

    async fn ask(request: Result<IdbRequest, JsValue>) -> Result<JsValue, Trouble> {
        answer(&request.map_err(|thrown| Trouble::of(&thrown))?).await
    }

    /// Puts a row under a key. Whether it went well, `commit` says.
    pub(in crate::device) fn put(&self, store: &str, key: &str, row: &JsValue) -> Result<(), Trouble> {
        let put = self.store(store)?.put_with_key(row, &JsValue::from_str(key));
        put.map(|_| ()).map_err(|thrown| Trouble::of(&thrown))
    }

    /// Takes a row away.
    pub(in crate::device) fn delete(&self, store: &str, key: &str) -> Result<(), Trouble> {
        let deleted = self.store(store)?.delete(&JsValue::from_str(key));
        deleted.map(|_| ()).map_err(|thrown| Trouble::of(&thrown))
    }

    /// The row under a key; `None` where there is none.
    pub(in crate::device) async fn get(&self, store: &str, key: &str) -> Result<Option<JsValue>, Trouble> {
        let row = Self::ask(self.store(store)?.get(&JsValue::from_str(key))).await?;
        Ok(Some(row).filter(|row| !row.is_undefined()))
    }

    /// Every row of a store, by key.
    pub(in crate::device) async fn all(&self, store: &str) -> Result<Vec<(String, JsValue)>, Trouble> {
        let keys = self.keys(store).await?;
        let rows = Self::ask(self.store(store)?.get_all()).await?;
        Ok(keys.into_iter().zip(Array::from(&rows).iter()).collect())
    }

    /// Every key of a store, in order.
    pub(in crate::device) async fn keys(&self, store: &str) -> Result<Vec<String>, Trouble> {
        Self::ask(self.store(store)?.get_all_keys()).await.map(|keys| texts(&keys))
    }

    /// The row of a store that comes first in order; `None` where it is empty.
    pub(in crate::device) async fn first(&self, store: &str) -> Result<Option<JsValue>, Trouble> {
        let index = self.store(store)?.index(super::BY_ORDER).map_err(|thrown| Trouble::of(&thrown))?;
        let rows = Self::ask(index.get_all_with_key_and_limit(&JsValue::UNDEFINED, 1)).await?;
        Ok(Array::from(&rows).iter().next())
    }

    /// How many rows a store has.
    pub(in crate::device) async fn count(&self, store: &str) -> Result<usize, Trouble> {
        Self::ask(self.store(store)?.count()).await.map(|count| whole(&count))
    }

    /// Every row of a job.
    pub(in crate::device) async fn of_job(&self, store: &str, job: &str) -> Result<Vec<JsValue>, Trouble> {
        let index = self.store(store)?.index(super::BY_JOB).map_err(|thrown| Trouble::of(&thrown))?;
        let rows = Self::ask(index.get_all_with_key(&only(job)?)).await?;
        Ok(Array::from(&rows).iter().collect())
    }

    /// Every key of a job.
    pub(in crate::device) async fn keys_of_job(
        &self,
        store: &str,
        job: &str,
    ) -> Result<Vec<String>, Trouble> {
        let index = self.store(store)?.index(super::BY_JOB).map_err(|thrown| Trouble::of(&thrown))?;
        Self::ask(index.get_all_keys_with_key(&only(job)?)).await.map(|keys| texts(&keys))
    }

    /// How many rows a job has.
    pub(in crate::device) async fn count_of_job(&self, store: &str, job: &str) -> Result<usize, Trouble> {
        let index = self.store(store)?.index(super::BY_JOB).map_err(|thrown| Trouble::of(&thrown))?;
        Self::ask(index.count_with_key(&only(job)?)).await.map(|count| whole(&count))
    }

    /// Ends it, and waits until the browser says that it is complete.
    pub(in crate::device) async fn commit(self) -> Result<(), Trouble> {
        self.commit_while(|| ()).await
    }

    /// The same, and does something while the browser brings it to the disk. What is done must show nobody anything.
    pub(in crate::device) async fn commit_while(mut self, meanwhile: impl FnOnce()) -> Result<(), Trouble> {
        let told = self.told.take().ok_or(Trouble::Closed)?;
        // The browser ends it by itself when its last request is answered; told to, it need not wait for us to
        // hear each answer. One that was ended already says so below.
        #[expect(deprecated, reason = "marked so by the bindings alone; the standard has it [IndexedDB-3]")]
        self.inner.commit().ok();
        meanwhile();
        match told.await {
            Ok(None) => Ok(()),
            Ok(Some(trouble)) => Err(trouble),
            Err(_) => Err(Trouble::Closed),
        }
    }
}

impl Drop for Transaction {
    fn drop(&mut self) {
        self.inner.set_oncomplete(None);
        self.inner.set_onabort(None);
        if self.told.is_some() {
            // One that has ended already cannot be undone, and needs not be.
            let _already_ended = self.inner.abort();
        }
    }
}

fn say(tell: &Tell, trouble: Option<Trouble>) {
    // Whoever waited may have gone.
    tell.take().map(|tell| tell.send(trouble).ok());
}

fn only(job: &str) -> Result<JsValue, Trouble> {
    let range = IdbKeyRange::only(&JsValue::from_str(job)).map_err(|thrown| Trouble::of(&thrown))?;
    Ok(range.into())
}

fn texts(keys: &JsValue) -> Vec<String> {
    Array::from(keys).iter().filter_map(|key| key.as_string()).collect()
}

fn whole(count: &JsValue) -> usize {
    count.as_f64().map_or(0, |count| count as usize)
}
