//! Tremies and pump lines: their pieces, and where the tip was.

use super::reference::References;
use quantity::{Elevation, InOrder, Length, Moment, Span, Volume};
use record::choices::LineType;
use record::kinds::{LineMadeUp, LineOut, PiecesRemoved, TipMoved};
use record::{EntryId, Log};

/// One line from the time it was made up.
#[derive(Debug, Clone, PartialEq)]
pub struct LineHistory {
    /// What it is called.
    pub name: String,
    /// Gravity, pumped or free fall.
    pub line: LineType,
    /// Inside diameter.
    pub inside: Option<Length>,
    /// Outside diameter over the joints.
    pub outside: Option<Length>,
    /// Lengths of its pieces when it was made up, from the tip up.
    pub pieces: Vec<Length>,
    /// Height of the tip above the bottom, where that was written instead of a depth.
    pub off_bottom: Option<Length>,
    /// Joints are watertight.
    pub watertight: Option<bool>,
    /// Material.
    pub material: Option<String>,
    /// Clean and smooth, inside and outside.
    pub clean: Option<bool>,
    /// Centred, so that the stream stays clear of the cage.
    pub centered: Option<bool>,
    /// Plug, plate or valve.
    pub plug: Option<String>,
    /// Volume of the hopper.
    pub hopper: Option<Volume>,
    /// Volume that stays in a pump line.
    pub line_volume: Option<Volume>,
    /// The tip, step by step.
    pub steps: Vec<TipStep>,
    /// When it was out.
    pub out: Option<(Moment, EntryId)>,
    /// The entry that made it up.
    pub entry: EntryId,
}

/// The tip came to a level, or pieces came off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TipStep {
    /// When.
    pub at: Moment,
    /// Elevation of the tip; `None` when it does not follow from what was written.
    pub tip: Option<Elevation>,
    /// How many pieces are left in the hole.
    pub pieces: usize,
    /// Moved slowly.
    pub slowly: Option<bool>,
    /// Time the move took.
    pub took: Option<Span>,
    /// The entry.
    pub entry: EntryId,
}

impl LineHistory {
    /// The step in force at a moment; `None` before it was made up and after it was out.
    pub fn step(&self, at: Moment) -> Option<&TipStep> {
        if self.out.is_some_and(|(out, _)| out <= at) {
            return None;
        }
        self.steps.iter().rfind(|step| step.at <= at)
    }

    /// The tip at a moment.
    pub fn tip(&self, at: Moment) -> Option<Elevation> {
        self.step(at).and_then(|step| step.tip)
    }
}

pub(super) fn histories(log: &Log<'_>, references: &References) -> Vec<LineHistory> {
    let made = log.each::<LineMadeUp>().map(|(line, made)| history(line.at, line.entry.id, made, references));
    let mut lines: Vec<LineHistory> = made.collect();
    let made_at: Vec<(Moment, String)> =
        lines.iter().map(|line| (line.steps[0].at, line.name.clone())).collect();
    for (index, line) in lines.iter_mut().enumerate() {
        let again = made_at[index + 1..].iter().find(|(_, name)| *name == line.name).map(|(at, _)| *at);
        let time = (line.steps[0].at, again);
        move_tip(line, log, references, time);
        let mut out = log.each::<LineOut>().filter(|(l, out)| out.name == line.name && during(time, l.at));
        line.out = out.next_back().map(|(l, _)| (l.at, l.entry.id)).or(again.map(|at| (at, line.entry)));
    }
    lines
}

/// Whether a moment belongs to a line, and not to one made up under the same name before or after it.
fn during((made, again): (Moment, Option<Moment>), at: Moment) -> bool {
    made <= at && again.is_none_or(|again| at < again)
}

fn history(at: Moment, entry: EntryId, made: &LineMadeUp, references: &References) -> LineHistory {
    let pieces: Vec<Length> = made
        .pieces
        .iter()
        .flat_map(|pipe| std::iter::repeat_n(pipe.length.value(), pipe.count.unwrap_or(1).min(1000) as usize))
        .collect();
    let tip = made.tip.as_ref().and_then(|depth| references.elevation(depth.value(), at));
    let first = TipStep { at, tip, pieces: pieces.len(), slowly: None, took: None, entry };
    LineHistory {
        name: made.name.clone(),
        line: made.line,
        inside: made.inside.as_ref().map(|size| size.value()),
        outside: made.outside.as_ref().map(|size| size.value()),
        pieces,
        off_bottom: made.off_bottom.as_ref().map(|size| size.value()),
        watertight: made.watertight,
        material: made.material.clone(),
        clean: made.clean,
        centered: made.centered,
        plug: made.plug.clone(),
        hopper: made.hopper.as_ref().map(|volume| volume.value()),
        line_volume: made.line_volume.as_ref().map(|volume| volume.value()),
        steps: vec![first],
        out: None,
        entry,
    }
}

/// Moves and removals in the order they happened.
///
/// Where a removal says nothing of the tip, the string is taken to hang from the same point again: the tip
/// rises by what came off.
fn move_tip(line: &mut LineHistory, log: &Log<'_>, references: &References, time: (Moment, Option<Moment>)) {
    let moved = log.each::<TipMoved>().filter(|(l, moved)| moved.name == line.name && during(time, l.at));
    let moved = moved.map(|(l, moved)| (l, Some(&moved.tip), 0, Some(moved)));
    let removed = log.each::<PiecesRemoved>().filter(|(l, off)| off.name == line.name && during(time, l.at));
    let removed = removed.map(|(l, removed)| (l, removed.tip.as_ref(), removed.count as usize, None));
    let mut happened: Vec<_> = moved.chain(removed).collect();
    happened.put_in_order_by_key(|(l, ..)| (l.at, l.entry.seq));
    for (l, tip, count, moved) in happened {
        let last = line.steps[line.steps.len() - 1];
        let left = last.pieces.saturating_sub(count);
        let off: Length = line.pieces[left.min(line.pieces.len())..last.pieces.min(line.pieces.len())]
            .iter()
            .copied()
            .sum();
        let written = tip.and_then(|depth| references.elevation(depth.value(), l.at));
        let follows = last.tip.filter(|_| tip.is_none()).map(|tip| Elevation(tip.0 + off));
        line.steps.push(TipStep {
            at: l.at,
            tip: written.or(follows),
            pieces: left,
            slowly: moved.and_then(|moved| moved.slowly),
            took: moved.and_then(|moved| moved.took.as_ref()).map(|span| span.value()),
            entry: l.entry.id,
        });
    }
}
