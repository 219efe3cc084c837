//! Puts lists in order with one piece of code for lists of everything.
//!
//! The sort of the standard library is written out anew for every type it meets, some four kilobytes each; on a
//! tablet that has to download it, sixty of them weigh more than all formulas together. Here the places are
//! sorted, which are numbers whatever stands there, and the list follows them.
//!
//! Never: change the places of equals.

use std::cmp::Ordering;

/// Lists that can be put in order.
pub trait InOrder<T> {
    /// Puts the list in the order of its items; equals keep their order.
    fn put_in_order(&mut self)
    where
        T: Ord;

    /// Puts the list in the order that `compare` says; equals keep their order.
    fn put_in_order_by(&mut self, compare: impl FnMut(&T, &T) -> Ordering);

    /// Puts the list in the order of a key; equals keep their order. The key is made at each comparison.
    fn put_in_order_by_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K);

    /// The same with a key that is made once for each item.
    fn put_in_order_by_made_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K);
}

impl<T> InOrder<T> for [T] {
    fn put_in_order(&mut self)
    where
        T: Ord,
    {
        let places = places(self.len(), &mut |a, b| self[a].cmp(&self[b]));
        arrange(self, places);
    }

    fn put_in_order_by(&mut self, mut compare: impl FnMut(&T, &T) -> Ordering) {
        let places = places(self.len(), &mut |a, b| compare(&self[a], &self[b]));
        arrange(self, places);
    }

    fn put_in_order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        let places = places(self.len(), &mut |a, b| key(&self[a]).cmp(&key(&self[b])));
        arrange(self, places);
    }

    fn put_in_order_by_made_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K) {
        let keys: Vec<K> = self.iter().map(key).collect();
        let places = places(self.len(), &mut |a, b| keys[a].cmp(&keys[b]));
        arrange(self, places);
    }
}

/// For each place of a list in order, the place in the list as it is.
#[inline(never)]
fn places(count: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|a, b| compare(*a, *b));
    places
}

/// Moves every item to its place, round by round: what stands in its place is not moved again.
fn arrange<T>(list: &mut [T], mut places: Vec<usize>) {
    for start in 0..list.len() {
        let mut here = start;
        loop {
            let from = std::mem::replace(&mut places[here], here);
            if from == start || from == here {
                break;
            }
            list.swap(here, from);
            here = from;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_order_is_that_of_the_standard_library(list in prop::collection::vec((0..9_u8, any::<u16>()), 0..60)) {
            let sorted = |sort: fn(&mut Vec<(u8, u16)>)| {
                let mut list = list.clone();
                sort(&mut list);
                list
            };
            prop_assert_eq!(sorted(|list| list.put_in_order()), sorted(|list| list.sort()));
            let by_key = sorted(|list| list.sort_by_key(|item| item.0));
            prop_assert_eq!(sorted(|list| list.put_in_order_by_key(|item| item.0)), by_key.clone());
            prop_assert_eq!(sorted(|list| list.put_in_order_by_made_key(|item| item.0)), by_key);
            let down = sorted(|list| list.sort_by_key(|one| std::cmp::Reverse(one.0)));
            prop_assert_eq!(sorted(|list| list.put_in_order_by(|a, b| b.0.cmp(&a.0))), down);
        }
    }
}
