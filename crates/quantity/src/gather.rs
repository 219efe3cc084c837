//! Gathers items into maps and sets with one piece of code less for each type.
//!
//! `collect` puts all items in order first, with a sort that is written out anew for every type it meets, some
//! four kilobytes each ([`InOrder`](crate::InOrder) says why that matters). Here they are put in one by one.
//!
//! Never: give anything else than `collect` would.

use std::collections::{BTreeMap, BTreeSet};

/// Items that can be gathered.
pub trait Gather: Iterator + Sized {
    /// A map of pairs; of equal keys the last value stays.
    fn into_map<K: Ord, V>(self) -> BTreeMap<K, V>
    where
        Self: Iterator<Item = (K, V)>,
    {
        let mut map = BTreeMap::new();
        map.extend(self);
        map
    }

    /// A set.
    fn into_set(self) -> BTreeSet<Self::Item>
    where
        Self::Item: Ord,
    {
        let mut set = BTreeSet::new();
        set.extend(self);
        set
    }
}

impl<I: Iterator> Gather for I {}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_is_gathered_is_what_the_standard_library_collects(
            list in prop::collection::vec((0..9_u8, any::<u16>()), 0..60),
        ) {
            let (map, set) = (list.iter().copied().into_map(), list.iter().copied().into_set());
            prop_assert_eq!(map, list.iter().copied().collect::<BTreeMap<_, _>>());
            prop_assert_eq!(set, list.iter().copied().collect::<BTreeSet<_>>());
        }
    }
}
