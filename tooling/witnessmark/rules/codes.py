"""The record checks by code: what each says, why it matters, and what puts it right."""

from __future__ import annotations

from typing import NamedTuple


class Code(NamedTuple):
    """The standing text of one record check."""

    title: str
    why: str
    fix: str


CODES: dict[str, Code] = {
    "WM030": Code(
        "A part address does not exist on this machine",
        "Scores and the machine's account follow part addresses; one that leads nowhere is lost.",
        "Use an address from machine.yml, or add the part there.",
    ),
    "WM031": Code(
        "A finding does not exist on this machine",
        "A decision rests on what was found; the reader must be able to look it up.",
        "Use an id from findings.yml, or write the finding there first.",
    ),
    "WM032": Code(
        "A person is not in the register",
        "Who judged, proposed or signed must still be known in forty years.",
        "Use an id from people.yml, or enter the person there.",
    ),
    "WM033": Code(
        "A policy is not the one that was valid",
        "Weights and floors are read from the policy valid when the decision was opened.",
        "Name the newest policy valid on the day it was opened, or say why in departs_from_policy.",
    ),
    "WM034": Code(
        "A lot of old stock, or a donor's part, does not exist",
        "Stock and donors are counted, so each is named once and followed.",
        "Use the id of a lot in stores.yml, or machine/assembly/part for a donor.",
    ),
    "WM035": Code(
        "Another decision that is named does not exist",
        "Precedents and replacements lead readers through the record.",
        "Use the id of a decision of this museum.",
    ),
    "WM036": Code(
        "The choice names no option of this record",
        "Without it nobody can tell what was decided.",
        "Use the id of one of the options.",
    ),
    "WM037": Code(
        "A worksheet that is relied on is not in this record",
        "Safety rests on it, so it is written out and recomputed here.",
        "Add it under worksheets, or use the id of one that is there.",
    ),
    "WM038": Code(
        "An answer names a hazard that is not listed",
        "An answer to nothing hides a hazard that is not answered.",
        "Use the id of a hazard of this record.",
    ),
    "WM039": Code(
        "A store place does not exist",
        "What was taken off must be found again.",
        "Use the id of a place in stores.yml, or enter the place there.",
    ),
    "WM040": Code(
        "An id stands twice",
        "Ids tell things apart when versions are compared.",
        "Give one of them another id.",
    ),
    "WM041": Code(
        "Two records claim one decision id",
        "Web addresses, precedents and seals hang on the id.",
        "Give the younger record the next free id.",
    ),
    "WM042": Code(
        "A label stands on two objects",
        "A label names one object for ever in the museum.",
        "Give the younger object a label that was never used.",
    ),
    "WM043": Code(
        "The id and the file name differ",
        "A record is found by its file name.",
        "Rename the file so that it begins with the id.",
    ),
    "WM044": Code(
        "A step lies outside the assemblies the decision is about",
        "The score must not depend on which other options are listed.",
        "Name a part of that assembly in about, or move the step to a decision of its own.",
    ),
    "WM045": Code(
        "A picture is not in the machine's folder",
        "Pictures are evidence and must be kept with the record.",
        "Put the picture in the photos folder of the machine, or correct the name.",
    ),
    "WM046": Code(
        "A picture cannot be shown",
        "A file that is not what its name says can harm a reader's machine, or show nothing.",
        "Save it as JPEG, PNG or WebP and try again.",
    ),
    "WM047": Code(
        "A word mixes two alphabets",
        "Two names that look alike would differ, so searches and references miss.",
        "Type the word anew on one keyboard.",
    ),
    "WM048": Code(
        "A text holds markup that nobody reads",
        "Texts are shown as typed, so that no record can fetch or run anything in a reader's name.",
        "Write the words alone; an address stands under sources.",
    ),
    "WM049": Code(
        "A private contact stands in a public text",
        "What was published once can be copied for ever.",
        "Take it out; contacts belong into people.yml, which stays in the house.",
    ),
    "WM054": Code(
        "Photos could not be looked at",
        "A photo is decoded before it is shown, so that nothing but its pixels is published.",
        "Install Pillow: pip install 'witnessmark[photos]'.",
    ),
    "WM055": Code(
        "The words for a picture do not say what it shows",
        "Who cannot see the picture has only these words (WCAG 2.2, failure F30).",
        "Say in a sentence what the picture shows and why it stands there.",
    ),
    "WM051": Code(
        "A sentence is long",
        "Long sentences lose readers on a small screen; this is advice and never a fault.",
        "Make two sentences of it.",
    ),
    "WM058": Code(
        "A paragraph has many sentences",
        "Readers look for one thought at a time; this is advice and never a fault.",
        "Start a new paragraph with a blank line, or leave something out.",
    ),
    "WM059": Code(
        "A likelihood stands without a number",
        "Likely means nine in ten to one reader and six in ten to the next; this is advice.",
        "Say how often beside it, such as likely (about 7 in 10), or what it rests on.",
    ),
    "WM084": Code(
        "A word of the workshop is not explained",
        "Most visitors do not know it; this is advice and never a fault.",
        "Say what it is once, in brackets or after a comma, or use an everyday word.",
    ),
    "WM050": Code(
        "A state asks for more than the record holds",
        "Each state tells the next reader what can be relied on.",
        "Add what is missing, or set the state back.",
    ),
    "WM052": Code(
        "A signature is not by a holder of that role on that day",
        "A role is held from a day to a day; outside it nobody can sign for it.",
        "Correct the register if it is wrong, or let the role-holder sign.",
    ),
    "WM053": Code(
        "One person signed in two roles",
        "Four eyes see more than two.",
        "Let another holder of the role sign.",
    ),
    "WM056": Code(
        "A date comes before one it must follow",
        "Dates out of order make the record tell a story that cannot have happened.",
        "Correct the earlier or the later date.",
    ),
    "WM057": Code(
        "A replaced or withdrawn record does not say by what or why",
        "A changed mind is a new record; the old one stays and points to it.",
        "Name the other record, and let it say `replaces`.",
    ),
    "WM060": Code(
        "An option does not answer a hazard",
        "A blank is not an answer; the option's safety is withheld until there is one.",
        "Add the hazard under answers with after: (such as 2E), or none: with the reason.",
    ),
    "WM061": Code(
        "A hazard is said to be gone without being removed",
        "No training, warning or clothing removes a hazard; only taking it away does.",
        "Name a control of order eliminate, or a probability from A to E.",
    ),
    "WM062": Code(
        "A grave hazard is called improbable without a reason",
        "Severity 1 and 2 at E decide whether people may stand there.",
        "Say because: what makes it improbable.",
    ),
    "WM063": Code(
        "Hazards of one phase are not listed",
        "Doing the work and living with the result are two different risks.",
        "List at least one hazard for each phase, or sign `none` with a reason.",
    ),
    "WM064": Code(
        "An aspect of authenticity is not judged",
        "Six aspects are looked at for every option, so that none is forgotten.",
        "Judge it, or say why it is unaffected or does not apply.",
    ),
    "WM065": Code(
        "A computed value was typed in",
        "Material and safety are computed from facts, so that nobody can wish them better.",
        "Take it out; record the facts instead.",
    ),
    "WM066": Code(
        "Form or technique is called unaffected although metal is cut or changed",
        "Grinding, boring, drilling, welding or a change of kind shows.",
        "Judge the aspect, or say in its sentence why it is not touched.",
    ),
    "WM067": Code(
        "Leaving as found has no consequence and no reason why not",
        "Doing nothing is an option with consequences like any other.",
        "Name at least one consequence, or write consequences: {none: the reason}.",
    ),
    "WM068": Code(
        "An undo level was set by hand without a reason",
        "The museum's table says one thing and the record another; a reviewer must see why.",
        "Say because: on the step, or take the undo level out.",
    ),
    "WM070": Code(
        "A worksheet cannot be reckoned",
        "A decision that relies on a number must show the number.",
        "Correct what it is given; `witnessmark worksheet show NAME` prints the form.",
    ),
    "WM071": Code(
        "A quantity cannot be read",
        "A number without a clear unit means different things to different people.",
        "Write it like 65.02 mm or 31 kN.",
    ),
    "WM080": Code(
        "The agreement no longer fits the record",
        "The judgement was changed after agreement, so the signatures stand under another text.",
        "Take the change back, or set it to for-review, remove the signatures and sign anew.",
    ),
    "WM081": Code(
        "Words were changed after agreement",
        "The judgement is as agreed, but the sentences are no longer those that were signed.",
        "Take the change back, or let the same people sign anew.",
    ),
    "WM082": Code(
        "This version of the program reckons otherwise than was signed",
        "The agreement stands; the archive keeps the figures of that day.",
        "Compare the figures; nothing need be done unless they change the outcome.",
    ),
    "WM083": Code(
        "A seal is not written as `sign` writes it",
        "A seal typed by hand proves nothing.",
        "Remove the signature and use `witnessmark sign`.",
    ),
    "WM085": Code(
        "The choice cannot stand",
        "An option without all three scores, with a High risk, or set aside, cannot be agreed.",
        "Choose another option, or complete what is missing.",
    ),
    "WM086": Code(
        "The choice differs from the ranking without a reason",
        "A number never decides, but departing from it is said aloud.",
        "Say why in departs_from_ranking.",
    ),
    "WM087": Code(
        "More old stock is drawn than there is",
        "Two records cannot use up the same part.",
        "Choose another source, or correct the count in stores.yml.",
    ),
    "WM088": Code(
        "Like parts are listed one by one",
        "Bolts, rollers and pads of one drawing are one part with a count, not many.",
        "Make them one part with count.",
    ),
    "WM089": Code(
        "A signed acceptance or waiver is not by somebody who may give it",
        "Accepting a risk or letting a rule rest is for the roles that the policy names.",
        "Name a holder of such a role on that day; never the proposer.",
    ),
    "WM090": Code(
        "A file was not read",
        "Nothing may be left out of a check unseen.",
        "Do what the message says.",
    ),
    "WM091": Code(
        "A file of the museum is missing",
        "Records refer to it.",
        "Write it; the documentation shows a short one.",
    ),
    "WM092": Code(
        "A file's name says nothing to the reader",
        "A misnamed record would be left out of everything.",
        "Rename it, or move it out of the museum folder.",
    ),
    "WM093": Code(
        "The policy's numbers do not hold together",
        "Weights say how a level of one criterion trades against another.",
        "Let the weights sum to 1 and lie in their ranges, and let the ranges leave room.",
    ),
    "WM094": Code(
        "A waiver or explanation names a rule that does not exist",
        "It would let nothing rest, and the reader would believe it does.",
        "Use the id of a rule, as `witnessmark explain` lists them.",
    ),
    "WM095": Code(
        "A rule of the museum's own cannot be used",
        "A rule that cannot be evaluated protects nothing.",
        "Correct the rule in the policy.",
    ),
    "WM096": Code(
        "A second judgement is not by another person, or not of its time",
        "Two scores by one person tell nothing about how alike people judge.",
        "Let somebody judge it who has not seen the first score, and name that person and the day.",
    ),
    "WM097": Code(
        "The policy's numbers are not what the people asked had answered",
        "Weights are a museum's values only as far as people who answer for it hold them.",
        "Correct the slip; or ask again, and say in the answer why the museum decided otherwise.",
    ),
    "WM098": Code(
        "Something that was promised is due",
        "A look, a waiver or an answer put off was let for a time, and the time is over.",
        "Look again and write down what was found; or decide anew and write until when.",
    ),
    "WM099": Code(
        "Something that is private now was public once",
        "Git, every clone of it and every copy of the site keep what they were given.",
        "Treat it as known, and tell whom it touches. To take it out of git, the history is "
        "rewritten with everybody who has a clone; search engines and archives are asked one "
        "by one.",
    ),
}
