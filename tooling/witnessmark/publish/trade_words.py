"""Words of the workshop that a visitor may not know, each in a sentence.

Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

TRADE_WORDS: Mapping[str, str] = {
    "backlash": "The free play between two gears before one moves the other.",
    "banksman": "Somebody on the ground who guides a driver by signs and keeps people away.",
    "bearing": "The part that carries a turning or sliding part and lets it move freely.",
    "bore": "The inside of a round hole, or its width.",
    "bush": "A sleeve, often of bronze, that a shaft turns in; it wears to spare the shaft.",
    "casting": "A part made by pouring molten metal into a mould.",
    "clearance": "The gap left on purpose between two parts, such as a shaft and its bush.",
    "clutch": "A device that joins a motor to what it drives, and lets it go again.",
    "coupling": "A part that joins two shafts end to end.",
    "drift": "A blunt bar for driving a pin or bush out with a hammer.",
    "feeler gauge": "A set of thin steel leaves of known thickness, to measure a gap with.",
    "gantry": "The frame that carries a crane and straddles what it works over.",
    "gas strut": "A closed cylinder of compressed gas that works as a spring.",
    "gland": "The place where a shaft or rod leaves a casing, packed so that little leaks.",
    "gun-metal": "A bronze of copper, tin and zinc that stands up to water and wear.",
    "hardness": "How far a metal withstands being dented or scratched.",
    "impeller": "The bladed wheel that moves the water in a pump.",
    "jib": "The arm of a crane.",
    "journal": "The part of a shaft that turns inside a bearing.",
    "keyway": "A slot in a shaft for the bar that keeps a wheel from slipping round.",
    "leaded bronze": "Bronze with some lead, which runs quietly and forgives poor oiling.",
    "magneto": "A small generator that makes the spark of an old engine.",
    "packing": "Soft cord pressed round a shaft to hold back water or steam.",
    "pin": "A short round bar on which parts hinge.",
    "pinion": "The smaller of two gears that mesh.",
    "plating": "A thin coat of another metal, such as chromium or zinc.",
    "preload": "The pull put into a bolt by tightening it.",
    "rolling bearing": "A bearing with balls or rollers between the moving parts.",
    "scraping": "Shaving a metal surface by hand until it fits its partner.",
    "shim": "A thin sheet put between parts to set their distance.",
    "shore a": "A scale of how hard rubber is, from 0, very soft, to 100; a car tyre has about 65.",
    "sleeve": "A tube fitted into a worn hole or over a worn shaft to bring it back to size.",
    "slewing": "Turning the upper part of a crane round.",
    "sling": "A rope, chain or strap that a load hangs from.",
    "spigot": "A short round end that fits into a hole and holds two parts in line.",
    "swing clutch": "The clutch that turns a crane or dragline to one side or the other.",
    "tack weld": "A short spot of weld that keeps a part from moving.",
    "tappet": "A sliding part that passes the push of a cam on.",
    "thou": "A thousandth of an inch, about 0.025 mm.",
    "thrust washer": "A flat ring that takes the push along a shaft and wears in its stead.",
    "track pad": "The block, often of rubber, that a crawler track stands on.",
    "track shoe": "One of the plates that, joined by pins, make up a crawler track.",
    "valve": "A part that opens and shuts a way for gas or liquid.",
    "vulcanised": "Said of rubber that was made tough, or joined for good, by heat and sulphur.",
    "witness mark": "A fine line scribed across two parts, so that anyone can see how they sat.",
}
"""Each word in the singular and what it means; a plural with s or es is the same word."""
