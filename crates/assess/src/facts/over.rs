//! Whether the pour is over.
//!
//! Never: take a level that was reached for an end, while a load waits or a line stands in the concrete.

use crate::picture::{Load, Picture};
use quantity::Moment;
use record::choices::LineType;
use record::kinds::{
    AnchorsSet, AsBuilt, ConduitSet, Curing, EntryKind, FormRemoved, IntegrityTest, OverPoured, TopFormed,
    Trimmed,
};
use record::{EntryId, Line, Log};

/// When concrete last went in, with the entry that says so, once the pour is over.
///
/// It is over when no load is going in and somebody wrote of good concrete at the top or of work that only
/// follows a pour, or when the concrete stands where the plan wants it, no load waits and no line is in.
pub(crate) fn pour_over(log: &Log<'_>, picture: &Picture<'_>) -> Option<(Moment, EntryId)> {
    let (finished, entry) = picture.last_concrete()?;
    (is_full(picture) || followed(log, finished)).then_some((finished, entry))
}

/// The concrete stands at the cut-off, with what is to be trimmed above it, no load waits, and no line stands in
/// it through which more would come: concrete may stand high because a casing is about to be drawn.
fn is_full(picture: &Picture<'_>) -> bool {
    let Some(plan) = &picture.plan else { return false };
    let level = picture.concrete.last().map(|level| level.surface.mean.value);
    let waits = picture.loads.iter().any(Load::waiting);
    let more = picture.lines.iter().any(|line| line.out.is_none() && line.line != LineType::FreeFall);
    level.is_some_and(|level| level >= plan.wanted()) && !waits && !more
}

/// Somebody wrote of good concrete at the top, or of work that only follows a pour.
fn followed(log: &Log<'_>, finished: Moment) -> bool {
    const FOLLOWS: [&str; 8] = [
        TopFormed::WORD,
        ConduitSet::WORD,
        AnchorsSet::WORD,
        Curing::WORD,
        FormRemoved::WORD,
        IntegrityTest::WORD,
        Trimmed::WORD,
        AsBuilt::WORD,
    ];
    let follows =
        |line: &Line<'_>| line.at >= finished && FOLLOWS.contains(&line.body.kind().word) && line.stands();
    log.last::<OverPoured>().is_some() || log.lines.iter().any(follows)
}
