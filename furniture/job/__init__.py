"""A job in the middle: what of the wood that is cut still serves when the design changes."""

from furniture.job.old import Old, OldPart, as_measured, old_of
from furniture.job.packet import PacketError, read_packet
from furniture.job.values import Say, Verdict
from furniture.job.verdicts import verdicts_of

__all__ = [
    "Old",
    "OldPart",
    "PacketError",
    "Say",
    "Verdict",
    "as_measured",
    "old_of",
    "read_packet",
    "verdicts_of",
]
