"""Questions beyond one plan: widest strip, extra trim, best side and corners, margins, what is scarce."""
