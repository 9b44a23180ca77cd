"""The folder of straightened tag pictures, one for each tag that was ever read."""

from __future__ import annotations

from pathlib import Path

from intake.filing.record import picture_name
from intake.filing.safe_write import cannot_read, make_folder, replace_file

_JPEG_START = b"\xff\xd8\xff"
"""The marker that begins a JPEG picture, and the first byte of the next (ISO/IEC 10918-1,
B.1.1.3: SOI)."""


class TagPictures:
    """Tag pictures (JPEG) by the id of their tag."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def path(self, tag_id: str) -> Path:
        """Where the picture of a tag lies."""
        return self.folder / picture_name(tag_id)

    def has(self, tag_id: str) -> bool:
        """Whether there is a picture of a tag, whatever someone made of its id."""
        try:
            return self.path(tag_id).is_file()
        except OSError:  # such as a name that is too long
            return False

    def save(self, tag_id: str, jpeg: bytes) -> None:
        """Keep a tag's picture.  Raises :class:`NoAccess`."""
        make_folder(self.folder)
        replace_file(self.path(tag_id), lambda file: file.write(jpeg))

    def load(self, tag_id: str) -> bytes:
        """A tag's picture; no bytes where someone took it away or put there what is none.
        Raises :class:`BadStash`."""
        path = self.path(tag_id)
        try:
            if not path.is_file():  # a pipe would be waited for without end
                return b""
            with path.open("rb") as file:
                head = file.read(len(_JPEG_START))
                return head + file.read() if head == _JPEG_START else b""
        except FileNotFoundError:
            return b""
        except OSError as error:
            raise cannot_read(path, error) from error
