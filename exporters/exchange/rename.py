"""Two names exchanged in one step, where the system can: nobody ever finds neither or both."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from pathlib import Path

_HERE = -100
"""AT_FDCWD of Linux: the path is taken as it is. Source: open(2), from memory."""
_EXCHANGE = 2
"""RENAME_EXCHANGE of Linux's renameat2(2) and RENAME_SWAP of macOS's renamex_np(2); from memory."""
_NOT_HERE = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}


def exchange_names(first: Path, second: Path) -> bool:
    """Whether the two were exchanged; false where the system or the disk cannot do it.

    Args:
        first: a file or folder that exists.
        second: another on the same disk.

    Raises:
        OSError: it can, but not with these.
    """
    if sys.platform == "win32":
        return False
    library = ctypes.CDLL(None, use_errno=True)
    one, other = os.fsencode(first), os.fsencode(second)
    if hasattr(library, "renameat2"):
        failed = library.renameat2(_HERE, one, _HERE, other, ctypes.c_uint(_EXCHANGE))
    elif hasattr(library, "renamex_np"):
        failed = library.renamex_np(one, other, ctypes.c_uint(_EXCHANGE))
    else:
        return False
    if not failed:
        return True
    number = ctypes.get_errno()
    if number in _NOT_HERE:
        return False
    raise OSError(number, os.strerror(number), str(second))
