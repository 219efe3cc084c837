//! Proving the signatures of many lines: what is the same for every line of one device is worked out once.
//!
//! `is_sealed` doubles and adds points of the curve for both the device's key and the base point. With a table
//! of multiples of the key at hand only additions are left. The table is made once a device has signed so many
//! lines that it pays.
//!
//! Words: *table* = multiples of a device's key, negated.
//! Never: give another answer than `is_sealed`. A sum over several signatures at once is not made, because it
//! can vanish for signatures of which each alone is refused.

use crate::key::is_sealed;
use curve25519_dalek::Scalar;
use curve25519_dalek::constants::ED25519_BASEPOINT_TABLE;
use curve25519_dalek::edwards::EdwardsBasepointTable;
use curve25519_dalek::traits::BasepointTable;
use ed25519_dalek::VerifyingKey;
use record::{DeviceId, Seal};
use sha2::{Digest, Sha512};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

/// Lines of a device after which its table is made; making it takes about as long as proving so many.
const WORTH: usize = 32;

/// Devices that get a table, of 30 kB each. A job has a few devices; a file made to fill the memory has many.
const TABLES: usize = 64;

/// Proves signatures, the faster the more of them one device made.
#[derive(Clone, Default)]
pub(crate) struct Seals {
    seen: BTreeMap<DeviceId, usize>,
    tables: BTreeMap<DeviceId, Arc<EdwardsBasepointTable>>,
}

impl Seals {
    /// Whether a device signed these bytes. [RFC-8032] 5.1.7, as strict as `is_sealed`.
    pub(crate) fn is_sealed(&mut self, device: &DeviceId, bytes: &[u8], seal: &Seal) -> bool {
        if let Some(table) = self.tables.get(device) {
            return fits(table, device, bytes, seal);
        }
        self.count(device);
        is_sealed(device, bytes, seal)
    }

    /// One more line of a device without a table.
    fn count(&mut self, device: &DeviceId) {
        if self.tables.len() >= TABLES {
            return;
        }
        let seen = self.seen.entry(*device).or_default();
        *seen += 1;
        if *seen == WORTH
            && let Some(table) = table(device)
        {
            self.tables.insert(*device, Arc::new(table));
        }
    }
}

impl fmt::Debug for Seals {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Seals of {} devices, {} tables", self.seen.len(), self.tables.len())
    }
}

/// The table of a device; `None` for what is no key, or one that would sign anything.
fn table(device: &DeviceId) -> Option<EdwardsBasepointTable> {
    let key = VerifyingKey::from_bytes(&device.0).ok().filter(|key| !key.is_weak())?;
    Some(EdwardsBasepointTable::create(&-key.to_edwards()))
}

/// The equation `is_sealed` asks for: R is the canonical spelling of sB − kA and no point of small order, and s is
/// below the order of the group. R is never read as a point: a spelling that equals a canonical one is one.
fn fits(table: &EdwardsBasepointTable, device: &DeviceId, bytes: &[u8], seal: &Seal) -> bool {
    let (r, s) = seal.0.split_at(32);
    let s: Option<Scalar> = s.try_into().ok().and_then(|s| Scalar::from_canonical_bytes(s).into());
    let Some(s) = s else { return false };
    let hash = Sha512::new().chain_update(r).chain_update(device.0).chain_update(bytes).finalize();
    let k = Scalar::from_bytes_mod_order_wide(&hash.into());
    let expected = ED25519_BASEPOINT_TABLE * &s + table * &k;
    !expected.is_small_order() && expected.compress().as_bytes() == r
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Key;
    use curve25519_dalek::constants::EIGHT_TORSION;
    use curve25519_dalek::edwards::EdwardsPoint;
    use proptest::prelude::*;

    /// The answer, the same by both ways; without a table only the strict way counts.
    #[track_caller]
    fn check(device: &DeviceId, bytes: &[u8], seal: &Seal) -> bool {
        let strict = is_sealed(device, bytes, seal);
        let told = table(device).is_some_and(|table| fits(&table, device, bytes, seal));
        assert_eq!(told, strict, "{device} {seal}");
        strict
    }

    #[test]
    fn every_bit_of_a_signature_and_of_what_is_signed_counts() {
        let (key, message) = (Key::of_secret([7; 32]), b"41 ft".to_owned());
        let seal = key.seal(&message);
        assert!(check(&key.device(), &message, &seal));
        for bit in 0..512 {
            let mut other = seal;
            other.0[bit / 8] ^= 1 << (bit % 8);
            assert!(!check(&key.device(), &message, &other), "bit {bit}");
        }
        for bit in 0..message.len() * 8 {
            let mut other = message;
            other[bit / 8] ^= 1 << (bit % 8);
            assert!(!check(&key.device(), &other, &seal), "bit {bit} of the message");
        }
    }

    /// A signature made by whoever may choose every point: key and R each with a part of small order.
    fn crafted(message: &[u8], of_key: EdwardsPoint, r: Scalar, of_r: EdwardsPoint) -> (DeviceId, Seal) {
        let a = Scalar::from(0x5348_4654_u64);
        let key = DeviceId((EdwardsPoint::mul_base(&a) + of_key).compress().to_bytes());
        let spelled = (EdwardsPoint::mul_base(&r) + of_r).compress();
        let hash = Sha512::new().chain_update(spelled.0).chain_update(key.0).chain_update(message).finalize();
        let s = r + Scalar::from_bytes_mod_order_wide(&hash.into()) * a;
        let mut seal = [0; 64];
        seal[..32].copy_from_slice(spelled.as_bytes());
        seal[32..].copy_from_slice(s.as_bytes());
        (key, Seal(seal))
    }

    /// Where proofs of one and of many are known to part: parts of small order that cancel now and then.
    #[test]
    fn parts_of_small_order_are_judged_as_strictly() {
        let (mut taken, mut refused) = (0, 0);
        for (of_key, of_r) in EIGHT_TORSION.iter().flat_map(|key| EIGHT_TORSION.map(|r| (*key, r))) {
            for message in 0..8_u8 {
                let (key, seal) = crafted(&[message], of_key, Scalar::from(41_u64), of_r);
                if check(&key, &[message], &seal) { taken += 1 } else { refused += 1 }
            }
        }
        assert!(taken > 8 && refused > 8, "both happen: {taken}, {refused}");
    }

    #[test]
    fn an_r_of_small_order_is_refused() {
        for of_r in EIGHT_TORSION {
            let (key, seal) = crafted(b"41 ft", EIGHT_TORSION[0], Scalar::ZERO, of_r);
            assert!(!check(&key, b"41 ft", &seal));
        }
    }

    #[test]
    fn a_key_of_small_order_gets_no_table() {
        for point in EIGHT_TORSION {
            assert!(table(&DeviceId(point.compress().to_bytes())).is_none());
        }
        let (one, two) = ([0_u8; 32], 2..=u8::MAX);
        let no_point = two.map(|y| DeviceId([&[y][..], &one[1..]].concat().try_into().expect("32 bytes")));
        let no_key = |device: &DeviceId| VerifyingKey::from_bytes(&device.0).is_err();
        let no_key = no_point.into_iter().find(no_key).expect("half of all spellings name no point");
        assert!(table(&no_key).is_none());
    }

    #[test]
    fn a_table_is_made_when_it_pays_and_the_answers_stay_the_same() {
        let mut seals = Seals::default();
        let (one, other) = (Key::of_secret([7; 32]), Key::of_secret([8; 32]));
        for line in 0..100_u8 {
            let seal = one.seal(&[line]);
            assert!(seals.is_sealed(&one.device(), &[line], &seal));
            assert!(!seals.is_sealed(&one.device(), &[line + 1], &seal));
            assert!(!seals.is_sealed(&other.device(), &[line], &seal));
        }
        assert_eq!(format!("{seals:?}"), "Seals of 2 devices, 2 tables");
    }

    #[test]
    fn a_file_of_very_many_devices_gets_no_more_tables_than_there_is_room_for() {
        let mut seals = Seals::default();
        for number in 0..=u8::try_from(TABLES).expect("small") {
            let key = Key::of_secret([number; 32]);
            for _ in 0..WORTH {
                assert!(seals.is_sealed(&key.device(), b"41 ft", &key.seal(b"41 ft")));
            }
        }
        assert_eq!(seals.tables.len(), TABLES);
    }

    proptest! {
        #[test]
        fn any_bytes_are_judged_the_same(
            secret: [u8; 32], message: Vec<u8>, r: [u8; 32], s: [u8; 32], honest: bool,
        ) {
            let key = Key::of_secret(secret);
            let mut seal = key.seal(&message);
            if !honest {
                seal.0[..32].copy_from_slice(&r);
                seal.0[32..].copy_from_slice(&s);
            }
            prop_assert_eq!(check(&key.device(), &message, &seal), honest);
        }
    }
}
