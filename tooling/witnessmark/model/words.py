"""The closed words a record may use, each with the meaning that editors and the glossary show."""

from __future__ import annotations

from enum import StrEnum
from operator import attrgetter
from typing import TYPE_CHECKING, Self


class Word(StrEnum):
    """A word of a closed list, with its definition."""

    definition: str

    if not TYPE_CHECKING:
        # The same as enum's own, which calls Python each time it is read: three times as slow on
        # CPython 3.11 (measured), and a check of a record reads some two hundred.
        value = property(attrgetter("_value_"))

    def __new__(cls, word: str, definition: str) -> Self:
        """Make a member that equals its word and knows its meaning."""
        member = str.__new__(cls, word)
        member._value_ = word
        member.definition = definition
        return member

    @classmethod
    def named(cls, word: str) -> Self:
        """The member of this word.

        Raises:
            KeyError: the list has no such word.
        """
        found = {str(member): member for member in cls}
        return found[word]


class Kept(Word):
    """The way a machine is kept."""

    RUNNING = (
        "running",
        "Run under its own or substitute power, in front of visitors or for its crew.",
    )
    ON_DISPLAY = "on-display", "Shown standing still; not run."
    RESERVE = "reserve", "In store or in the yard, neither run nor shown."


class Origin(Word):
    """Where a part comes from."""

    AS_BUILT = "as-built", "Fitted when the machine was made."
    IN_SERVICE = "in-service", "Fitted during the machine's working life; evidence too."
    MUSEUM_MADE = "museum-made", "Made for the machine since it came to a museum."
    UNKNOWN = "unknown", "Not known; counted as original until somebody finds out."


class MadeTo(Word):
    """What the maker meant to happen to a part."""

    LAST = "last", "Meant to stay for the life of the machine."
    WEAR = "wear", "Meant to be renewed when worn: bushes, pads, linings."
    BE_USED_UP = "be-used-up", "Meant to be consumed in use: oil, split pins, packing."


class HeldBy(Word):
    """What keeps a fastener from turning."""

    TACK_WELD = "tack-weld", "A short weld between head and seat."
    WIRE = "wire", "A locking wire through the heads."
    TAB_WASHER = "tab-washer", "A washer with a tab bent up against a flat."
    SPLIT_PIN = "split-pin", "A split pin through nut and bolt."
    PEENING = "peening", "The end hammered over."
    LOCK_NUT = "lock-nut", "A second nut, or one that grips of itself."
    COMPOUND = "compound", "A compound in the thread."
    NOTHING = "nothing", "Nothing but its own pull."
    UNKNOWN = "unknown", "Not known; nobody has looked."


class Basis(Word):
    """How a finding is known."""

    SEEN = "seen", "Looked at with the eye."
    MEASURED = "measured", "Measured with an instrument."
    INFERRED = "inferred", "Concluded from something else."
    TOLD = "told", "Heard from somebody who knows the machine."


class Grade(Word):
    """How much a finding presses."""

    NOTE = "note", "Worth writing down; nothing need be done."
    WATCH = "watch", "To be looked at again."
    ACT = "act", "Something has to be done."
    STOP = "stop", "The machine stands until this is answered."


class Purpose(Word):
    """What a lot of old stock is for."""

    UNDECIDED = "undecided", "Nobody has decided yet, so a decision is owed."
    COLLECTION = "collection", "Kept as an object in its own right."
    SPARES = "spares", "Kept to be fitted."
    TEACHING = "teaching", "Kept to be handled and learnt from."
    PASS_ON = "pass-on", "To be given to somebody who needs it."


class State(Word):
    """How far a decision has come."""

    DRAFT = "draft", "Being written; nothing is settled."
    FOR_REVIEW = "for-review", "Written out and waiting for others to look at it."
    AGREED = "agreed", "Signed by two people in different roles."
    UNDER_WAY = "under-way", "The work has started."
    DONE = "done", "The work has ended and what was done is written down."
    WITHDRAWN = "withdrawn", "Given up, with the reason."
    REPLACED = "replaced", "A later decision stands in its place; this one stays readable."


class Kind(Word):
    """What sort of option this is."""

    LEAVE_AS_FOUND = "leave-as-found", "Do nothing to it and go on as before."
    STOP_RUNNING = "stop-running", "Take the machine out of use."
    RESTRICT_USE = "restrict-use", "Go on, but slower, lighter, less often or watched."
    CONSERVE_IN_PLACE = "conserve-in-place", "Stabilise what is there without taking it out."
    REPAIR = "repair", "Mend the part that is there."
    RENEW_LIKE_FOR_LIKE = "renew-like-for-like", "A new part of the same shape and material."
    RENEW_EQUIVALENT = (
        "renew-equivalent",
        "A new part that does the same work in another material or shape.",
    )
    MODIFY = "modify", "Change how the machine is made."
    FIT_OLD_STOCK = "fit-old-stock", "Fit an unused part from the old stock."
    FIT_FROM_DONOR = "fit-from-donor", "Fit a part taken from another machine."
    SERVICE = "service", "Oil, grease, fluid, gas or adjustment."
    UNDO = "undo", "Take back an earlier change."


class Do(Word):
    """What a step of the work does."""

    CLEAN = "clean", "Remove dirt or old grease without touching the surface below."
    ADJUST = "adjust", "Set a clearance, tension or position that is made to be set."
    LUBRICATE = "lubricate", "Put in the lubricant that belongs there."
    CHANGE_LUBRICANT = "change-lubricant", "Put in another lubricant than before."
    DISMANTLE = "dismantle", "Take apart so that it can go back as it was."
    REMOVE = "remove", "Take a part out; the record says what becomes of it."
    REFIT = "refit", "Put back what was taken out."
    EXCHANGE = "exchange", "Let two parts change places."
    FIT_NEW = "fit-new", "Fit a newly made part."
    FIT_OLD_STOCK = "fit-old-stock", "Fit a part from a lot of old stock."
    FIT_FROM_DONOR = "fit-from-donor", "Fit a part taken from another machine."
    SLEEVE = "sleeve", "Press or bond a sleeve in or on."
    HONE = "hone", "Take off a little with a hone, within the maker's limits."
    MACHINE = "machine", "Turn, bore or mill metal away."
    GRIND = "grind", "Grind metal away."
    DRILL = "drill", "Drill a hole."
    WELD = "weld", "Join by melting."
    BUILD_UP = "build-up", "Put metal back by welding or spraying."
    HEAT = "heat", "Heat enough to alter the metal or its finish."
    COAT = "coat", "Paint, plate or varnish."
    SEAL = "seal", "Seal with a compound or adhesive."
    CHARGE = "charge", "Fill with gas or pressure."
    ADD = "add", "Add something that was not there."
    MARK = "mark", "Mark for good; a tied label is not a step."
    LOCK_OUT = "lock-out", "Make it impossible to use until somebody unlocks it."
    MOVE = "move", "Move the machine or a part to another place."


class Fate(Word):
    """What becomes of a part that comes out."""

    STORED = "stored", "Kept in a store, with a label."
    DISPLAYED = "displayed", "Kept where visitors can see it."
    STUDY = "study", "Kept for study or teaching."
    LOST = "lost", "Not kept: scrapped, used up or given away."

    @property
    def is_kept(self) -> bool:
        """True when the part can be found again."""
        return self is not Fate.LOST


class Like(Word):
    """Whether what goes in matches what came out."""

    SAME = "same", "Same shape, material and way of making."
    UNLIKE = "unlike", "Differs in shape, material or way of making."


class Phase(Word):
    """When a hazard is there."""

    DOING_THE_WORK = "doing-the-work", "While the work is being done."
    AFTERWARDS = "afterwards", "From the end of the work on, in use or standing."


class Order(Word):
    """How a control works, strongest first (order of precedence of MIL-STD-882E 4.3.4)."""

    ELIMINATE = "eliminate", "The hazard is no longer there."
    REDESIGN = "redesign", "The design is altered so that it is less likely or less severe."
    DEVICE = "device", "A guard, stop or relief device stands between."
    WARNING = "warning", "Something warns in time."
    PROCEDURE = "procedure", "Rules, training, signs or protective clothing."


class Aspect(Word):
    """The six aspects of authenticity (Nara Document on Authenticity, 1994, paragraph 13)."""

    FORM = "form", "Form and design: shape, layout, dimensions."
    MATERIAL = (
        "material",
        "Materials and substance: how much of the original material stays as it was.",
    )
    USE = "use", "Use and function: whether it does its own work in its own way."
    TECHNIQUE = (
        "technique",
        "Traditions and techniques: how the work is done and whether the skill lives.",
    )
    SETTING = "setting", "Location and setting: the place and the connections it belongs to."
    SPIRIT = "spirit", "Spirit and feeling: sound, pace, smell and signs of work."


class Criterion(Word):
    """What an option is scored on, each 0 to 4, 4 best."""

    AUTHENTICITY = "authenticity", "How truly the machine still tells how it was made and used."
    SAFETY = "safety", "The worst risk that remains, during the work and afterwards."
    REVERSIBILITY = "reversibility", "How far a later generation can undo what is done."


class Role(Word):
    """The parts people play in a decision."""

    COLLECTIONS = "collections", "Answers for the collection."
    ENGINEERING = "engineering", "Answers for the engineering."
    SAFETY = "safety", "Answers for the safety of people."
    GOVERNING = "governing", "Answers for the museum as a whole: a trustee or director."
    CONSERVATION = "conservation", "A trained conservator."
    WORKSHOP = "workshop", "Does or leads the work."
    OBJECTOR = "objector", "Asked to argue against."
    VOLUNTEER_LEAD = "volunteer-lead", "Speaks for the volunteers."


class RuledOutBy(Word):
    """Who or what shuts an option out."""

    LAW = "law", "The law of the land, as read by somebody competent."
    OWNER = "owner", "The owner of the machine."
    RULE = "rule", "A rule of this museum."


class DoneBy(Word):
    """Where the work is done."""

    IN_HOUSE = "in-house", "In the museum's own shop."
    SENT_OUT = "sent-out", "By a firm or another workshop."
    BOTH = "both", "Partly in the shop, partly sent out."


class Stage(Word):
    """When a picture was made."""

    BEFORE = "before", "Before the work."
    DURING = "during", "During the work, of what will be hidden again."
    AFTER = "after", "After the work."


class Carrier(Word):
    """How evidence that goes is recorded first."""

    PHOTOGRAPH = "photograph", "Photographs with a scale in view."
    DRAWING = "drawing", "A measured drawing."
    RUBBING = "rubbing", "A rubbing or cast of the surface."
    SCAN = "scan", "A three-dimensional scan."
    SAMPLE = "sample", "A kept sample of the material."
    NOTE = "note", "A written description."


class HazardKind(Word):
    """What sort of hazard, where the sort decides who may touch it."""

    ASBESTOS = "asbestos", "Asbestos in linings, packing, lagging or gaskets."
    LEAD = "lead", "Lead in paint, solder, seals or fuel."
    CADMIUM = "cadmium", "Cadmium on plated fasteners, springs and fittings."
    BERYLLIUM = "beryllium", "Beryllium in copper springs, contacts and tools."
    RADIOACTIVE = "radioactive", "Luminous paint and other parts that radiate."
    EXPLOSIVE = "explosive", "Ammunition, cartridges, flares and other charges."
    PRESSURE = "pressure", "Gas, steam or fluid under pressure, or a vessel made to hold it."
    STORED_ENERGY = "stored-energy", "A wound spring, raised load, flywheel or charged capacitor."


class Presence(Word):
    """Whether something suspected is there; unknown is an answer, and a blank is not."""

    PRESENT = "present", "It is there."
    ABSENT = "absent", "Somebody competent looked and it is not there."
    UNKNOWN = "unknown", "Nobody has found out; until then it is left alone."


class Lubricant(Word):
    """What a bearing is made to run in, or what is put in."""

    OIL = "oil", "Oil, by hand, drip, ring, bath or pump."
    GREASE = "grease", "Grease, by cup, gun or packing."
    GRAPHITE = "graphite", "Graphite or another dry lubricant."
    NONE = "none", "Nothing: it is made to run dry or in water."
    UNKNOWN = "unknown", "Nobody knows what it was made for."


class Floor(Word):
    """What a machine is moved over."""

    OPEN_GROUND = "open-ground", "Earth, gravel, snow or grass."
    HARD_YARD = "hard-yard", "Concrete, asphalt, setts or steel plate that may be marked."
    FINISHED_FLOOR = "finished-floor", "Tile, wood, screed or stone that may not be marked."


class CarriedOn(Word):
    """What a machine rests on while it is moved."""

    OWN_TRACKS = "own-tracks", "Its own tracks."
    OWN_WHEELS = "own-wheels", "Its own wheels."
    CARRIER = "carrier", "A trailer, skates, rollers or a crane."


CLOSED_WORDS: tuple[type[Word], ...] = (
    Kept,
    Origin,
    MadeTo,
    HeldBy,
    Basis,
    Grade,
    Purpose,
    State,
    Kind,
    Do,
    Fate,
    Like,
    Phase,
    Order,
    Aspect,
    Criterion,
    Role,
    RuledOutBy,
    DoneBy,
    Stage,
    Carrier,
    HazardKind,
    Presence,
    Lubricant,
    Floor,
    CarriedOn,
)
