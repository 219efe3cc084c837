"""Verifies a Shaftbook record: python3 verify-record.py FILE   (pip install rfc8785 cryptography)"""
import hashlib, json, sys
import rfc8785
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey


def fault(line, heads):
    """What is wrong with a line; None when nothing is. `heads` holds the last entry of each device."""
    entry = json.loads(line)
    if rfc8785.dumps(entry).decode() != line:
        return "not in the canonical spelling"
    name, signature, device, seq = entry.pop("id"), entry.pop("sig"), entry["device"], entry["seq"]
    signed = rfc8785.dumps(entry)
    if hashlib.sha256(signed).hexdigest() != name:
        return "the id does not follow from the content"
    if (bytes.fromhex(signature).hex(), bytes.fromhex(device).hex()) != (signature, device):
        return "a key or signature in another spelling"
    Ed25519PublicKey.from_public_bytes(bytes.fromhex(device)).verify(bytes.fromhex(signature), signed)
    (last, before), heads[device] = heads.get(device, (0, None)), (seq, name)
    return None if (seq, entry.get("prev")) == (last + 1, before) else "the chain of its device is broken"


passed, failed, heads = 0, 0, {}
lines = [line.rstrip("\r\n") for line in open(sys.argv[1], encoding="utf-8", newline="\n")]
for number, line in ((number, line) for number, line in enumerate(lines, 1) if line.strip()):
    try:
        wrong = fault(line, heads)
    except Exception as error:  # a line that cannot even be taken apart, or a signature that does not fit
        wrong = f"{type(error).__name__} {error}"
    passed, failed = passed + (wrong is None), failed + (wrong is not None)
    if wrong:
        print(f"line {number}: {wrong}")
print(f"{passed} passed, {failed} failed")
sys.exit(0 if passed and not failed else 1)
