"""A photo made fit to be shown: decoded, turned upright, copied pixel by pixel, and made smaller.

Nothing but pixels goes into a copy, since a camera writes down where it stood, when, and whose it
is. Pillow does the decoding; it is asked for only when a museum has photos.
"""

from __future__ import annotations

import importlib.util
import struct
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from witnessmark.errors import WitnessmarkError

if TYPE_CHECKING:
    from PIL.Image import Image as Pixels

WIDTHS = (480, 960, 1600)
"""Pixels across: a phone, a phone with a fine screen or a desk, a desk with a fine screen. Common
practice, no source."""

MOST_PHOTO_BYTES = 20 * 1024 * 1024
"""A camera's largest ordinary JPEG is about half of it. Common practice, no source."""

MOST_PIXELS = 50_000_000
"""Decoded, one such photo takes 150 MB; a file of a few bytes can claim far more."""

_FORMATS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP"}
_DAMAGED = (OSError, SyntaxError, ValueError, EOFError, struct.error, IndexError, MemoryError)
"""What Pillow's decoders raise when a file is not what it claims to be."""


@dataclass(frozen=True, slots=True)
class PictureFault:
    """Why a picture cannot be shown, and what puts it right."""

    message: str
    fix: str


@dataclass(frozen=True, slots=True)
class Copy:
    """One copy to be written; `name` is its path where the original's would have been."""

    name: str
    width: int
    height: int
    read: Callable[[], bytes] = field(repr=False, compare=False)

    @classmethod
    def of(cls, name: str, width: int, height: int, content: bytes) -> Copy:
        """A copy whose bytes are at hand."""
        return cls(name, width, height, lambda: content)

    @property
    def content(self) -> bytes:
        """Its bytes, from the disk where they are kept there."""
        return self.read()


def has_pillow() -> bool:
    """True where the library that decodes photos is installed."""
    return importlib.util.find_spec("PIL") is not None


def is_photo(name: str) -> bool:
    """True for a name that says it is a photo.

    >>> is_photo("crane/photos/side.jpg"), is_photo("crane/photos/side.svg")
    (True, False)
    """
    return PurePosixPath(name).suffix in _FORMATS


def photo_fault(name: str, content: bytes) -> PictureFault | None:
    """What keeps a photo from being shown; None when it decodes to its end."""
    opened = _opened(name, content)
    if isinstance(opened, PictureFault):
        return opened
    # An eighth of the pixels tells as well whether the file reaches its end.
    return _decoded(opened, least=1)


def photo_copies(name: str, content: bytes) -> tuple[Copy, ...]:
    """The photo at each width it is large enough for, the smallest first.

    Raises:
        WitnessmarkError: the photo has a fault; `photo_fault` tells it beforehand.

    """
    opened = _opened(name, content)
    fault = opened if isinstance(opened, PictureFault) else _decoded(opened, least=WIDTHS[-1])
    if isinstance(opened, PictureFault) or fault:
        found = fault or PictureFault("It cannot be read.", "Copy it again.")
        raise WitnessmarkError(f"{name} cannot be shown. {found.message}", remedy=found.fix)
    return tuple(_copies(name, _only_pixels(opened)))


def copy_name(name: str, width: int, *, suffix: str) -> str:
    """The path of a copy, which tells the original and the width.

    >>> copy_name("crane/photos/side.jpg", 960, suffix=".jpg")
    'crane/photos/side-jpg-960.jpg'
    """
    path = PurePosixPath(name)
    return str(path.with_name(f"{path.stem}-{path.suffix[1:]}-{width}{suffix}"))


def _opened(name: str, content: bytes) -> Pixels | PictureFault:
    """The photo with its head read and no pixel decoded."""
    from PIL import Image

    if len(content) > MOST_PHOTO_BYTES:
        return _too_many(f"It holds more than {MOST_PHOTO_BYTES // 1024 // 1024} MB.")
    wanted = _FORMATS[PurePosixPath(name).suffix]
    try:
        image = Image.open(BytesIO(content), formats=("JPEG", "PNG", "WEBP"))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        return _too_many("It claims to be far larger than any photo.")
    except _DAMAGED:
        return PictureFault(
            "It holds no JPEG, PNG or WebP picture that can be read.",
            "Save the photo as JPEG, PNG or WebP and give its name the ending of what it is.",
        )
    if image.width * image.height > MOST_PIXELS:
        return _too_many(f"It is {image.width} by {image.height} pixels.")
    # A telephone's JPEG with a second picture inside is told apart as MPO; the first one is shown.
    held = "JPEG" if image.format == "MPO" else str(image.format)
    if held != wanted:
        ending = next(suffix for suffix, kind in _FORMATS.items() if kind == held)
        return PictureFault(
            f"Its name says {wanted}, and it holds {held}.", f"Let its name end in {ending}."
        )
    return image


def _too_many(what: str) -> PictureFault:
    return PictureFault(
        f"{what} A photo holds at most {MOST_PIXELS // 1_000_000} million pixels and "
        f"{MOST_PHOTO_BYTES // 1024 // 1024} MB.",
        "Save a copy about 2000 pixels across here, and keep the original elsewhere.",
    )


def _decoded(image: Pixels, *, least: int) -> PictureFault | None:
    """Decode the pixels, of a JPEG only as finely as wanted; tells when they break off."""
    from PIL import ImageFile

    # Other libraries of the process, weasyprint among them, let broken pictures pass for all.
    lenient, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        image.draft(None, (least, least))
        image.load()
    except _DAMAGED:
        return PictureFault(
            "The picture breaks off or is damaged.", "Copy it again from where it came from."
        )
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient
    return None


def _only_pixels(image: Pixels) -> Pixels:
    """A new picture of the same pixels, upright, in sRGB, with nothing written beside them."""
    from PIL import Image, ImageOps

    upright = _as_srgb(_on_white(ImageOps.exif_transpose(image)), image.info.get("icc_profile"))
    fresh = Image.new(upright.mode, upright.size)
    fresh.paste(upright)
    return fresh


def _on_white(image: Pixels) -> Pixels:
    """The picture without transparency and with eight bits a colour."""
    from PIL import Image

    if image.mode.startswith("I"):
        # Sixteen bits of grey: the upper eight are kept.
        return image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if image.has_transparency_data:
        seen = image.convert("RGBA")
        white = Image.new("RGBA", seen.size, "white")
        return Image.alpha_composite(white, seen).convert("RGB")
    return image if image.mode in {"L", "RGB", "CMYK"} else image.convert("RGB")


def _as_srgb(image: Pixels, profile: object) -> Pixels:
    """The picture in the colours every screen assumes; a profile that cannot be read is none."""
    from PIL import ImageCms

    if isinstance(profile, bytes) and profile:
        try:
            given = ImageCms.ImageCmsProfile(BytesIO(profile))
            ours = ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(image, given, ours, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            turned = None
        if turned is not None:
            return turned
    return image.convert("RGB") if image.mode == "CMYK" else image


def _copies(name: str, image: Pixels) -> Iterator[Copy]:
    from PIL import Image

    suffix = ".png" if name.endswith(".png") else ".jpg"
    for width in _widths(image.width):
        height = max(1, round(image.height * width / image.width))
        smaller = image.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0)
        yield Copy.of(copy_name(name, width, suffix=suffix), width, height, _saved(smaller, suffix))


def _widths(most: int) -> list[int]:
    """The widths below the photo's own, and its own up to the largest; none is blown up."""
    return [width for width in WIDTHS if width < most] + [most] * (most <= WIDTHS[-1])


def _saved(image: Pixels, suffix: str) -> bytes:
    file = BytesIO()
    if suffix == ".png":
        image.save(file, "PNG", optimize=True)
    else:
        # Quality 82 shows no blocks on a photo. Common practice, no source.
        image.save(file, "JPEG", quality=82, optimize=True, progressive=True)
    return file.getvalue()
