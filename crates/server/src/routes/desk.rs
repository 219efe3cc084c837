//! The desk page: the pairing code, large; who is paired. For the server's own machine only.
//!
//! Plain HTML without a script: it must work in any browser that is there, and nothing on it may run.

use crate::answer::Refused;
use crate::desk::Desk;
use crate::door::Asker;
use crate::page;
use crate::page::{STYLE, in_address, text};
use crate::running::{Shared, waiting};
use crate::time;
use axum::extract::{Path, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use quantity::Moment;
use std::fmt::Write;
use std::sync::Arc;
use store::{Device, Office, SetAside};

/// `GET /desk`.
pub(crate) async fn page(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    let devices = shared.read(|store| store.devices()).await?;
    let looking = Arc::clone(&shared);
    waiting(move || looking.take_handed()).await;
    let aside = shared.read(|store| store.aside_of_jobs()).await?;
    let code = if asker.peopled { None } else { shared.shown_code() };
    let mut page = written(&shared.site.office, code.as_ref(), &devices, time::now());
    page.push_str(&set_aside(&aside));
    page.push_str("</main>\n</body>\n</html>\n");
    Ok(page::answer(page))
}

/// `GET /desk/desk.css`.
pub(crate) async fn style() -> Response {
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], STYLE).into_response()
}

/// `POST /desk/codes`.
///
/// Where there are people, a device belongs to whoever made its code, and the code is shown on that person's own page.
pub(crate) async fn new_code(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    if asker.peopled {
        return Ok((StatusCode::SEE_OTHER, [(header::LOCATION, "/people")]).into_response());
    }
    waiting(move || Desk(shared).new_code()).await?;
    Ok(back())
}

/// `POST /desk/devices/{number}/let-go`.
pub(crate) async fn let_go(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(number): Path<i64>,
) -> Result<Response, Refused> {
    shared.let_device_go(&asker, number).await?;
    Ok(back())
}

fn back() -> Response {
    (StatusCode::SEE_OTHER, [(header::LOCATION, HeaderValue::from_static("/desk"))]).into_response()
}

fn written(office: &str, code: Option<&crate::Code>, devices: &[Device], now: Moment) -> String {
    let mut page = String::new();
    let office = text(office);
    let _ = write!(
        page,
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n\
         <title>Desk of {office}</title>\n<link rel=\"stylesheet\" href=\"/desk/desk.css\">\n</head>\n<body>\n\
         <main>\n<h1>{office}</h1>\n"
    );
    page.push_str(&code.map_or_else(no_code, |code| a_code(code, now)));
    page.push_str(
        "<form method=\"post\" action=\"/desk/codes\"><button>New code</button></form>\n</section>\n",
    );
    page.push_str(&listed(devices));
    page
}

/// The jobs of which something is set aside, where there are any.
fn set_aside(jobs: &[(String, u64)]) -> String {
    if jobs.is_empty() {
        return String::new();
    }
    let row = |(job, count): &(String, u64)| {
        format!("<li><a href=\"/desk/jobs/{}/aside\">{count} of {}</a></li>\n", in_address(job), text(job))
    };
    let rows: String = jobs.iter().map(row).collect();
    format!(
        "<section aria-labelledby=\"aside\">\n<h2 id=\"aside\">Set aside</h2>\n\
         <p>Entries of devices that were let go. They are kept, and in no record until they are let in.</p>\n\
         <ul>\n{rows}</ul>\n</section>\n"
    )
}

fn no_code() -> String {
    "<section aria-labelledby=\"pair\">\n<h2 id=\"pair\">Pair a device</h2>\n\
     <p>No code serves at the moment. A new one serves once, for ten minutes.</p>\n"
        .to_owned()
}

/// Minutes, rounded up: the last one is still a minute.
fn left(seconds: i64) -> String {
    match (seconds + 59) / 60 {
        1 => "1 minute".to_owned(),
        minutes => format!("{minutes} minutes"),
    }
}

fn a_code(code: &crate::Code, now: Moment) -> String {
    let drawing = code.qr_svg().unwrap_or_default();
    format!(
        "<section aria-labelledby=\"pair\">\n<h2 id=\"pair\">Pair a device</h2>\n\
         <p>On the device, point the camera at the square, or open the address and type the code.</p>\n\
         <div class=\"square\" role=\"img\" aria-label=\"The pairing link as a QR code\">{drawing}</div>\n\
         <p class=\"code\">{}</p>\n<p class=\"link\">{}</p>\n\
         <p>It serves once, for {} more.</p>\n",
        code.grouped(),
        text(code.link.split('#').next().unwrap_or_default()),
        left(code.until.seconds() - now.seconds()),
    )
}

fn listed(devices: &[Device]) -> String {
    let mut list =
        String::from("<section aria-labelledby=\"paired\">\n<h2 id=\"paired\">Paired devices</h2>\n");
    if devices.is_empty() {
        list.push_str("<p>None yet.</p>\n");
    } else {
        list.push_str("<ul>\n");
        for device in devices {
            list.push_str(&row(device));
        }
        list.push_str(
            "</ul>\n<p>A device that is let go can send nothing more until it is paired again. \
            What it wrote stays.</p>\n",
        );
    }
    list.push_str("<p><a href=\"/desk\">Look again who is paired</a></p>\n</section>\n");
    list
}

fn row(device: &Device) -> String {
    let Device { number, name, paired_at, .. } = device;
    let name = text(name);
    format!(
        "<li><span class=\"name\">{name}</span> <span class=\"since\">since {} UTC</span>\
         <form method=\"post\" action=\"/desk/devices/{number}/let-go\">\
         <button aria-label=\"Let {name} go\">Let go</button></form></li>\n",
        text(&day_and_clock(paired_at))
    )
}

/// `2026-05-04 07:10` out of the moment that was kept, in UTC.
fn day_and_clock(kept: &str) -> String {
    let shown = |moment: Moment| format!("{} {}", moment.date(), moment.clock());
    Moment::parse(kept).map_or_else(|_| kept.to_owned(), shown)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_is_markup_stays_a_name() {
        let device = Device {
            number: 3,
            device: "00".repeat(32),
            name: "<script>alert('rig')</script>".to_owned(),
            paired_at: "2026-05-04T07:10:00+00:00".to_owned(),
            person: None,
            gone: None,
        };
        let page = written("Mud & Sons", None, &[device], Moment::at(1_900_000_000, 0));
        assert!(page.contains("&lt;script&gt;alert(&#39;rig&#39;)&lt;/script&gt;"), "{page}");
        assert!(!page.contains("<script"), "{page}");
        assert!(page.contains("since 2026-05-04 07:10 UTC"), "{page}");
        assert!(page.contains("<h1>Mud &amp; Sons</h1>"), "{page}");
    }

    #[test]
    fn nothing_on_the_page_needs_a_style_or_a_script_of_its_own() {
        let code = crate::Code {
            text: "K7PM3XQF".to_owned(),
            until: Moment::at(1_900_000_000, 0),
            link: "https://office.example:8443/pair#pair=K7PM3XQF".to_owned(),
        };
        let page = written("Office", Some(&code), &[], Moment::at(1_900_000_000 - 541, 0));
        assert!(page.contains("It serves once, for 10 minutes more."), "{page}");
        assert!(page.contains("K7PM-3XQF") && page.contains("<svg"), "{page}");
        assert!(!page.contains("style=") && !page.contains("<style") && !page.contains("script"), "{page}");
    }
}
