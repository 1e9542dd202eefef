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
