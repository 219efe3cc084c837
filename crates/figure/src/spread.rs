//! Keeps labels in a column apart while moving each as little as possible.
//!
//! Two levels an inch apart in the shaft would print one label over the other; the labels are pushed
//! apart and a leader shows where each belongs.
//!
//! Units: points.

use quantity::InOrder;

/// New places for labels that want to stand at `wanted`, at least `apart` from each other, inside `room`.
///
/// The order of the wishes is kept (equal wishes in the order given). When they do not fit with that
/// distance they share the room evenly.
pub(crate) fn spread(wanted: &[f64], apart: f64, room: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.put_in_order_by(|&a, &b| wanted[a].total_cmp(&wanted[b]));
    place(wanted, &order, apart, room)
}

fn place(wanted: &[f64], order: &[usize], apart: f64, room: (f64, f64)) -> Vec<f64> {
    let gaps = wanted.len().saturating_sub(1).max(1) as f64;
    let apart = apart.min((room.1 - room.0) / gaps);
    let mut blocks: Vec<Block> = Vec::new();
    for &index in order {
        blocks.push(Block { sum: wanted[index], count: 1.0 });
        merge_back(&mut blocks, apart, room);
    }
    let mut places = vec![0.0; wanted.len()];
    let mut next = order.iter().copied();
    for block in &blocks {
        let first = block.first(apart, room);
        for (step, index) in next.by_ref().take(block.count as usize).enumerate() {
            places[index] = first + step as f64 * apart;
        }
    }
    places
}

/// Like `spread` for labels of different widths: `(wanted middle, width)` in any order, middles out.
///
/// The labels are laid out as if each were a point after taking out the widths before it. When they do not
/// fit together they run out of the room at its end.
pub(crate) fn spread_wide(labels: &[(f64, f64)], room: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..labels.len()).collect();
    order.put_in_order_by(|&a, &b| labels[a].0.total_cmp(&labels[b].0));
    let total: f64 = labels.iter().map(|label| label.1).sum();
    let mut before = vec![0.0; labels.len()];
    let mut sum = 0.0;
    for &index in &order {
        before[index] = sum + labels[index].1 / 2.0;
        sum += labels[index].1;
    }
    let wanted: Vec<f64> = labels.iter().zip(&before).map(|(label, before)| label.0 - before).collect();
    let mut places = place(&wanted, &order, 0.0, (room.0, (room.1 - total).max(room.0)));
    for (place, before) in places.iter_mut().zip(&before) {
        *place += before;
    }
    places
}

/// How a column of labels is set when it has to fit a height: two rows each, one row each, or not all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Column {
    /// From one label to the next, points.
    pub(crate) apart: f64,
    /// Each label has its second row.
    pub(crate) two_rows: bool,
    /// So many labels fit.
    pub(crate) shown: usize,
}

impl Column {
    /// The roomiest setting with which `count` labels fit into `height`.
    pub(crate) fn fitting(count: usize, height: f64) -> Self {
        let needed = |apart: f64| count.saturating_sub(1) as f64 * apart;
        let (two_rows, apart) = if needed(TWO_ROWS) <= height { (true, TWO_ROWS) } else { (false, ONE_ROW) };
        let most = (height.max(0.0) / apart) as usize + 1;
        Column { apart, two_rows, shown: count.min(most) }
    }
}

const TWO_ROWS: f64 = 19.5;
const ONE_ROW: f64 = 9.5;

/// Labels that touch and move together: the sum of their wishes and how many they are.
struct Block {
    sum: f64,
    count: f64,
}

impl Block {
    /// Where the first of the block stands so that the block is centred on its wishes and inside the room.
    fn first(&self, apart: f64, room: (f64, f64)) -> f64 {
        let length = (self.count - 1.0) * apart;
        (self.sum / self.count - length / 2.0).min(room.1 - length).max(room.0)
    }

    fn last(&self, apart: f64, room: (f64, f64)) -> f64 {
        self.first(apart, room) + (self.count - 1.0) * apart
    }
}

fn merge_back(blocks: &mut Vec<Block>, apart: f64, room: (f64, f64)) {
    while let [.., before, last] = blocks.as_slice() {
        if before.last(apart, room) + apart <= last.first(apart, room) + 1e-9 {
            return;
        }
        let last = blocks.pop().expect("there are two");
        let before = blocks.last_mut().expect("there was one before it");
        before.sum += last.sum;
        before.count += last.count;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn labels_that_have_room_stay_where_they_are() {
        assert_eq!(spread(&[10.0, 40.0], 9.0, (0.0, 100.0)), [10.0, 40.0]);
        assert_eq!(spread(&[50.0, 50.0, 50.0], 10.0, (0.0, 100.0)), [40.0, 50.0, 60.0]);
        assert_eq!(spread(&[99.0, 98.0], 10.0, (0.0, 100.0)), [100.0, 90.0]);
        assert_eq!(spread(&[], 10.0, (0.0, 100.0)), [0.0; 0]);
    }

    #[test]
    fn labels_of_different_widths_touch_but_do_not_overlap() {
        assert_eq!(spread_wide(&[(50.0, 20.0), (52.0, 40.0)], (0.0, 200.0)), [36.0, 66.0]);
        assert_eq!(spread_wide(&[(5.0, 20.0), (150.0, 40.0)], (0.0, 200.0)), [10.0, 150.0]);
    }

    proptest! {
        #[test]
        fn wide_labels_never_overlap(labels in prop::collection::vec((0.0..300.0f64, 1.0..14.0f64), 0..20)) {
            let places = spread_wide(&labels, (0.0, 300.0));
            let mut spans: Vec<_> =
                places.iter().zip(&labels).map(|(x, l)| (x - l.1 / 2.0, x + l.1 / 2.0)).collect();
            spans.put_in_order_by(|a, b| a.0.total_cmp(&b.0));
            for pair in spans.windows(2) {
                prop_assert!(pair[0].1 <= pair[1].0 + 1e-6, "{spans:?}");
            }
        }

        #[test]
        fn labels_never_come_closer_than_asked(wanted in prop::collection::vec(0.0..300.0f64, 0..25)) {
            let mut places = spread(&wanted, 9.0, (0.0, 300.0));
            places.put_in_order_by(f64::total_cmp);
            for pair in places.windows(2) {
                prop_assert!(pair[1] - pair[0] >= 9.0 - 1e-6, "{places:?}");
            }
            for place in places {
                prop_assert!((-1e-6..=300.0 + 1e-6).contains(&place), "{place}");
            }
        }
    }
}
