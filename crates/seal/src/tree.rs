//! A tree of hashes over a list of lines: one number for all of them, and a short proof for each.
//!
//! It is the tree certificate logs use, so that a stranger finds it described, and checked, elsewhere. A leaf and a
//! node are hashed with different first bytes, so that no line can pass for a part of the tree.
//!
//! Words: *root* = the hash of the whole list; *path* = the hashes beside the way from a line up to the root.
//! Source: [RFC-9162] 2.1.
//! Never: put the lines in order; whoever calls decides what the list is.

use wire::sha256;

/// A hash of the tree.
pub type Hash = [u8; 32];

/// First byte of what is hashed for a line, and for two parts of the tree.
const LEAF: u8 = 0;
const NODE: u8 = 1;

/// The hash of the whole list. [RFC-9162] 2.1.1.
pub fn root(lines: &[&[u8]]) -> Hash {
    match lines {
        [] => sha256(&[]),
        [line] => leaf(line),
        _ => {
            let (left, right) = lines.split_at(split(lines.len()));
            node(&root(left), &root(right))
        }
    }
}

/// The hashes beside the way from the line at `index` up to the root, nearest first; `None`: no such line.
/// [RFC-9162] 2.1.3.1.
pub fn path(lines: &[&[u8]], index: usize) -> Option<Vec<Hash>> {
    if index >= lines.len() {
        return None;
    }
    if lines.len() == 1 {
        return Some(Vec::new());
    }
    let (left, right) = lines.split_at(split(lines.len()));
    let (mut inner, beside) = match index < left.len() {
        true => (path(left, index)?, root(right)),
        false => (path(right, index - left.len())?, root(left)),
    };
    inner.push(beside);
    Some(inner)
}

/// The root to which a line leads along a path, in a list of so many; `None`: the path does not fit that place.
/// [RFC-9162] 2.1.3.2.
pub fn led_to(line: &[u8], (index, size): (usize, usize), path: &[Hash]) -> Option<Hash> {
    if index >= size {
        return None;
    }
    let (mut at, mut last, mut hash) = (index, size - 1, leaf(line));
    for beside in path {
        if last == 0 {
            return None;
        }
        if at % 2 == 1 || at == last {
            hash = node(beside, &hash);
            while at.is_multiple_of(2) && at != 0 {
                (at, last) = (at / 2, last / 2);
            }
        } else {
            hash = node(&hash, beside);
        }
        (at, last) = (at / 2, last / 2);
    }
    (last == 0).then_some(hash)
}

fn leaf(line: &[u8]) -> Hash {
    sha256(&[&[LEAF][..], line].concat())
}

fn node(left: &Hash, right: &Hash) -> Hash {
    sha256(&[&[NODE][..], left, right].concat())
}

/// The greatest power of two below a length of two or more.
fn split(length: usize) -> usize {
    let half = length.next_power_of_two() / 2;
    if half == length { half / 2 } else { half }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn hex(hash: &Hash) -> String {
        hash.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// Eight lines, and the roots of the first so many. The lines and roots are those the tests of certificate logs have
    /// used since [RFC-6962]; quoted from memory, and computed again with hashlib in tests/reference/tree_check.py.
    #[test]
    fn the_roots_are_those_of_certificate_logs() {
        let lines: [&[u8]; 8] = [
            b"",
            b"\x00",
            b"\x10",
            b"\x20\x21",
            b"\x30\x31",
            b"\x40\x41\x42\x43",
            b"\x50\x51\x52\x53\x54\x55\x56\x57",
            b"\x60\x61\x62\x63\x64\x65\x66\x67\x68\x69\x6a\x6b\x6c\x6d\x6e\x6f",
        ];
        let roots = [
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
            "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
            "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
            "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
            "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
            "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
            "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
            "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
        ];
        for (count, expected) in roots.iter().enumerate() {
            assert_eq!(hex(&root(&lines[..count])), *expected, "{count} lines");
        }
    }

    fn lines() -> impl Strategy<Value = Vec<Vec<u8>>> {
        prop::collection::vec(prop::collection::vec(any::<u8>(), 0..8), 1..40)
    }

    proptest! {
        #[test]
        fn every_line_leads_to_the_root_from_its_own_place_only(lines in lines()) {
            let lines: Vec<&[u8]> = lines.iter().map(Vec::as_slice).collect();
            let whole = root(&lines);
            for (index, line) in lines.iter().enumerate() {
                let path = path(&lines, index).expect("it is there");
                prop_assert_eq!(led_to(line, (index, lines.len()), &path), Some(whole));
                let other = (index + 1) % lines.len();
                if lines[other] != *line {
                    prop_assert_ne!(led_to(lines[other], (index, lines.len()), &path), Some(whole));
                }
            }
        }

        #[test]
        fn a_line_more_less_or_changed_gives_another_root(lines in lines(), at: prop::sample::Index, bit in 0_u8..8) {
            let borrowed = |lines: &[Vec<u8>]| root(&lines.iter().map(Vec::as_slice).collect::<Vec<_>>());
            let (whole, at) = (borrowed(&lines), at.index(lines.len()));
            let mut less = lines.clone();
            less.remove(at);
            prop_assert_ne!(borrowed(&less), whole);
            let mut more = lines.clone();
            more.insert(at, b"one more".to_vec());
            prop_assert_ne!(borrowed(&more), whole);
            let mut changed = lines;
            match changed[at].first_mut() {
                Some(byte) => *byte ^= 1 << bit,
                None => changed[at].push(bit),
            }
            prop_assert_ne!(borrowed(&changed), whole);
        }
    }

    #[test]
    fn there_is_no_path_to_a_line_that_is_not_there() {
        assert_eq!(path(&[b"a"], 1), None);
        assert_eq!(led_to(b"a", (1, 1), &[]), None);
        assert_eq!(led_to(b"a", (0, 1), &[[0; 32]]), None, "a path longer than the way");
    }
}
