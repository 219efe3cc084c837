//! Format 1. Frozen: what was written with it must read the same for ever.
//!
//! ```json
//! {"author":"…","body":{…},"device":"…","entered_at":"…","format":1,"id":"…","job":"…","kind":"tool_run",
//!  "observed_at":"…","prev":"…","seq":7,"shaft":"S-1","sig":"…"}
//! ```
//! Absent members are blank: `noted_at`, `prev`, `shaft`. The members `device`, `format`, `id`, `job`,
//! `observed_at`, `prev`, `seq`, `shaft` and `sig` keep their names and meaning in every later format, so
//! that an old reader can carry an entry it cannot read.

use crate::canonical::{LARGEST_WHOLE, canonical, sha256, spelled_without};
use crate::draft::Draft;
use crate::error::LineFault;
use crate::key::is_sealed;
use crate::seals::Seals;
use crate::tree::{group_of, object_of};
use quantity::Moment;
use record::{Body, DeviceId, Entry, EntryId, Held, How, Newer, Seal};
use serde_json::{Map, Value};

/// The number of this format.
pub const FORMAT: u64 = 1;

const MEMBERS: &[&str] = &[
    "author",
    "body",
    "device",
    "entered_at",
    "format",
    "id",
    "job",
    "kind",
    "noted_at",
    "observed_at",
    "prev",
    "seq",
    "shaft",
    "sig",
];

/// The canonical bytes an entry's id and signature are made of.
pub(crate) fn signed_bytes(draft: &Draft) -> String {
    canonical(&members(draft))
}

fn members(draft: &Draft) -> Map<String, Value> {
    let mut object = Map::new();
    let mut put = |name: &str, value: Value| object.insert(name.to_owned(), value);
    put("author", draft.author.clone().into());
    put("body", object_of(&draft.body.to_group()).into());
    put("device", draft.device.to_string().into());
    put("entered_at", draft.entered_at.to_string().into());
    put("format", FORMAT.into());
    put("job", draft.job.clone().into());
    put("kind", draft.body.kind().word.into());
    put("observed_at", draft.observed_at.to_string().into());
    put("seq", draft.seq.into());
    if let Some(noted) = draft.noted_at {
        put("noted_at", noted.to_string().into());
    }
    if let Some(prev) = draft.prev {
        put("prev", prev.to_string().into());
    }
    if let Some(shaft) = &draft.shaft {
        put("shaft", shaft.clone().into());
    }
    object
}

/// An entry as one line, without the line feed.
pub fn write(held: &Held) -> String {
    let entry = match held {
        Held::Known(entry) => entry,
        Held::Newer(newer) => return newer.line.clone(),
    };
    let mut object = members(&Draft::of(entry));
    object.insert("id".to_owned(), entry.id.to_string().into());
    object.insert("sig".to_owned(), entry.seal.to_string().into());
    canonical(&object)
}

/// Reads one line, proves its id and signature, and takes its body apart.
///
/// # Errors
/// Why it is not an entry; an entry of a newer format is not an error.
pub fn read(line: &str) -> Result<Held, LineFault> {
    read_as(line, is_sealed)
}

/// Reads lines one after the other as `read` does, the faster the more of them one device signed.
#[derive(Debug, Clone, Default)]
pub struct Reader(Seals);

impl Reader {
    /// Reads the next line.
    ///
    /// # Errors
    /// As for `read`.
    pub fn read(&mut self, line: &str) -> Result<Held, LineFault> {
        read_as(line, |device, bytes, seal| self.0.is_sealed(device, bytes, seal))
    }
}

/// Reads one line of a storage into which nothing comes that `read` has not proved. The id is proved again,
/// so that a damaged line is found; the signature is not, because proving it takes most of the time.
///
/// # Errors
/// As for `read`.
pub fn read_kept(line: &str) -> Result<Held, LineFault> {
    read_as(line, |_, _, _| true)
}

fn read_as(line: &str, is_sealed: impl FnOnce(&DeviceId, &[u8], &Seal) -> bool) -> Result<Held, LineFault> {
    let object: Map<String, Value> =
        serde_json::from_str(line).map_err(|error| LineFault::NotJson(error.to_string()))?;
    let (whole, signed) = spelled_without(&object, &["id", "sig"]);
    if whole != line {
        return Err(LineFault::NotCanonical);
    }
    let proven = prove(&object, signed.as_bytes(), is_sealed)?;
    match object.get("format").and_then(Value::as_u64) {
        Some(FORMAT) => known(&object, &proven).map(Held::Known),
        Some(format) if format > FORMAT => newer(&object, &proven, format, line).map(Held::Newer),
        _ => Err(LineFault::Member("format")),
    }
}

/// What every format promises: identity, place in the chain, proof.
struct Proven {
    id: EntryId,
    device: DeviceId,
    seal: Seal,
    seq: u64,
    prev: Option<EntryId>,
}

fn prove(
    object: &Map<String, Value>,
    signed: &[u8],
    is_sealed: impl FnOnce(&DeviceId, &[u8], &Seal) -> bool,
) -> Result<Proven, LineFault> {
    let id = EntryId::from_hex(text(object, "id")?).ok_or(LineFault::Member("id"))?;
    let seal = Seal::from_hex(text(object, "sig")?).ok_or(LineFault::Member("sig"))?;
    let device = DeviceId::from_hex(text(object, "device")?).ok_or(LineFault::Member("device"))?;
    let in_range = |seq: &u64| (1..=LARGEST_WHOLE).contains(seq);
    let seq = object.get("seq").and_then(Value::as_u64).filter(in_range).ok_or(LineFault::Member("seq"))?;
    let prev = optional(object, "prev")?.map(|prev| EntryId::from_hex(prev).ok_or(LineFault::Member("prev")));
    if sha256(signed) != id.0 {
        return Err(LineFault::IdDisagrees);
    }
    if !is_sealed(&device, signed, &seal) {
        return Err(LineFault::NotSealed);
    }
    Ok(Proven { id, device, seal, seq, prev: prev.transpose()? })
}

fn known(object: &Map<String, Value>, proven: &Proven) -> Result<Entry, LineFault> {
    let known = |name: &&String| MEMBERS.contains(&name.as_str());
    if !object.keys().all(|name| known(&name)) {
        return Err(LineFault::Member("an unknown member"));
    }
    Ok(Entry {
        id: proven.id,
        job: text(object, "job")?.to_owned(),
        shaft: optional(object, "shaft")?.map(str::to_owned),
        device: proven.device,
        seq: proven.seq,
        prev: proven.prev,
        author: text(object, "author")?.to_owned(),
        observed_at: moment(text(object, "observed_at")?, "observed_at")?,
        noted_at: optional(object, "noted_at")?.map(|noted| moment(noted, "noted_at")).transpose()?,
        entered_at: moment(text(object, "entered_at")?, "entered_at")?,
        body: body(object)?,
        seal: proven.seal,
    })
}

fn body(object: &Map<String, Value>) -> Result<Body, LineFault> {
    let Some(Value::Object(fields)) = object.get("body") else { return Err(LineFault::Member("body")) };
    let group = group_of(fields).map_err(|_| LineFault::Member("body"))?;
    let body = Body::from_group(text(object, "kind")?, &group, "", &How::Stored).map_err(LineFault::Body)?;
    // A second spelling of one entry would have a second id.
    if body.to_group() == group { Ok(body) } else { Err(LineFault::NotCanonical) }
}

fn newer(object: &Map<String, Value>, proven: &Proven, format: u64, line: &str) -> Result<Newer, LineFault> {
    Ok(Newer {
        id: proven.id,
        format,
        job: text(object, "job")?.to_owned(),
        shaft: optional(object, "shaft")?.map(str::to_owned),
        device: proven.device,
        seq: proven.seq,
        prev: proven.prev,
        observed_at: moment(text(object, "observed_at")?, "observed_at")?,
        line: line.to_owned(),
    })
}

fn text<'o>(object: &'o Map<String, Value>, name: &'static str) -> Result<&'o str, LineFault> {
    object.get(name).and_then(Value::as_str).ok_or(LineFault::Member(name))
}

fn optional<'o>(object: &'o Map<String, Value>, name: &'static str) -> Result<Option<&'o str>, LineFault> {
    object.get(name).map(|value| value.as_str().ok_or(LineFault::Member(name))).transpose()
}

fn moment(text: &str, name: &'static str) -> Result<Moment, LineFault> {
    Moment::parse(text).ok().filter(|moment| moment.to_string() == text).ok_or(LineFault::Member(name))
}
