"""Counts what a script checked, says what failed, and ends with the counts."""

PASSED = FAILED = 0


def check(what, holds, told=""):
    """Counts one check; a failed one is told."""
    global PASSED, FAILED
    if holds:
        PASSED += 1
    else:
        FAILED += 1
        print(f"    FAILED: {what} {told}")


def ended():
    """Prints the counts; 0 where something was checked and nothing failed, else 1."""
    print(f"{PASSED} passed, {FAILED} failed")
    return 0 if FAILED == 0 and PASSED > 0 else 1
