"""Recomputes every tree of hashes of the seal crate from the definition in RFC 9162, 2.1, with hashlib alone.

    python tests/reference/tree_check.py TABLE.jsonl

The table comes from `cargo run -p seal --example tree_table`. For each list of lines the root is computed by the
recursive definition (2.1.1), each path by the definition of an inclusion proof (2.1.3.1), and each line is led along
*our* path by the algorithm for a verifier (2.1.3.2), which knows nothing of the list. The eight lines and nine roots
that certificate logs have used since RFC 6962 are computed too (lines and roots from memory). Ends with the counts; the
exit code is 1 when anything disagrees, 2 when nothing can be compared.
"""

import hashlib
import json
import sys

KNOWN_LINES = ["", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"]
KNOWN_ROOTS = [
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
]


def sha256(data):
    return hashlib.sha256(data).digest()


def largest_power_of_two_below(n):
    k = 1
    while 2 * k < n:
        k *= 2
    return k


def root(lines):
    """MTH, 2.1.1."""
    if not lines:
        return sha256(b"")
    if len(lines) == 1:
        return sha256(b"\x00" + lines[0])
    k = largest_power_of_two_below(len(lines))
    return sha256(b"\x01" + root(lines[:k]) + root(lines[k:]))


def path(m, lines):
    """PATH(m, D_n), 2.1.3.1."""
    if len(lines) == 1:
        return []
    k = largest_power_of_two_below(len(lines))
    if m < k:
        return path(m, lines[:k]) + [root(lines[k:])]
    return path(m - k, lines[k:]) + [root(lines[:k])]


def led_to(line, index, size, inclusion_path):
    """The verifier of 2.1.3.2; None when the path does not fit."""
    fn, sn, r = index, size - 1, sha256(b"\x00" + line)
    for p in inclusion_path:
        if sn == 0:
            return None
        if fn & 1 or fn == sn:
            r = sha256(b"\x01" + p + r)
            if not fn & 1:
                while fn and not fn & 1:
                    fn >>= 1
                    sn >>= 1
        else:
            r = sha256(b"\x01" + r + p)
        fn >>= 1
        sn >>= 1
    return r if sn == 0 else None


def main():
    passed, failed = 0, 0

    def check(ok, what):
        nonlocal passed, failed
        passed, failed = passed + bool(ok), failed + (not ok)
        if not ok:
            print(f"    disagrees: {what}")

    known = [bytes.fromhex(line) for line in KNOWN_LINES]
    for count, expected in enumerate(KNOWN_ROOTS):
        check(root(known[:count]).hex() == expected, f"the known root over {count} lines")
    rows = [json.loads(row) for row in open(sys.argv[1], encoding="utf-8")]
    if len(rows) < 50:
        print("the table is too short to be the one that is wanted")
        sys.exit(2)
    for row in rows:
        lines = [bytes.fromhex(line) for line in row["lines"]]
        whole = root(lines)
        check(whole.hex() == row["root"], f"the root over {len(lines)} lines")
        check(len(row["paths"]) == len(lines), f"the number of paths over {len(lines)} lines")
        for index, ours in enumerate(row["paths"]):
            ours = [bytes.fromhex(step) for step in ours]
            where = f"line {index} of {len(lines)}"
            check(ours == path(index, lines), f"the path of {where}")
            check(led_to(lines[index], index, len(lines), ours) == whole, f"where the path of {where} leads")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


main()
