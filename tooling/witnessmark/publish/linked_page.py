"""What a page says about itself to programs: schema.org terms as JSON-LD, and a card to share.

Source: schema.org vocabulary (Article, Product, WebSite, DefinedTermSet terms), read as an open
standard; the Open Graph protocol (og:title, og:type, og:url, og:image, og:description).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from witnessmark.publish.public import PublicMachine, PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.shown_changes import last_changed

CONTEXT = "https://schema.org"
Facts = Mapping[str, Any]


def decision_facts(decision: PublicDecision, museum: PublicMuseum, web: str) -> Facts:
    """A decision as an article about a machine, with its two days and who stands for it."""
    found: dict[str, Any] = {
        "@context": CONTEXT,
        "@type": "Article",
        "@id": f"{web}d/{decision.id}/",
        "headline": decision.title,
        "abstract": f"What we gave up: {decision.gives_up}",
        "datePublished": decision.settled.isoformat(),
        "dateModified": last_changed(decision).isoformat(),
        "inLanguage": "en",
        "identifier": decision.id,
        "about": {"@id": f"{web}m/{decision.machine}/", "name": decision.machine_name},
        "publisher": _publisher(museum, web),
        "isPartOf": {"@type": "WebSite", "@id": web, "name": museum.name},
    }
    if decision.replaced_by:
        found["correction"] = f"Replaced by decision {decision.replaced_by}."
    return found


def machine_facts(machine: PublicMachine, museum: PublicMuseum, web: str) -> Facts:
    """A machine as a thing that the museum keeps."""
    found: dict[str, Any] = {
        "@context": CONTEXT,
        "@type": "IndividualProduct",
        "@id": f"{web}m/{machine.id}/",
        "name": machine.name,
        "description": machine.what,
        "subjectOf": [{"@id": f"{web}d/{name}/"} for name in machine.decisions],
    }
    if machine.built:
        found["productionDate"] = machine.built
    return {**found, "owner": _publisher(museum, web)}


def site_facts(museum: PublicMuseum, web: str) -> Facts:
    """The site as a whole."""
    return {
        "@context": CONTEXT,
        "@type": "WebSite",
        "@id": web,
        "name": museum.name,
        "inLanguage": "en",
        "publisher": _publisher(museum, web),
    }


def _publisher(museum: PublicMuseum, web: str) -> Facts:
    found = {"@type": "Museum", "@id": f"{web}#museum", "name": museum.name}
    return {**found, "location": museum.place} if museum.place else found
