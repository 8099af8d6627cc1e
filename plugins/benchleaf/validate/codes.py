"""Codes that no one rule owns: of a field's shape, of ids, of the crew folder."""

from __future__ import annotations

from benchleaf.diagnose import Code

from .changed_files import CODE as CHANGES_DAMAGED
from .families import CODE as FAMILY_ROW
from .machine_groups import CODE as GROUP_OR_MACHINE

USED_TWICE = Code(
    "L303",
    "An id is used twice",
    why="An address must lead to one place.",
    instead="Give one of the two another id.",
)

CODES = (
    CHANGES_DAMAGED,
    GROUP_OR_MACHINE,
    FAMILY_ROW,
    Code(
        "F201",
        "An unknown key",
        why="A mistyped key would drop its text from the page without a word.",
        instead="Use one of the known keys.",
    ),
    Code(
        "F202",
        "A key is missing",
        why="The page cannot be built, or would hide what a learner needs.",
        instead="Write the key.",
    ),
    Code(
        "F203",
        "A value has the wrong shape",
        why=(
            "A list where one text is wanted, or the other way round, cannot be placed on the page."
        ),
        instead="Follow the shape named.",
    ),
    Code(
        "F204",
        "A value is not one of those allowed",
        why="The choice decides how the page reads.",
        instead="Use one of the words named.",
    ),
    Code(
        "F205",
        "A quantity is not understood",
        why="A figure is only published when its number is certain.",
        instead="Write number, space, unit.",
    ),
    Code(
        "F206",
        "A quantity has the wrong unit",
        why="A number in the wrong unit can break a drill or a hand.",
        instead="Use one of the units named.",
    ),
    Code(
        "F207",
        "An id is not well formed",
        why="Ids become addresses that must work on every disk, for ever.",
        instead="Use letters, digits and single hyphens.",
    ),
    Code(
        "F208",
        "A value is not acceptable",
        why="The field cannot take this value.",
        instead="Follow the message.",
    ),
    Code(
        "F209",
        "A hand is named as a way of holding work",
        why="Work that turns takes the hand with it. A hand never holds work against a drill.",
        instead="Use a vice, clamps, a fixture or a positive stop.",
    ),
    Code(
        "F210",
        "A file's name is not its record's id",
        why="Whoever looks for a record by its id looks in the wrong file.",
        instead="Name the file by the id, in lower case, with .yml.",
    ),
    USED_TWICE,
    Code(
        "C701",
        "A person's record says two things about one job",
        why="A plan cannot tell whether they can do it, are learning it, or need not.",
        instead="Keep one of the two entries.",
    ),
    Code(
        "C702",
        "The dates of a sign-off contradict one another",
        why="Nobody last did a job before they proved that they can.",
        instead="Correct `judged` or `last_done`.",
    ),
    Code(
        "C703",
        "A sign-off names a revision that the manual does not have yet",
        why="Either the record or the manual is not the newest.",
        instead="Correct the record, or read the newest breakdowns.",
    ),
    Code(
        "C704",
        "The crew folder lies where it would be published",
        why="People's data belongs in no manual that a kiosk shows.",
        instead="Put the crew folder outside content/, best outside the repository.",
    ),
    Code(
        "C705",
        "A sign-off for what was never released",
        why="Nobody could say later what that person was taught.",
        instead="Sign people off on a released revision; correct the record, or read the manual.",
    ),
    Code(
        "C709",
        "Somebody is signed off on a draft, or taught from one",
        why="A page with gaps teaches a guess, and nobody can prove that they do a guess right.",
        instead="Write what is still open (V901), teach, and let a trainer judge it then.",
    ),
    Code(
        "C720",
        "Something is said to be proved on a day that is still to come",
        why="Nobody proved it yet, and the sign-off would hold longer than it should.",
        instead="Correct the day.",
    ),
    Code(
        "C721",
        "A sign-off is older than its revision",
        why="Nobody can have proved what was not in force yet.",
        instead="Correct the day, or write the revision that was in force.",
    ),
    Code(
        "C722",
        "Somebody judges, teaches or authorises themselves",
        why="A proof is what another one saw.",
        instead="Write who it was.",
    ),
    Code(
        "C723",
        "A record rests on the word of nobody known",
        why="A code of nobody's proves nothing, and a slip in it hides who judged.",
        instead="Correct the code; keep a file of who has left, with their last_day.",
    ),
    Code(
        "C724",
        "Somebody judges a job with no authority to judge it",
        why="The shop records who may judge, and this judge is not among them.",
        instead="Write the authority with its proof, or correct who judged.",
    ),
    Code(
        "C725",
        "Somebody is signed off on a job under lock with no authority to lock off",
        why="Whoever services a machine puts the lock on it, and must be authorised to.",
        instead="Write the authority with its proof. Until then nobody counts on them.",
    ),
    Code(
        "C726",
        "A sign-off stands without what must be known first",
        why="The breakdown leaves out what its learners know already.",
        instead="Write the missing sign-offs, or teach what is missing.",
    ),
    Code(
        "C727",
        "A practice piece was timed much too short",
        why="One slip of a unit bends the whole curve, and with it the checks that follow.",
        instead="Correct the time, or take the piece out.",
    ),
    Code(
        "C728",
        "A licence has nearly the name of one that is asked for",
        why="Under another name it counts for nothing, and its holder may not run the job.",
        instead="Write the name that crew.yml has under asks_for.",
    ),
    Code(
        "C729",
        "A check says that something was missed which the breakdown does not have",
        why="The next check begins with it, and a trainer would look for it in vain.",
        instead="Write the step's id, and the key point by how its words begin.",
    ),
    Code(
        "C740",
        "A record made at the bench lacks what its kind must say, or says more",
        why="Without day, revision and fingerprint of its page nobody can tell what was taught.",
        instead="Make it on the record page of the job; nothing is ever filled in.",
    ),
    Code(
        "C741",
        "A record names a page that there cannot have been",
        why="It would prove something that nobody was shown.",
        instead="Make it on the record page of the newest manual, with the right clock.",
    ),
    Code(
        "C742",
        "A record has somebody where they were not",
        why="Who is away, or at another job at that time, neither taught nor learned here.",
        instead="Correct day or times, or put the other record right.",
    ),
    Code(
        "C743",
        "What a record says was reached does not follow from what it holds",
        why="A round left out, a bad piece or a fault left in would count as learned.",
        instead="Take in what comes before it, or write what was really reached.",
    ),
    Code(
        "C744",
        "A record is of a job that nobody may run",
        why="A job on hold, or beyond a limit, is neither taught nor done.",
        instead="Correct job or day; else tell who may lift the hold.",
    ),
    Code(
        "C745",
        "A piece took less time than the machine cuts at it",
        why="A watch that was stopped too early bends the curve, and the checks that follow.",
        instead="Take the time out, and leave the piece.",
    ),
    Code(
        "C746",
        "A record names a step that its job does not have, or counts too much of it",
        why="It is of another job, or of another page.",
        instead="Make it on the record page of the job.",
    ),
    Code(
        "C747",
        "A correction fits no record",
        why="What was to be put right still counts, and nobody sees that it should not.",
        instead="Name the record of the same person by its file in records/.",
    ),
    Code(
        "C748",
        "A record was changed after it was taken in",
        why="Nobody can tell what was seen at the bench any more.",
        instead="Put the file back, and put it right by a record of its own.",
    ),
    Code(
        "C749",
        "Somebody did a job, or was looked at, with no sign-off that held",
        why="It must not make a sign-off last that has ended.",
        instead="Make a record of the lesson or of the try-out.",
    ),
)
