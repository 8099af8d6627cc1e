"""Codes of good instruction: what makes a breakdown that can be taught."""

from .code import Code

INSTRUCTION = (
    Code(
        "V513",
        "A step asks for two actions",
        "A learner is shown, and checked on, one advance of the work at a time.",
        "Split the step, or name the one thing that both actions are for.",
    ),
    Code(
        "V514",
        "A sentence is too long",
        "Published lengths of simplified technical English: 20 words in a procedure, 25 in a "
        "description. A longer sentence is lost on who reads in a second language.",
        "Make two sentences, or leave words out.",
    ),
    Code(
        "V515",
        "A step does not begin with a verb",
        "A step is something to do; a title that names a thing does not say what.",
        "Begin with the command: 'Clamp the plate'.",
    ),
    Code(
        "V516",
        "Too many steps, or too many key points in one",
        "A trade textbook gives 5 to 7 steps (a template up to 9), and 3 to 5 key points in any one"
        " step at most; nobody keeps more in mind.",
        "Join steps that have few key points, or split the step or the job.",
    ),
    Code(
        "V517",
        "A reason gives no reason",
        "Who knows why does not leave the point out when the trainer is gone.",
        "Say what spoils, breaks or hurts when the point is left out.",
    ),
    Code(
        "V518",
        "A step that can injure has no hazard message",
        "The message must stand before the step in which it bites.",
        "Name the hazard in the step's `hazards`.",
    ),
    Code(
        "V519",
        "Equipment worn is the only control of a hazard",
        "In the published order of controls (MIL-STD-882E 4.3.4, ISO 45001 8.1.2) equipment worn "
        "comes last: it is what is left when the rest has failed.",
        "Name what is designed out, guarded, warned of or done another way.",
    ),
    Code(
        "V520",
        "A hazard is shown later than it bites",
        "The learner has met the danger before reading of it.",
        "Add the hazard to the step named.",
    ),
    Code(
        "V521",
        "An accepted warning is never raised",
        "An exception that is left behind hides the warning on the day it means something.",
        "Take the exception out.",
    ),
    Code(
        "V522",
        "Gloves are asked for and forbidden in one step",
        "Who is told both does what is easier, and a spindle catches gloves.",
        "Split the step where gloves go on or off, or correct one of the two.",
    ),
    Code(
        "V523",
        "A tool of the job does not go into the machine's chuck",
        "The operator would look for another way to hold it.",
        "Name a tool that fits; accept it where the tool is used by hand.",
    ),
    Code(
        "V524",
        "Nothing says what comes after a job",
        "A part that nobody takes on lies in the way, or goes out unfinished.",
        "Write `operation_after`, or `end_of_route` where no operation follows.",
    ),
    Code(
        "V525",
        "The text of a picture does not stand for it",
        "Who cannot see the picture, or prints without it, gets nothing.",
        "Say in words all that the picture shows.",
    ),
    Code(
        "V526",
        "A breakdown was not reviewed for longer than the shop allows",
        "Machines, tools and habits change, and the page does not by itself (ISO 9001 7.5.3: no "
        "unintended use of what is out of date).",
        "Read it at the machine, mend it, and write the day under `reviewed`.",
    ),
    Code(
        "V527",
        "Former revisions are out of order",
        "The history on the page would show a change before the one it followed.",
        "Put the newest first, each older than the one above.",
    ),
    Code(
        "V528",
        "Hands inside are not protected well enough",
        "29 CFR 1910.147(b): push buttons and other control-circuit devices, so an emergency stop "
        "too, are no energy isolating devices. (a)(2)(ii): loading in normal production is not "
        "covered; servicing in it is, where a guard is off or a body part is in the danger zone; "
        "minor, routine servicing that is part of production may be protected otherwise. House "
        "rule: where the hand is on the driven part itself (turning by hand, tool change), an "
        "interlock alone is too weak.",
        "Cleaning and gauging: guard with interlock, own control of the start, or lock. Turning "
        "by hand and tool change: own control of the start, or lock. Servicing: lock, or own "
        "control of the start with `minor_servicing`. Own control is the isolator off, or the plug "
        "out, in reach and sight of the one whose hands are inside.",
    ),
    Code(
        "V529",
        "A step shows hands at a part that can move, and does not say what protects them",
        "Hands at chuck, spindle or wheel want a stated protection (29 CFR 1910.147(a)(2)(ii), the "
        "note on minor servicing). An emergency stop is for an emergency: pressing it is no "
        "preparation for hands inside (1910.147(b)).",
        "Add `hands_inside` with doing, protected_by and how. Looked for: chuck, spindle, rim or "
        "wheel turned by hand, a gauge at the wheel, a tool fitted in the chuck, the emergency "
        "stop pressed in before hands go in.",
    ),
    Code(
        "V530",
        "A trainer's note plays a trick on the learner",
        "House rule. Who is tricked at a machine learns to watch the trainer, not the work; and a "
        "trainer who turns away or says nothing cannot stop what he has set up.",
        "Stand in reach of the stop, say beforehand that one thing will be wrong, and write it "
        "under `planted`.",
    ),
    Code(
        "V531",
        "A fault is set on purpose and not written as planted",
        "House rule. What is set wrong for a lesson and forgotten meets the next operator as a "
        "real fault.",
        "Write it under `planted` with `what` and `put_right`: the get-ready list and the try-out "
        "record then show a line to tick. Samples to sort are no planted fault: list them under "
        "`props`.",
    ),
    Code(
        "V532",
        "A job builds on another job and does not ask for it",
        "House rule. The timetable and the plan follow `know_first` only: the learner would come "
        "here before the skill was taught.",
        "Add the job named to `know_first`, or say the skill here.",
    ),
    Code(
        "V533",
        "A hazard is called never met that the job meets, or that its machine does not have",
        "The page would leave out a warning that is needed at a step, or take away one that was "
        "never there.",
        "Take it out of `not_met`, or out of the job and its steps where it truly never bites.",
    ),
    Code(
        "V534",
        "The text and the tray say different numbers",
        "A tray shows a missing part by its empty place only while both say how many there are.",
        "Make the number in `hand_on` and the tray's rows and places agree.",
    ),
)
