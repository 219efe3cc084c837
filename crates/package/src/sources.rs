//! The documents the limits of a package come from, from the project's own table of sources.

use crate::Source;
use criteria::Sure;
use report::{Certainty, SourceOfLimit};
use std::collections::BTreeMap;

/// The table of sources, as it is kept with the code.
const TABLE: &str = include_str!("../../../docs/sources.md");

/// The document a key names, as the table has it; `None` for an unknown key.
pub fn document(key: &str) -> Option<&'static str> {
    let wanted = format!("| [{key}] |");
    let row = TABLE.lines().find(|line| line.starts_with(&wanted))?;
    row.split('|').nth(2).map(str::trim)
}

/// How sure a transcription is, as the report prints it.
pub(crate) fn certainty(sure: Sure) -> Certainty {
    match sure {
        Sure::Read => Certainty::Read,
        Sure::FromMemory => Certainty::FromMemory,
        Sure::CommonPractice => Certainty::CommonPractice,
        Sure::Job => Certainty::SetByJob,
    }
}

/// The documents behind the findings of a shaft, by key; the least sure of their limits counts.
pub(crate) fn used(source: &Source<'_, '_>) -> Vec<SourceOfLimit> {
    let mut limits: BTreeMap<(String, Sure), std::collections::BTreeSet<&str>> = BTreeMap::new();
    for criterion in source.assessment.findings.iter().filter_map(|finding| finding.criterion.as_ref()) {
        let key = criterion.original.source.clone().unwrap_or_default();
        limits.entry((key, criterion.sure())).or_default().insert(&criterion.original.id);
    }
    let row = |((key, sure), ids): ((String, Sure), std::collections::BTreeSet<&str>)| SourceOfLimit {
        document: match (document(&key), sure) {
            (Some(document), _) => document.to_owned(),
            (None, Sure::Job) => "Set for this job, with the reason given beside the limit.".to_owned(),
            (None, _) => format!(
                "{} ({}); common practice, no document",
                source.set.about.title, source.set.about.edition
            ),
        },
        key,
        certainty: certainty(sure),
        used: format!("{} {}", ids.len(), if ids.len() == 1 { "limit" } else { "limits" }),
    };
    limits.into_iter().map(row).collect()
}
