//! Moments and ids as the texts they are written as.

/// A moment as RFC 3339.
pub(super) mod moment {
    use quantity::Moment;
    use serde::de::Error;
    use serde::{Deserialize, Deserializer, Serializer};

    pub(crate) fn serialize<S: Serializer>(moment: &Moment, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(moment)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Moment, D::Error> {
        Moment::parse(&String::deserialize(from)?).map_err(D::Error::custom)
    }
}

/// An entry's id in hexadecimal, or nothing.
pub(super) mod id {
    use record::EntryId;
    use serde::de::Error;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(crate) fn serialize<S: Serializer>(id: &Option<EntryId>, to: S) -> Result<S::Ok, S::Error> {
        id.map(|id| id.to_string()).serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<EntryId>, D::Error> {
        let text = Option::<String>::deserialize(from)?;
        let read = |text: String| EntryId::from_hex(&text).ok_or_else(|| D::Error::custom("no entry id"));
        text.map(read).transpose()
    }
}
