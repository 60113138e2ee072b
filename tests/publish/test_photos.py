"""Photos: what a camera writes beside the pixels never leaves the house, and odd files are refused.

Files are made with Pillow; what comes out is read by the letter of the formats: markers of JPEG
(ITU-T T.81, table B.1) and chunks of PNG (W3C, PNG Third Edition, 5.3 and 11).
"""

from __future__ import annotations

import json
import struct
import subprocess
import sys
import zlib
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image, ImageCms, ImageDraw, ImageFile, PngImagePlugin

from building import MACHINE, museum, on_disk
from calling import call
from rendered_site import Markup, site_of
from witnessmark.repository.photos import WIDTHS, photo_copies, photo_fault
from witnessmark.repository.sketches import can_draw, sketch_copies

CANARY = "ztcanaryq"
GPS: dict[int, Any] = {
    ExifTags.GPS.GPSLatitudeRef: "N",
    ExifTags.GPS.GPSLatitude: (51.0, 28.0, 38.0),
    ExifTags.GPS.GPSLongitudeRef: "W",
    ExifTags.GPS.GPSLongitude: (0.0, 0.0, 5.0),
    ExifTags.GPS.GPSProcessingMethod: CANARY,
}
XMP = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'>{CANARY}</x:xmpmeta>".encode()
RED, BLUE = (200, 30, 30), (30, 30, 200)


def scene(width: int = 1800, height: int = 1200) -> Image.Image:
    """Red on the left half, blue on the right."""
    picture = Image.new("RGB", (width, height), RED)
    ImageDraw.Draw(picture).rectangle((width // 2, 0, width, height), fill=BLUE)
    return picture


def told(form: str, picture: Image.Image | None = None, *, turned: int = 1, **more: Any) -> bytes:
    """A photo as a camera might write it: place, serial number, owner, comment, XMP, thumbnail."""
    exif = Image.Exif()
    exif[ExifTags.Base.Artist] = CANARY
    exif[ExifTags.Base.ImageDescription] = CANARY
    exif[ExifTags.Base.Orientation] = turned
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.BodySerialNumber] = CANARY
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.UserComment] = CANARY.encode()
    exif.get_ifd(ExifTags.IFD.GPSInfo).update(GPS)
    exif.get_ifd(ExifTags.IFD.IFD1)[ExifTags.Base.Model] = CANARY
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    more = {"exif": exif, "icc_profile": profile, **more}
    if form == "JPEG":
        more |= {"comment": CANARY.encode(), "xmp": XMP}
    elif form == "WEBP":
        more |= {"xmp": XMP}
    else:
        texts = PngImagePlugin.PngInfo()
        texts.add_text("Author", CANARY)
        texts.add_itxt("XML:com.adobe.xmp", XMP.decode())
        more |= {"pnginfo": texts}
    return saved(picture or scene(), form, **more)


def saved(picture: Image.Image, form: str, **more: Any) -> bytes:
    file = BytesIO()
    picture.save(file, form, **more)
    return file.getvalue()


def jpeg_markers(content: bytes) -> Iterator[int]:
    """The markers of a JPEG up to its first scan."""
    assert content[:2] == b"\xff\xd8"
    here = 2
    while content[here + 1] != 0xDA:
        yield content[here + 1]
        here += 2 + int(struct.unpack(">H", content[here + 2 : here + 4])[0])


def png_chunks(content: bytes) -> Iterator[bytes]:
    here = 8
    while here < len(content):
        length = int(struct.unpack(">I", content[here : here + 4])[0])
        yield content[here + 4 : here + 8]
        here += 12 + length


def chunk(kind: bytes, inside: bytes) -> bytes:
    sum_ = struct.pack(">I", zlib.crc32(kind + inside))
    return struct.pack(">I", len(inside)) + kind + inside + sum_


def claimed_png(width: int, height: int) -> bytes:
    """A PNG of a few bytes that claims any size."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    rows = chunk(b"IDAT", zlib.compress(b"\0" * 64))
    return b"\x89PNG\r\n\x1a\n" + head + rows + chunk(b"IEND", b"")


FORMS = [("side.jpg", "JPEG"), ("side.png", "PNG"), ("side.webp", "WEBP")]


@pytest.mark.parametrize(("name", "form"), FORMS)
def test_the_file_made_for_this_test_does_hold_what_a_camera_writes(name: str, form: str) -> None:
    assert CANARY.encode() in told(form)
    assert GPS[ExifTags.GPS.GPSLatitude] == Image.open(BytesIO(told(form))).getexif().get_ifd(
        ExifTags.IFD.GPSInfo
    ).get(ExifTags.GPS.GPSLatitude)


@pytest.mark.parametrize(("name", "form"), FORMS)
def test_nothing_but_pixels_goes_into_a_copy(name: str, form: str) -> None:
    for copy in photo_copies(f"crane/photos/{name}", told(form)):
        assert CANARY.encode() not in copy.content
        if copy.name.endswith(".png"):
            assert {b"IHDR", b"IDAT", b"IEND"} == set(png_chunks(copy.content))
        else:
            # APP0 (JFIF) is the one marker of an application; APP1 would be EXIF or XMP, APP2 a
            # colour profile, FE a comment.
            markers = set(jpeg_markers(copy.content))
            applications = {marker for marker in markers if 0xE0 <= marker <= 0xEF}
            assert ({0xE0}, False) == (applications, 0xFE in markers)


@pytest.mark.parametrize(("name", "form"), FORMS)
def test_copies_come_in_the_widths_below_the_photos_own(name: str, form: str) -> None:
    sizes = [(copy.width, copy.height) for copy in photo_copies(f"crane/photos/{name}", told(form))]
    assert [(480, 320), (960, 640), (1600, 1067)] == sizes


def test_a_small_photo_is_not_blown_up() -> None:
    copies = photo_copies("crane/photos/a.png", saved(scene(700, 350), "PNG"))
    assert [(480, 240), (700, 350)] == [(copy.width, copy.height) for copy in copies]


@pytest.mark.parametrize(
    ("turned", "place"),
    # Exif 2.32, tag 0x0112: where the first row and column of the file are to be seen. The red
    # half, on the left of the file, comes to stand there.
    [(1, "left"), (3, "right"), (6, "top"), (8, "bottom")],
)
def test_a_photo_is_turned_upright(turned: int, place: str) -> None:
    copy = photo_copies("crane/photos/a.jpg", told("JPEG", turned=turned))[0]
    picture = Image.open(BytesIO(copy.content)).convert("RGB")
    middle = (picture.width // 2, picture.height // 2)
    points = {
        "left": (5, middle[1]),
        "right": (picture.width - 5, middle[1]),
        "top": (middle[0], 5),
        "bottom": (middle[0], picture.height - 5),
    }
    reds = {name: picture.getpixel(point)[0] for name, point in points.items()}  # type: ignore[index]
    assert place == max(reds, key=lambda name: reds[name])


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16"])
def test_every_kind_of_png_can_be_shown(mode: str) -> None:
    picture = scene(600, 400).convert("I").convert("I;16") if mode == "I;16" else scene(600, 400)
    content = saved(picture if mode == "I;16" else picture.convert(mode), "PNG")
    assert [480, 600] == [copy.width for copy in photo_copies("crane/photos/a.png", content)]


def test_sixteen_bits_of_grey_keep_their_shade() -> None:
    grey = Image.new("I", (600, 400), 32768).convert("I;16")
    copy = photo_copies("crane/photos/a.png", saved(grey, "PNG"))[0]
    assert 128 == Image.open(BytesIO(copy.content)).getpixel((5, 5))


def test_what_is_clear_is_shown_on_white() -> None:
    clear = Image.new("RGBA", (600, 400), (255, 0, 0, 0))
    copy = photo_copies("crane/photos/a.png", saved(clear, "PNG"))[0]
    assert (255, 255, 255) == Image.open(BytesIO(copy.content)).getpixel((5, 5))


def test_colours_of_another_profile_are_turned_into_those_of_the_screen() -> None:
    # A profile with the primaries' own white at 1.0 gamma would darken; Lab values are the judge:
    # Pillow's LAB profile puts pure L* 50 grey near sRGB 119 (CIE 15: L* 50 is Y 18.4 %).
    lab = Image.new("LAB", (600, 400), (128, 128, 128))
    rgb = ImageCms.profileToProfile(
        lab, ImageCms.createProfile("LAB"), ImageCms.createProfile("sRGB"), outputMode="RGB"
    )
    assert rgb is not None
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    copy = photo_copies("a/photos/a.jpg", saved(rgb, "JPEG", icc_profile=profile, quality=95))[0]
    pixel = Image.open(BytesIO(copy.content)).getpixel((5, 5))
    assert isinstance(pixel, tuple)
    assert all(abs(value - 119) <= 2 for value in pixel)


def test_a_profile_that_cannot_be_read_is_left_aside() -> None:
    content = saved(scene(600, 400), "JPEG", icc_profile=b"no profile at all")
    assert [480, 600] == [copy.width for copy in photo_copies("a/photos/a.jpg", content)]


def test_the_same_photo_gives_the_same_bytes() -> None:
    made = [photo_copies("a/photos/a.jpg", told("JPEG")) for _ in range(2)]
    assert made[0] == made[1]


GIF = saved(scene(60, 40), "GIF")
SVG = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 3 2"><script>x()</script></svg>'
ODD = {
    "60,000 by 60,000 pixels in a hundred bytes": ("a.png", claimed_png(60_000, 60_000), "far"),
    "51 million pixels": ("a.png", claimed_png(8_500, 6_000), "8500 by 6000 pixels"),
    "a JPEG that breaks off": ("a.jpg", told("JPEG")[:-4000], "breaks off"),
    "a PNG that breaks off": ("a.png", told("PNG")[:-900], "breaks off"),
    "a WebP that breaks off": ("a.webp", told("WEBP")[:-900], ""),
    "a GIF called JPEG": ("a.jpg", GIF, "no JPEG, PNG or WebP"),
    "a page called JPEG": ("a.jpg", b"<!doctype html><script>x()</script>", "no JPEG"),
    "a drawing called JPEG": ("a.jpg", SVG, "no JPEG"),
    "a PNG called JPEG": ("a.jpg", saved(scene(60, 40), "PNG"), "Its name says JPEG"),
    "nothing": ("a.jpg", b"", "no JPEG"),
    "more than 20 MB": ("a.jpg", b"\xff\xd8" + b"\0" * 20 * 1024 * 1024, "more than 20 MB"),
}


@pytest.mark.parametrize("odd", sorted(ODD))
def test_an_odd_file_is_refused(odd: str) -> None:
    name, content, said = ODD[odd]
    fault = photo_fault(f"crane/photos/{name}", content)
    assert fault is not None
    assert said in fault.message


def test_a_broken_photo_is_refused_whatever_another_library_allows(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    name, content, _ = ODD["a JPEG that breaks off"]
    assert photo_fault(f"crane/photos/{name}", content) is not None


def test_a_sound_photo_has_no_fault() -> None:
    assert [None] * 3 == [photo_fault(f"a/photos/{name}", told(form)) for name, form in FORMS]


def test_a_photo_that_claims_to_be_huge_takes_no_memory() -> None:
    # Decoded it would take 10 GB; the most that may be added is what a small photo takes.
    code = (
        "import resource, sys\n"
        "from witnessmark.repository.photos import photo_fault\n"
        "photo_fault('a/photos/a.png', sys.stdin.buffer.read(70))\n"
        "before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss\n"
        "assert photo_fault('a/photos/a.png', sys.stdin.buffer.read())\n"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before)\n"
    )
    small = saved(Image.new("L", (1, 1)), "PNG").ljust(70, b"\0")[:70]
    done = subprocess.run(
        [sys.executable, "-c", code],
        input=small + claimed_png(60_000, 60_000),
        capture_output=True,
        check=True,
    )
    assert int(done.stdout) < 20_000  # kilobytes


PHOTO = {"file": "photos/side.jpg", "alt": "The winch from the side", "public": True}

SOUND = {"kept.0.as": "on-display", "assemblies.0.parts.4.made_to": "wear"}
"""So that no rule stops the base museum from being published."""


def winch(place: Path, content: bytes = b"", **photo: object) -> Path:
    """A museum on disk whose winch shows one photo."""
    said = {**PHOTO, **photo}
    root = on_disk(place, changes={MACHINE: {"photos": [said], **SOUND}})
    file = root / "winch" / str(said["file"])
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(content or told("JPEG"))
    return root


def faults(root: Path) -> list[tuple[str, str, str, int]]:
    """Codes, levels, fields and lines of what a check says of pictures."""
    found = call("check", str(root), "--pictures", "--format", "json").json["diagnostics"]
    mine = [d for d in found if d["code"] in {"WM045", "WM046", "WM054", "WM055"}]
    return [(d["code"], d["level"], d["field"], d["line"]) for d in mine]


def line_of(root: Path, words: str) -> int:
    text = (root / MACHINE).read_text(encoding="utf-8")
    return text[: text.index(words)].count("\n") + 1


def test_a_published_site_holds_none_of_what_the_camera_wrote(tmp_path: Path) -> None:
    root = winch(tmp_path)
    out = tmp_path / "site"
    done = call("publish", str(root), "--skin", "plain", "--as-of", "2026-01-01", "--out", str(out))
    assert (0, "") == (done.code, done.err)
    made = {path.name: path.read_bytes() for path in out.rglob("*") if path.is_file()}
    assert {f"side-jpg-{width}.jpg" for width in WIDTHS} == {n for n in made if ".jpg" in n}
    assert [] == [name for name, content in made.items() if CANARY.encode() in content]


def test_a_page_tells_the_sizes_so_that_nothing_moves(tmp_path: Path) -> None:
    library = museum(changes={MACHINE: {"photos": [PHOTO]}})
    site = site_of(library, pictures={"winch/photos/side.jpg": told("JPEG")})
    images = [given for tag, given in Markup(str(site["m/winch/index.html"])).elements]
    image = next(given for given in images if given.get("alt") == PHOTO["alt"])
    assert ("960", "640") == (image["width"], image["height"])
    assert [f"../../m/winch/photos/side-jpg-{width}.jpg {width}w" for width in WIDTHS] == image[
        "srcset"
    ].split(", ")


def test_a_check_looks_at_the_photos_and_names_the_line(tmp_path: Path) -> None:
    root = winch(tmp_path, GIF)
    assert [("WM046", "error", "photos[0].file", line_of(root, "file: photos"))] == faults(root)


def test_a_sound_photo_is_not_spoken_of(tmp_path: Path) -> None:
    assert [] == faults(winch(tmp_path))


def test_a_photo_that_is_not_public_is_not_decoded(tmp_path: Path) -> None:
    assert [] == faults(winch(tmp_path, GIF, public=False))


def test_an_odd_photo_stops_publishing_and_the_old_site_stands(tmp_path: Path) -> None:
    root, out = winch(tmp_path, GIF), tmp_path / "site"
    done = call("publish", str(root), "--skin", "plain", "--as-of", "2026-01-01", "--out", str(out))
    assert (1, False) == (done.code, out.exists())
    assert "WM046" in done.out


def test_a_drawing_with_a_script_is_refused_as_a_photo(tmp_path: Path) -> None:
    root = winch(tmp_path, SVG, file="photos/side.svg")
    assert ["WM046"] == [code for code, *_ in faults(root)]


@pytest.mark.parametrize("alt", ["IMG_0123", "DSC00042.JPG", "photo", "Photo 3", "side.jpg", "tbc"])
def test_words_that_say_nothing_are_a_warning(tmp_path: Path, alt: str) -> None:
    # The kinds are those of W3C, Techniques for WCAG 2.2, failure F30.
    root = winch(tmp_path, alt=alt)
    assert [("WM055", "warning", "photos[0].alt", line_of(root, "alt: "))] == faults(root)


@pytest.mark.parametrize("alt", ["Winch", "The winch in 1931", "Photo of the winch", "Gear 12"])
def test_words_that_say_something_are_none(tmp_path: Path, alt: str) -> None:
    assert [] == faults(winch(tmp_path, alt=alt))


@pytest.mark.parametrize("alt", ["", "   "])
def test_empty_words_are_an_error(tmp_path: Path, alt: str) -> None:
    found = call("check", str(winch(tmp_path, alt=alt)), "--pictures", "--format", "json").json[
        "diagnostics"
    ]
    assert ["error"] == [d["level"] for d in found if d["field"] == "photos[0].alt"]


def test_a_photo_without_words_is_an_error(tmp_path: Path) -> None:
    root = winch(tmp_path)
    text = (root / MACHINE).read_text(encoding="utf-8")
    (root / MACHINE).write_text(text.replace("  alt: The winch from the side\n", ""))
    found = call("check", str(root), "--pictures", "--format", "json").json["diagnostics"]
    assert ["error"] == [d["level"] for d in found if "alt" in d["message"]]


def test_a_name_in_capitals_is_told_how_to_be_written(tmp_path: Path) -> None:
    root = winch(tmp_path, file="photos/SIDE.JPG")
    found = call("check", str(root), "--pictures", "--format", "json").json["diagnostics"]
    assert ['Rename the file to "photos/side.jpg".'] == [
        d["fix"] for d in found if d["code"] == "WM045"
    ]


WITHOUT_PILLOW = """
import importlib.abc, importlib.util, sys
real = importlib.util.find_spec
importlib.util.find_spec = lambda name, *more: None if name == "PIL" else real(name, *more)
sys.modules["PIL"] = None
from witnessmark.cli import main
sys.argv[0] = "witnessmark"
main()
"""


def without_pillow(*words: str) -> subprocess.CompletedProcess[str]:
    """The program where Pillow is not installed, as far as Python can tell."""
    command = [sys.executable, "-c", WITHOUT_PILLOW, *words]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_without_pillow_a_check_says_so_once_and_passes(tmp_path: Path) -> None:
    root = winch(tmp_path)
    done = without_pillow("check", str(root), "--pictures", "--format", "json")
    found = [d for d in json.loads(done.stdout)["diagnostics"] if d["code"] == "WM054"]
    assert ["note"] == [d["level"] for d in found]


def test_without_pillow_photos_are_not_published_and_one_line_says_why(tmp_path: Path) -> None:
    root, out = winch(tmp_path), tmp_path / "site"
    day = ("--as-of", "2026-01-01")
    done = without_pillow("publish", str(root), "--skin", "plain", *day, "--out", str(out))
    assert (2, False) == (done.returncode, out.exists())
    assert "witnessmark[photos]" in done.stderr
    assert "Traceback" not in done.stderr


def test_without_pillow_a_museum_of_drawings_is_published(tmp_path: Path) -> None:
    drawing = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 3 2"><path d="M0 0h3"/></svg>'
    root, out = winch(tmp_path, drawing, file="photos/side.svg"), tmp_path / "site"
    day = ("--as-of", "2026-01-01")
    done = without_pillow("publish", str(root), "--skin", "plain", *day, "--out", str(out))
    assert (0, True) == (done.returncode, (out / "m/winch/photos/side.svg").is_file())


SKETCH = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 20">'
    b'<rect width="15" height="20" fill="#c81e1e"/></svg>'
)


def test_a_sketch_is_drawn_at_every_width() -> None:
    if not can_draw():
        pytest.skip("resvg-py is not installed, so sketches are shown as drawings")
    copies = sketch_copies("winch/photos/a.svg", SKETCH)
    assert [(480, 320), (960, 640), (1600, 1067)] == [(c.width, c.height) for c in copies]
    picture = Image.open(BytesIO(copies[1].content)).convert("RGB")
    assert [RED, (0xF7, 0xF4, 0xED)] == [picture.getpixel((x, 320)) for x in (100, 900)]


def test_a_sketch_with_words_in_it_stays_a_drawing() -> None:
    words = SKETCH.replace(b"</svg>", b"<text>1931</text></svg>")
    copies = sketch_copies("winch/photos/a.svg", words)
    assert [("winch/photos/a.svg", 960, 640)] == [(c.name, c.width, c.height) for c in copies]
