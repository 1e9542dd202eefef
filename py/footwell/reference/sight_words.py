"""Words for what a load does, by kind of sight, the worst first (common practice, no source)."""

from collections.abc import Mapping

WORDS: Mapping[str, tuple[str, ...]] = {
    "motor": ("still", "slow", "runs"),
    "turning": ("runs the other way", "still", "slow", "runs"),
    "lamp": ("dark", "glows", "dim", "bright"),
    "heat": ("cold", "lukewarm", "warm"),
    "click": ("no click", "clicks"),
    "sound": ("silent", "weak", "loud"),
    "messages": ("no contact", "errors", "in touch"),
    "signal": ("signal missing", "signal too low", "signal right", "signal too high"),
    "charge": ("goes flat", "gets weak", "holds its charge", "gasses"),
}

DEAD: Mapping[str, tuple[str, str]] = {
    "motor": ("still", "Dead in every position"),
    "turning": ("still", "Does not move in any position"),
    "lamp": ("dark", "Dark in every position"),
    "heat": ("cold", "Cold in every position"),
    "click": ("no click", "No click in any position"),
    "sound": ("silent", "Silent in every position"),
    "messages": ("no contact", "No contact in any position"),
    "signal": ("signal missing", "No signal in any position"),
    "charge": ("goes flat", "Goes flat in every position"),
}
"""The word for a load that does nothing at all, and what people say of one that never does anything
(common practice, no source)."""
