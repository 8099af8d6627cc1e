"""Codes of the first stops: R reading, F fields, L links by id."""

from .code import Code

READING = (
    Code(
        "R101",
        "A file cannot be read",
        "A breakdown that is not read is a page that is missing.",
        "Check that the file exists, is a plain file and may be read.",
    ),
    Code(
        "R102",
        "A file is not UTF-8",
        "A wrong encoding turns ° and ± into other signs, and a figure into another figure.",
        "Save the file as UTF-8 in the editor.",
    ),
    Code(
        "R103",
        "A file is too long",
        "A breakdown of such length cannot be taught, and is most likely another file.",
        "Split the job, or move the file out of content/.",
    ),
    Code(
        "R104",
        "Lists are nested too deep",
        "No record here needs such depth; it is most likely a slip of indentation.",
        "Check the indentation near the place named.",
    ),
    Code(
        "R105",
        "A merge conflict is left in a file",
        "Half of each version would be published as one job.",
        "Choose one side and take the marker lines out.",
    ),
    Code(
        "R106",
        "A tab stands in a file",
        "YAML counts spaces; a tab moves a line to another level without showing it.",
        "Indent with two spaces.",
    ),
    Code(
        "R107",
        "The YAML cannot be understood",
        "Everything after the slip is lost.",
        "Look at the place named and the line above it.",
    ),
    Code(
        "R108",
        "A key is written twice",
        "Plain YAML keeps the last one silently: a key point would vanish.",
        "Keep one, or join the two.",
    ),
    Code(
        "R109",
        "An anchor, alias or merge key is used",
        "A reviewer must see what a step says where it stands, not look it up elsewhere.",
        "Write the text out; share a record (hazard, tool, machine) by its id.",
    ),
    Code(
        "R110",
        "A file is not one record",
        "One file holds one record, so that its history is its own.",
        "Start with `key: value` lines, and keep one document a file.",
    ),
    Code(
        "R111",
        "A YAML tag is used",
        "Tags change a value's meaning in a way nobody reading the page can see.",
        "Take the tag out; the field gives the value its meaning.",
    ),
    Code(
        "R112",
        "A key has no value",
        "An empty value says nothing; often a bare # made the rest of the line a comment.",
        "Write the value, quoted if it starts with #, or take the key out.",
    ),
    Code(
        "R113",
        "A file or folder will not be read",
        "What stands there looks published and is not.",
        "Name the file .yml and put it in the folder of its kind.",
    ),
    Code(
        "F201",
        "An unknown key",
        "A mistyped key would drop its text from the page without a word.",
        "Use one of the known keys.",
    ),
    Code(
        "F202",
        "A key is missing",
        "The page cannot be built, or would hide what a learner needs.",
        "Write the key.",
    ),
    Code(
        "F203",
        "A value has the wrong shape",
        "A list where one text is wanted, or the other way round, cannot be placed on the page.",
        "Follow the shape named.",
    ),
    Code(
        "F204",
        "A value is not one of those allowed",
        "The choice decides how the page reads.",
        "Use one of the words named.",
    ),
    Code(
        "F205",
        "A quantity is not understood",
        "A figure is only published when its number is certain.",
        "Write number, space, unit.",
    ),
    Code(
        "F206",
        "A quantity has the wrong unit",
        "A number in the wrong unit can break a drill or a hand.",
        "Use one of the units named.",
    ),
    Code(
        "F207",
        "An id is not well formed",
        "Ids become addresses that must work on every disk, for ever.",
        "Use letters, digits and single hyphens.",
    ),
    Code(
        "F208",
        "A value is not acceptable",
        "The field cannot take this value.",
        "Follow the message.",
    ),
    Code(
        "F209",
        "A hand is named as a way of holding work",
        "Work that turns takes the hand with it. A hand never holds work against a drill.",
        "Use a vice, clamps, a fixture or a positive stop.",
    ),
    Code(
        "F210",
        "A file's name is not its record's id",
        "Whoever looks for a record by its id looks in the wrong file.",
        "Name the file by the id, in lower case, with .yml.",
    ),
    Code(
        "L301",
        "A reference points nowhere",
        "The reader would meet a dead link, or a job without its machine.",
        "Name a record that exists, or write the record.",
    ),
    Code(
        "L302",
        "Jobs need one another first",
        "A learner could never start either.",
        "Take one of the prerequisites out.",
    ),
    Code(
        "L303",
        "An id is used twice",
        "An address must lead to one place.",
        "Give one of the two another id.",
    ),
    Code(
        "L304",
        "Two glossary terms share a word",
        "The reader would be led to the wrong meaning.",
        "Keep the word with one term.",
    ),
    Code(
        "L305",
        "The route of a part does not join up",
        "One operation hands on to a job that does not expect it.",
        "Make operation_after and operation_before name one another.",
    ),
)
