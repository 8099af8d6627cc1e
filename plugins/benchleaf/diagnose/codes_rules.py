"""Codes of the later stops: V rules across records, S set-up, A addresses, P the published site."""

from .code import Code

RULES = (
    Code(
        "V401",
        "Jobs disagree about one part",
        "Two drawings of one part number cannot both be right.",
        "Make name, drawing, material and stock the same in each job.",
    ),
    Code(
        "V402",
        "A set-up names something that does not fit the job",
        "The figures would belong to another tool or set-up.",
        "Name a tool of the job, and a set-up of the job.",
    ),
    Code(
        "V403",
        "A file that a record names is missing or cannot be read",
        "The page would show an empty frame where the learner needs the picture.",
        "Put the file into its folder under content/, or correct the name.",
    ),
    Code(
        "V404",
        "The safety preface is missing",
        "Every job page sends the learner to it first.",
        "Name a page of content/pages/ as `preface`, or write it.",
    ),
    Code(
        "V411",
        "A glossary entry is never used",
        "It is either a word nobody needs, or a word spelled otherwise on the pages.",
        "Add the spelling used as a variant, or take the entry out.",
    ),
    Code(
        "V412",
        "A word of the shop's own list has no glossary entry",
        "A newcomer meets it and finds nothing.",
        "Write the entry, or take the word off the list.",
    ),
    Code(
        "V421",
        "A list comes to a job before the safety preface is signed",
        "Nobody starts a machine before they have explained the shop's safety rules back.",
        "Put the preface before the first job, explained back and signed.",
    ),
    Code(
        "V422",
        "A list forgets a job that must be known first",
        "The learner would do a job without what it builds on.",
        "Put that job before it, done alone, or name it under `already`.",
    ),
    Code(
        "V501",
        "Work is not located, clamped and proved, in that order",
        "Located first and clamped second is taught in fixture texts of the trade: a clamp holds "
        "the work where it happens to lie. The three together are a house rule; no published text "
        "was found that names them so. What is located and clamped can still be wrong.",
        "Say how the work is located (against a stop, seated, lined up) before the point that "
        "clamps it. Then prove it: push at it by hand with the machine off, turn the tool through "
        "by hand, or gauge the first piece before the second.",
    ),
    Code(
        "V502",
        "Chips are not cleared by brush",
        "Shop rules of universities (NCSU ISE, LSU): chips are cleared with a brush, rake or "
        "vacuum, stopped first, never by hand. Chips are hot and sharp, and a finger at a cutter "
        "is lost.",
        "Say that chips are cleared with a brush, the spindle stopped; never by hand.",
    ),
    Code(
        "V503",
        "Nothing says that the chuck key is out before the start",
        "Shop rules (LSU) and army manuals (TC 9-524 chapter 3, TM 1-1500-204-23-9): the key "
        "comes out at once, before the start. A key left in the chuck is thrown when the spindle "
        "starts.",
        "Add a key point at or before the start: key out, and on its hook.",
    ),
    Code(
        "V504",
        "Nothing says what the cutting fluid is for",
        "House rule, on published purposes (Bingham, US Bureau of Standards: cool, lubricate; "
        "handbooks add the chips). Who does not know what it is for lets it run dry, and does not "
        "see it fail: blue chips or smoke (heat), a squeal (dry lips), crumbs on the lip (metal "
        "welds to it), a torn wall or a hole off size, chips that no longer come out, a tap that "
        "goes heavy.",
        "Give any true reason at a point that speaks of the fluid. Steel: heat, metal that welds "
        "to the lip, size. Aluminium: chips that weld and pack. A blind hole: the chips' only way "
        "out. Reaming: finish and size. Tapping: it lubricates the tap. Cast iron is mostly cut "
        "dry.",
    ),
    Code(
        "V505",
        "Nothing says to ease the feed at break-through",
        "Shop rules of universities (LSU, NCSU ISE): ease the feed at break-through. There the "
        "drill grabs, and the work turns.",
        "Add a key point to the drilling step: ease at break-through.",
    ),
    Code(
        "V506",
        "Nothing says how the next operation tells good, bad and missing apart",
        "House rule. A bad part among good ones is found at the next machine, or in the customer's "
        "hands; a missing one is found by nobody.",
        "Say in `hand_on` or `tray` what shows it: a count on the card, an empty place, a slotted, "
        "drilled or pegged holder, a red bin for what is bad, or all parts one way up.",
    ),
    Code(
        "V507",
        "Something is adjusted or measured with no stop before it",
        "Shop rules of universities (NCSU ISE, LSU): nothing is adjusted or measured until the "
        "spindle has stopped by itself. A hand, rule or gauge at a turning spindle is caught.",
        "Add a key point: press stop, and wait until the spindle is still.",
    ),
    Code(
        "V508",
        "A hand holds the work",
        "Work that turns takes the hand with it. A hand is never a way of holding work.",
        "Name vice, clamps, a fixture or a positive stop, and keep hands away.",
    ),
    Code(
        "V509",
        "The vice or fixture is not fixed",
        "A loose vice is swung round with the work in it.",
        "Say how vice, clamps or fixture are bolted to the table.",
    ),
    Code(
        "V510",
        "Gloves at a spindle",
        "A glove that a spindle catches pulls the hand in. Published rules forbid gloves there "
        "(OSHA 3170, in summary).",
        "Put gloves under take_off; where they are for carrying only, say so.",
    ),
    Code(
        "V511",
        "A step that cuts has no hazard message",
        "The message belongs before the step in which the hazard bites.",
        "Name the hazards in the step's `hazards`.",
    ),
    Code(
        "V512",
        "The stop does not come first",
        "Common practice, no source. Whoever calls first leaves the machine running.",
        "Put the stop first in `do`, then whom to call.",
    ),
    Code(
        "V601",
        "A grinder's gap is wider than the rule allows",
        "29 CFR 1910.215(a)(4) and (b)(9): work rest 1/8 in at most, tongue 1/4 in at most."
        " A wider gap lets work or fingers be drawn in.",
        "Set and state a gap within the rule: 3.2 mm and 6.4 mm at most.",
    ),
    Code(
        "V602",
        "A grinding wheel turns faster than it is marked for",
        "29 CFR 1910.215(d)(1): the wheel's rating is at least the spindle's speed. A wheel"
        " run too fast bursts.",
        "Fit a wheel that is marked for the spindle's speed or more.",
    ),
    Code(
        "V603",
        "Air for clean-down is at or above the allowed pressure",
        "29 CFR 1910.242(b): below 30 psi (207 kPa) at the blocked nozzle, with chip guards"
        " and eye protection.",
        "Use a nozzle or regulator below 207 kPa, or better a brush or vacuum.",
    ),
    Code(
        "V604",
        "The stages of lockout are not all there in order",
        "29 CFR 1910.147(d)(1) to (d)(6): prepare, shut down, isolate, apply the lock, release "
        "stored energy, verify. (e)(1) and (e)(2)(i): all whole, people told and clear, before "
        "the lock comes off; (e)(3): only who put it on takes it off; (e)(2)(ii): told again "
        "before the start. One left out can start the machine on somebody.",
        "Mark one step for each stage, in that order.",
    ),
    Code(
        "V801",
        "A step does not fit one screen of the kiosk",
        "A learner with oily hands has to scroll, and may miss what is below.",
        "Shorten its texts, or split the step in two.",
    ),
    Code(
        "S501",
        "No spindle speed of the machine is slow enough",
        "Too fast a drill burns, grabs and can shatter.",
        "Use another machine, tool or drill size.",
    ),
    Code(
        "S502",
        "The cut needs more power than the motor gives",
        "The belt slips or the spindle stalls in the cut.",
        "Use a smaller feed, a pilot hole or another machine.",
    ),
    Code(
        "S503",
        "The cut needs more thrust than the machine is rated for",
        "The table or column springs, and the drill grabs when it breaks through.",
        "Use a smaller feed, a pilot hole or another machine.",
    ),
    Code(
        "S504",
        "The quill does not travel far enough",
        "The hole would not be finished, or the work would be moved with the spindle turning.",
        "Use a shorter drill set lower, another machine, or drill from both sides.",
    ),
    Code(
        "S505",
        "The holding is too weak",
        "Work that comes loose is swung round by the drill and strikes the operator.",
        "Clamp harder, further from the drill, or against a positive stop.",
    ),
    Code(
        "S506",
        "The holding is not shown to be strong enough",
        "Nobody may stand at a spindle on a guess about the clamp.",
        "Enter clamp force, friction and arm, or a positive stop with its rated force.",
    ),
    Code(
        "S507",
        "A figure is not computed",
        "A factor is unknown, and a guess is not published.",
        "Enter the key named, with its source.",
    ),
    Code(
        "S508",
        "The tool is beyond the machine's capacity",
        "A shank that does not fit the chuck slips; a drill beyond the rating stalls and grabs.",
        "Use a tool within the capacity, or another machine.",
    ),
    Code(
        "S509",
        "A figure is outside its recommended range",
        "It may be right for this job, but somebody should have a reason.",
        "Change the value, or say in the change note why.",
    ),
    Code(
        "S510",
        "The lever asks more of a hand than it can give",
        "Whoever leans on the lever falls into the work when the drill breaks through.",
        "Use a smaller feed, a pilot hole, a longer lever or another machine.",
    ),
    Code(
        "S511",
        "The drill does not suit the shape of the work",
        "A drill as wide as the bar or bore has nothing to guide it, and throws the work.",
        "Use a smaller drill, or check the sizes entered.",
    ),
    Code(
        "S512",
        "The holding gives way at break-through",
        "A drill whose pull is kept screws itself into the last of the metal, and spins the work.",
        "Put a stop on the feed, use a pilot hole or a finer feed, or hold the work harder.",
    ),
    Code(
        "S513",
        "The tap gets more torque than it stands",
        "A tap that breaks throws pieces, and stays in the hole. A slipping clutch cuts no thread.",
        "Use a larger drill inside the thread's limits, or another tap.",
    ),
    Code(
        "A601",
        "A published address is gone",
        "Lists, cards and symbols on the wall point to it.",
        "Put the id back, or forward the address in content/forwards.yml to what takes its place.",
    ),
    Code(
        "A602",
        "An address is not in the register",
        "Only a registered address is kept from breaking later.",
        "Run `benchleaf register` and commit content/addresses.yml.",
    ),
    Code(
        "A603",
        "The register of addresses is damaged",
        "It is the proof that no link breaks; it is written by a command, never by hand.",
        "Restore the file from the last commit and run `benchleaf register`.",
    ),
    Code(
        "A604",
        "A job changed in meaning and its revision did not",
        "People are signed off on a revision. Where it stays and the meaning goes, nobody sees "
        "that they must be taught again.",
        "Advance the revision and write the change note; or declare wording only, where it is.",
    ),
    Code(
        "A605",
        "A revision is not in the register of revisions",
        "Only a registered revision can be shown to mean today what it meant when it was taught.",
        "Run `benchleaf register` and commit content/revisions.yml.",
    ),
    Code(
        "A606",
        "The register of revisions is damaged",
        "It is the proof that a revision still means what was taught; a command writes it.",
        "Restore the file from the last commit and run `benchleaf register`.",
    ),
    Code(
        "A607",
        "A forwarding entry does not lead from an old address to a living one",
        "Who follows an old list or card would stand before nothing, or before the wrong job.",
        "Write the old address as it was published, and a new address that is there now.",
    ),
    Code(
        "P701",
        "A link leads to no file",
        "The reader would meet the browser's own error page.",
        "Correct the link.",
    ),
    Code(
        "P702",
        "A link leads to no place on its page",
        "The reader would land at the top and look for the step.",
        "Correct the part after #.",
    ),
    Code(
        "P703",
        "A page asks for something outside the disk",
        "The kiosk has no network: the page would wait, or break.",
        "Name the source in plain text, or ship the file.",
    ),
    Code(
        "P704",
        "An anchor stands twice on a page",
        "A link to it leads to the first one only.",
        "Give one of the two another id.",
    ),
    Code(
        "P705",
        "A published address is not in the built site",
        "A link on a list or card in the shop leads nowhere.",
        "Look for an own template or a plugin that leaves the page or the anchor out.",
    ),
    Code(
        "P706",
        "A setting in mkdocs.yml cannot work from disk",
        "Whoever set it expects it on the shop floor, and it does nothing there or asks a network.",
        "Take the setting out; what the manual has instead stands in the guide.",
    ),
)
