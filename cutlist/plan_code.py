"""The short code of a plan: it stands on every sheet and file, so that old and new never mix."""

from __future__ import annotations

import base64
import hashlib
import json

__all__ = ["short_code"]


def short_code(*content: object) -> str:
    """Eight letters and digits, in two groups, from plain data (SHA-256 of its JSON, base 32)."""
    text = json.dumps(content, sort_keys=True)
    code = base64.b32encode(hashlib.sha256(text.encode()).digest()).decode()[:8]
    return f"{code[:4]}-{code[4:]}"
