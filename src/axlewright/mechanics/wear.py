"""What wear leaves of a part's strength."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("k_w", "ratio", source="independent losses multiply (assumption, stated)")
def kept_together(kept_share: Num, further_kept_share: Num) -> Num:
    """Share of strength left when two things were found on the same part."""
    return kept_share * further_kept_share
