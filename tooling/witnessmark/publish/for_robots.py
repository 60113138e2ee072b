"""Files for programs that find pages: the list of addresses with their days, and who may look.

Source: sitemaps.org protocol 0.9 (urlset, url, loc, lastmod); RFC 9309 (2022) for robots.txt.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterable
from datetime import date

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.shown_changes import last_changed

SITEMAP = "http://www.sitemaps.org/schemas/sitemap/0.9"


def render_sitemap(museum: PublicMuseum, web: str, paths: Iterable[str]) -> bytes:
    """Every page's address; those of decisions with the day on which they last changed."""
    ET.register_namespace("", SITEMAP)
    days = days_of_pages(museum)
    root = ET.Element(f"{{{SITEMAP}}}urlset")
    for path in sorted(path for path in paths if path.endswith("index.html")):
        url = ET.SubElement(root, f"{{{SITEMAP}}}url")
        ET.SubElement(url, f"{{{SITEMAP}}}loc").text = web + path.removesuffix("index.html")
        if path in days:
            ET.SubElement(url, f"{{{SITEMAP}}}lastmod").text = days[path].isoformat()
    ET.indent(root, space="")
    found: bytes = ET.tostring(root, encoding="utf-8", xml_declaration=True)
    return found + b"\n"


def days_of_pages(museum: PublicMuseum) -> dict[str, date]:
    """The day on which each decision and each machine last changed, by the file of its page."""
    found = {f"d/{d.id}/index.html": last_changed(d) for d in museum.decisions}
    for machine in museum.machines:
        days = [found[f"d/{name}/index.html"] for name in machine.decisions]
        days += [finding.day for finding in machine.findings]
        found[f"m/{machine.id}/index.html"] = max([machine.as_of, *days])
    return found


def render_robots(web: str) -> bytes:
    """Everybody may look at everything, since only what is public is here."""
    return f"User-agent: *\nAllow: /\nSitemap: {web}sitemap.xml\n".encode()
