"""Files written whole or not at all, and never over another one unless told to."""

import os
import stat
from pathlib import Path

from jobsheets.errors import InputError, Problem


def write(path: Path, data: bytes, *, force: bool = False) -> None:
    """Put `data` into a file: it appears complete under its name, or not at all.

    A file that holds exactly `data` already is left as it is. A device or a pipe is written to as it stands.

    Args:
        path: the file.
        data: all of it.
        force: another file of that name may be replaced.

    Raises:
        InputError: a file of that name stands there, or the folder or the disk does not take it.
    """
    try:
        _write(path.resolve(), data, force)
    except FileExistsError:
        raise _refused(
            path, "a file of this name stands here", "--force to replace it, or another -o"
        ) from None
    except OSError as exc:
        if isinstance(exc, BrokenPipeError):
            raise
        right = "a folder that exists and may be written, with room on the disk"
        raise _refused(path, f"cannot be written ({exc.strerror or exc})", right) from None


def _write(path: Path, data: bytes, force: bool) -> None:
    old = path.stat() if path.exists() else None
    if old is not None and not stat.S_ISREG(old.st_mode):
        with path.open("wb") as device:
            device.write(data)
        return
    if old is not None and not force:
        if old.st_size == len(data) and path.read_bytes() == data:
            return
        raise FileExistsError
    draft = path.parent / f".jobsheets-{os.urandom(4).hex()}.part"
    try:
        with draft.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if old is not None:
            draft.chmod(stat.S_IMODE(old.st_mode))
        _name(draft, path, force)
    finally:
        draft.unlink(missing_ok=True)


def _name(draft: Path, path: Path, force: bool) -> None:
    """Give the finished file its name; without `force` not even a file made this instant is lost."""
    if force:
        draft.replace(path)
        return
    try:
        os.link(draft, path)
    except FileExistsError:
        raise
    except OSError:  # a disk without hard links, such as a memory stick
        if path.exists():
            raise FileExistsError from None
        draft.replace(path)


def _refused(path: Path, wrong: str, right: str) -> InputError:
    return InputError((Problem(file=str(path), line=0, field="", found="", wrong=wrong, right=right),))
