//! A code from the desk becomes a token.

use crate::answer::{Refused, json};
use crate::body;
use crate::door::Asker;
use crate::rate::Who;
use crate::running::Shared;
use crate::tries::{self, Tried};
use crate::writer::NotWritten;
use crate::{code, time};
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::Response;
use record::DeviceId;
use std::sync::{Arc, PoisonError};
use store::{Database, Device, Office, Pairing, People};
use wire::http::{COOKIE, Code, Pair, Paired};

/// How long a browser keeps the cookie: 400 days, the most browsers allow.
const COOKIE_SECONDS: u64 = 400 * 24 * 60 * 60;

pub(crate) async fn pair(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let asked: Pair = body::small(&headers, body, &shared.site.limits).await?;
    let (name, device) = (body::name("device", &asked.name)?, device(&asked.device)?);
    let who = asker.who;
    may_try(&shared, who).await?;
    let token = code::token().map_err(NotWritten::Chance)?;
    let now = time::now();
    let pairing = Pairing { device, name, token: token.clone(), paired_at: now.to_string() };
    match paired(&shared, (who, &asked.code), pairing, now.seconds()).await? {
        None => Err(wrong(&shared, who).await),
        Some(device) => {
            welcome(&shared, &asker, &asked.code, &device).await;
            let office = shared.site.office.clone();
            let signs_as = signs_as(&shared, &device).await;
            let answer = json(&Paired { token: token.clone(), office, server_time: now, signs_as })?;
            with_cookie(answer, asker.secure, &token)
        }
    }
}

async fn paired(
    shared: &Shared,
    (who, typed): (Who, &str),
    pairing: Pairing,
    now: i64,
) -> Result<Option<Device>, NotWritten> {
    let Some(code) = code::typed(typed) else { return Ok(None) };
    let pair = move |store: &mut Database| {
        let paired = store.pair(&code, &pairing, now)?;
        if paired.is_some() {
            tries::right(store, &[Tried::At(who)])?;
        }
        Ok(paired)
    };
    shared.writer.ask(pair).await
}

/// The name under the entries of whom the device belongs to. It only saves typing: where it cannot be read, the device is paired
/// all the same.
async fn signs_as(shared: &Arc<Shared>, device: &Device) -> Option<String> {
    let number = device.person?;
    let known = shared.read(move |store| store.person(number)).await.ok()??;
    Some(known.person.signs_as.unwrap_or(known.person.name))
}

fn device(text: &str) -> Result<String, Refused> {
    let what = "The device's key is not 64 hexadecimal digits in small letters.";
    DeviceId::from_hex(text).map(|_| text.to_owned()).ok_or_else(|| Refused::new(Code::MALFORMED, what))
}

async fn may_try(shared: &Arc<Shared>, who: Who) -> Result<(), Refused> {
    let now = time::now().seconds();
    let wait = shared.read(move |store| tries::wait(store, &[Tried::At(who)], now)).await?;
    let what = "From this address too many wrong codes came in a row.";
    wait.map_or(Ok(()), |wait| Err(Refused::new(Code::TOO_MANY, what).after(wait)))
}

/// A wrong code. After too many from everywhere the right ones are taken away too.
async fn wrong(shared: &Shared, who: Who) -> Refused {
    let now = time::now().seconds();
    let counted = shared.writer.ask(move |store| {
        let too_many = tries::wrong_code(store, who, now)?;
        too_many.then(|| store.drop_codes()).transpose()
    });
    match counted.await {
        Err(error) => return error.into(),
        Ok(None) => {}
        Ok(Some(())) => shared.shown.lock().unwrap_or_else(PoisonError::into_inner).clear(),
    }
    Refused::new(Code::CODE_WRONG, "The desk has no such code, or it was used, or its ten minutes are over.")
}

async fn welcome(shared: &Arc<Shared>, asker: &Asker, typed: &str, device: &Device) {
    let used = code::typed(typed);
    shared
        .shown
        .lock()
        .unwrap_or_else(PoisonError::into_inner)
        .retain(|code| Some(&code.text) != used.as_ref());
    // A device paired again had another token.
    shared.rights_changed();
    shared.note_device(asker, "device-paired", device).await;
}

fn with_cookie(mut response: Response, secure: bool, token: &str) -> Result<Response, Refused> {
    let secure = if secure { "; Secure" } else { "" };
    let cookie =
        format!("{COOKIE}={token}; Path=/; Max-Age={COOKIE_SECONDS}; HttpOnly; SameSite=Strict{secure}");
    let cookie = HeaderValue::from_str(&cookie).map_err(|error| {
        Refused::new(Code::INTERNAL, "The desk could not write its answer.").inside(error)
    })?;
    response.headers_mut().insert(header::SET_COOKIE, cookie);
    Ok(response)
}
