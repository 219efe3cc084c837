//! People, roles and devices as they stand on a page.

use crate::page::{self, moment, text};
use quantity::Moment;
use store::{Device, EVERY_JOB, Known, Role};

/// A job as people say it.
pub(super) fn job(name: &str) -> String {
    if name == EVERY_JOB { "every job".to_owned() } else { text(name) }
}

/// A device with the key that lets it go.
pub(super) fn device(device: &Device, action: &str) -> String {
    let name = text(&device.name);
    let since = Moment::parse(&device.paired_at).map_or_else(
        |_| text(&device.paired_at),
        |moment| format!("{} {} UTC", moment.date(), moment.clock()),
    );
    format!(
        "<li><span class=\"name\">{name}</span> <span class=\"since\">since {since}</span>\
         <form method=\"post\" action=\"{action}\"><button aria-label=\"Let {name} go\">Let go</button></form></li>\n"
    )
}

/// How it stands with a person.
pub(super) fn state(known: &Known) -> String {
    match (known.person.gone, known.person.chose) {
        (Some(at), _) => format!("let go {}", moment(at)),
        (None, false) => "invited, has not come yet".to_owned(),
        (None, true) => "comes in".to_owned(),
    }
}

/// Every role as a choice.
pub(super) fn choice() -> String {
    let option = |role: &Role| format!("<option value=\"{}\">{}</option>", role.word(), role.spoken());
    let options: String = Role::ALL.iter().map(option).collect();
    format!(
        "<p class=\"field\"><label for=\"role\">Role</label><select id=\"role\" name=\"role\">{options}</select></p>"
    )
}

/// A role with the key that takes it away.
pub(super) fn role(known: &Known, role: Role, action: &str) -> String {
    let name = text(&known.person.name);
    let fields =
        page::hidden("person", &known.person.number.to_string()) + &page::hidden("role", role.word());
    format!(
        "<li><span class=\"name\">{name}</span> <span>{}</span>\
         <form method=\"post\" action=\"{}\">{fields}<button aria-label=\"{name} is no longer {}\">Take away</button>\
         </form></li>\n",
        role.spoken(),
        text(action),
        role.spoken()
    )
}
