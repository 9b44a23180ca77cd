"""The folder of straightened tag pictures, one for each tag that was ever read."""

from __future__ import annotations

from pathlib import Path

from intake.errors import BadStash
from intake.filing.record import picture_name
from intake.filing.safe_write import make_folder, replace_file


class TagPictures:
    """Tag pictures (JPEG) by the id of their tag."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def path(self, tag_id: str) -> Path:
        """Where the picture of a tag lies."""
        return self.folder / picture_name(tag_id)

    def save(self, tag_id: str, jpeg: bytes) -> None:
        """Keep a tag's picture.  Raises :class:`NoAccess`."""
        make_folder(self.folder)
        replace_file(self.path(tag_id), lambda file: file.write(jpeg))

    def load(self, tag_id: str) -> bytes:
        """A tag's picture; no bytes where someone took it away.  Raises
        :class:`BadStash`."""
        try:
            return self.path(tag_id).read_bytes()
        except FileNotFoundError:
            return b""
        except OSError as error:
            raise BadStash(f"{self.path(tag_id)} cannot be read ({error.strerror})") from error
