"""Seeds made from names, so that the same child, day and wish always give the same page."""

import hashlib


def seed_from(*parts: str | int) -> int:
    """A whole number in 0 .. 2**63 - 1 that depends on every part and on their order.

    The hash is BLAKE2b (RFC 7693), so the value is the same on every machine and Python version.
    """
    text = "\x1f".join(str(part) for part in parts)
    digest = hashlib.blake2b(text.encode(), digest_size=8).digest()
    return int.from_bytes(digest, "big") >> 1
