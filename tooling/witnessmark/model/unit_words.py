"""The words people write for units: other spellings of one unit, and words that mean two units."""

from __future__ import annotations

# Other spellings of a unit that can mean only that unit.
SPELLINGS: dict[str, str] = {
    "°C": "degC",
    "deg C": "degC",
    "°F": "degF",
    "deg F": "degF",
    "°": "deg",
    "µm": "um",
    "μm": "um",
    "L": "litre",
    "l": "litre",
    "Nm": "N m",
    "N·m": "N m",
    "N*m": "N m",
    "kNm": "kN m",
    "lbf ft": "ft lbf",
    "lbf in": "in lbf",
    "lbf/in2": "psi",
    "mm²": "mm2",
    "cm²": "cm2",
    "m²": "m2",
    "m³": "m3",
    "cm³": "cm3",
    "m/s²": "m/s2",
    "N/mm²": "N/mm2",
    "inch": "in",
    "rev/min": "rpm",
    "rev": "turn",
}

# Words that two workshops read in two ways: why, and what to write instead.
TWO_MEANINGS: dict[str, tuple[str, tuple[str, ...]]] = {
    "ton": (
        "a ton is 2240 lb, 2000 lb or 1000 kg, by country and trade",
        ("long-ton", "short-ton", "tonne"),
    ),
    "t": (
        "t is a tonne in SI and a ton on old drawings",
        ("tonne", "long-ton", "short-ton"),
    ),
    "tonf": (
        "a ton-force is that of 2240 lb or of 2000 lb",
        ("long-tonf", "short-tonf", "kN"),
    ),
    "tsi": (
        "tons per square inch were long or short tons",
        ("long-tonf/in2", "MPa"),
    ),
    "cwt": ("a hundredweight is 112 lb in the UK and 100 lb in the US", ("uk-cwt", "us-cwt")),
    "mil": ("a mil is 0.001 in, a millimetre in speech, or an angle", ("thou", "mm", "deg")),
    "gallon": (
        "a gallon is 4.546 litre in the UK and 3.785 litre in the US",
        ("uk-gallon", "us-gallon", "litre"),
    ),
    "pint": (
        "a pint is 0.568 litre in the UK and 0.473 litre in the US",
        ("uk-pint", "us-pint", "litre"),
    ),
    "ft lb": ("lb is a mass; a torque needs a force", ("ft lbf", "N m")),
    "in lb": ("lb is a mass; a torque needs a force", ("in lbf", "N m")),
    "kg/cm2": ("kg is a mass; a pressure needs a force", ("kgf/cm2", "bar")),
    "lbs": ("pounds may be a mass or a force", ("lb", "lbf")),
    "bar g": ("gauge or absolute is said in a field of its own", ("bar",)),
    "bar a": ("gauge or absolute is said in a field of its own", ("bar",)),
    "psig": ("gauge or absolute is said in a field of its own", ("psi",)),
    "psia": ("gauge or absolute is said in a field of its own", ("psi",)),
    "degree": ("a degree may be an angle or a temperature", ("deg", "degC", "degF")),
    '"': ("a tick mark is easily lost or doubled", ("in",)),
    "'": ("a tick mark is easily lost or doubled", ("ft",)),
}

# The same words as they are also written.
SAME_WORD: dict[str, str] = {
    "tons": "ton",
    "hundredweight": "cwt",
    "mils": "mil",
    "gal": "gallon",
    "gallons": "gallon",
    "pt": "pint",
    "pints": "pint",
    "lb ft": "ft lb",
    "lb-ft": "ft lb",
    "ft-lb": "ft lb",
    "lb in": "in lb",
    "lb-in": "in lb",
    "barg": "bar g",
    "bara": "bar a",
    "degrees": "degree",
    "\N{DOUBLE PRIME}": '"',
    "\N{PRIME}": "'",
}
