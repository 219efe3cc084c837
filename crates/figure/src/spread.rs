//! Keeps labels in a column apart while moving each as little as possible.
//!
//! Two levels an inch apart in the shaft would print one label over the other; the labels are pushed
//! apart and a leader shows where each belongs.
//!
//! Units: points.

/// New places for labels that want to stand at `wanted`, at least `apart` from each other, inside `room`.
///
/// The order of the wishes is kept (equal wishes in the order given). When they do not fit with that
/// distance they share the room evenly.
pub(crate) fn spread(wanted: &[f64], apart: f64, room: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|&a, &b| wanted[a].total_cmp(&wanted[b]));
    let gaps = wanted.len().saturating_sub(1).max(1) as f64;
    let apart = apart.min((room.1 - room.0) / gaps);
    let mut blocks: Vec<Block> = Vec::new();
    for &index in &order {
        blocks.push(Block { sum: wanted[index], count: 1.0 });
        merge_back(&mut blocks, apart, room);
    }
    let mut places = vec![0.0; wanted.len()];
    let mut next = order.into_iter();
    for block in &blocks {
        let first = block.first(apart, room);
        for (step, index) in next.by_ref().take(block.count as usize).enumerate() {
            places[index] = first + step as f64 * apart;
        }
    }
    places
}

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

    proptest! {
        #[test]
        fn labels_never_come_closer_than_asked(wanted in prop::collection::vec(0.0..300.0f64, 0..25)) {
            let mut places = spread(&wanted, 9.0, (0.0, 300.0));
            places.sort_by(f64::total_cmp);
            for pair in places.windows(2) {
                prop_assert!(pair[1] - pair[0] >= 9.0 - 1e-6, "{places:?}");
            }
            for place in places {
                prop_assert!((-1e-6..=300.0 + 1e-6).contains(&place), "{place}");
            }
        }
    }
}
