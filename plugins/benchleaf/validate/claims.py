"""By which name a sentence calls a figure: `set the depth stop to 12 mm` is the depth stop's.

Only plain claims count: an order, or what is, must be or reads. What a sentence forbids, supposes
or tells of another tool is no claim, so the rule errs towards silence.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.model.said import Said


@dataclass(frozen=True, slots=True)
class Around:
    """One figure with the words about it, in lower case."""

    said: Said
    left: str
    """The sentence up to the figure."""
    clause: str
    """The end of `left` that belongs to the figure: from the last break, or the figure before."""
    right: str
    """The sentence after the figure."""
    after: str
    """The beginning of `right` up to the next break or figure."""


def arounds(sentence: str, said: tuple[Said, ...]) -> Iterator[Around]:
    """Each figure of a sentence with the words about it."""
    lower = sentence.lower()
    for at, one in enumerate(said):
        left, right = lower[: one.start], lower[one.end :]
        begin = said[at - 1].end if at else 0
        end = said[at + 1].start if at + 1 < len(said) else len(lower)
        clause = _BREAK.split(lower[begin : one.start])[-1]
        after = _BREAK.split(lower[one.end : end])[0]
        yield Around(one, left, clause, right, after)


_BREAK = re.compile(
    r"[;()]|\s[-–—]\s|[:,.] (?=(?:and|but|not|never|which|since|because|so|as|where|while|then|"
    r"it|this|that|at|about|the|a|in)\b)"
)


def _seen(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern)


_NO_CLAIM = _seen(
    r"\b(?:not|never|no|nobody|instead|rather|wrong|until|unless|except|without|would|could|might|"
    r"burns?|burned|chatters?|was|were|ran|had|if|when|should|whether|old|former|other|another|"
    r"next|rated|imagine|suppose|too (?:fast|slow|large|small|deep|high|low)|from|than|can|what|"
    r"why|how|which|ask|guess|before it|after it|used to|others?|"
    r"for (?:the|an?) (?!reamer|guide)\w+ (?:drill|job|hole|part|machine|tool|tap|plate))\b|'s\s*$"
    r"|n't\b"
)
_NO_CLAIM_AFTER = _seen(
    r"^[^.;,]{0,40}\b(?:or (?:more|less|fewer|above|below)|at (?:most|least)|too \w+|would|"
    r"does not|do not|looks?|back in|beside|away|apart|out of the (?:way|rack)|wrong|scrap|"
    r"red bin|bad|"
    r"burns?|breaks?|bends?|snaps?|jams?|grabs?|spoils?|tears?|cracks?|chatters?|squeals?|ruins?|"
    r"stalls?|slips?|blunts?|dulls?|overheats?|wanders?)\b"
)
"""What a figure does that is not the job's."""
_BOUND = _seen(
    r"\b(?:at (?:most|least)|more than|less than|up to|over|under|above|below|within|between|"
    r"nearly|by|every|after each|for each|of the last|last|first)\s*$"
)
_ABOUT = _seen(r"\b(?:about|around|roughly|some|almost|nearly|near|close to|good)\s*$")


def is_about(around: Around) -> bool:
    """True where the sentence itself says that its figure is not exact."""
    return _ABOUT.search(around.left) is not None or around.after.startswith(" or so")


def is_disowned(around: Around) -> bool:
    """True where the sentence says that its figure is not so, or what it would do."""
    denied = re.search(r"\b(?:not|never|would|was|were|other|next)\b|n't\b", around.clause)
    return denied is not None or _NO_CLAIM_AFTER.search(around.after) is not None


def names_claimed(around: Around, sentence: str) -> tuple[str, ...]:
    """The names by which the sentence calls the figure; the first that the job knows counts."""
    end = _GO.search(sentence[: around.said.start])
    if end is not None and around.said.kind == "length":
        before = _NO_CLAIM.search(sentence[: end.start()].lower())
        if before or _ALONG.match(around.right) or _BOUND.search(around.left):
            return ()
        return ("go",) if end[1].lower() == "go" else ("no-go",)
    if _NO_CLAIM.search(_NOT_SUPPOSING.sub(" ", around.clause)) or _BOUND.search(around.left):
        return ()
    if _NO_CLAIM_AFTER.search(around.after) or around.clause.strip() in ("at", "with", "a", "an"):
        return ()
    if _ANY.search(around.left) and not _IS_WANTED.search(around.right):
        return ()
    reader = _READERS.get(around.said.kind)
    return reader(around, sentence.lower()) if reader else ()


_ANY = _seen(r"^\W*an? (?:[\w-]+ ){1,4}of\s*$")
"""`A speed of ...` supposes one, unless the sentence goes on to want it."""
_IS_WANTED = _seen(r"\b(?:is enough|is right|is wanted|is what|gives|will do|does it)\b")
_NOT_SUPPOSING = _seen(
    r"\bfrom first touch\b|\bease\b[^.;,]*\bfrom\s*$|\buntil it (?:shows|reads|says|stands at)\b"
)
_GO = _seen(
    r"\b(NO-GO|NOT-GO|GO|(?:[Nn]o-|[Nn]ot-|)[Gg]o(?= (?:end|side|pin|plug|gauge)))\b"
    r"(?: (?:end|side|pin|plug|gauge))?(?: is| of|,| at| measures|:)?\s*$"
)
"""The end of a gauge; `go` alone is a verb."""


_ORDER = r"^\W*(?:(?:then|now|first|and|also|next|you|here|please) )*"
"""What may stand before an order; nothing else may, so that nobody else is the one who does it."""
_IS = r"(?:is|are|must be|must say|must read|must show|says|reads|shows|gives|measures|stands at)"
_ALONG = _seen(r"^\s*(?:up|in|into|deep|long|down|inside|away|beyond|further)\b")
_SPEED_SET = _seen(
    rf"{_ORDER}(?:set|run|use|turn|spin|drill|ream|tap|countersink|counterbore|choose|select|keep|"
    r"start|need|let the (?:drill|reamer|countersink|spindle))\b[^.;]*\b(?:to|at|of|with)"
    rf"\s*(?:about )?$|{_ORDER}(?:use|set|choose|select|need)\s*$"
)
_SPEED_IS = _seen(
    rf"{_ORDER}(?:(?:check|see|make sure) that )?(?:the |this )?"
    r"(?:right |correct |spindle |drill )?"
    rf"(?:speeds?|card|spindle|speed card|dial|belt|drill|reamer|countersink|tap)"
    rf"(?: (?!that|who|which|for)\w+| for this \w+){{0,6}}?"
    rf"(?: {_IS}| (?:turns|runs|spins|is set) at|:| to| of)(?: about)?\s*$"
)
_NOT_THE_SPEED = _seen(
    r"\b(?:wheel|grinder|motor|plate says|rating plate|fan|pump|pilot drill|machine'?s?)\b"
)


def _speed(around: Around, sentence: str) -> tuple[str, ...]:
    if _NOT_THE_SPEED.search(around.clause) or _FASTEST.search(around.after):
        return ()
    is_told = _SPEED_SET.search(around.clause) or _SPEED_IS.search(around.clause)
    return ("speed",) if is_told else ()


_FASTEST = _seen(r"\b(?:fastest|slowest|top speed|highest|lowest)\b")


def _cutting_speed(around: Around, sentence: str) -> tuple[str, ...]:
    return ("cutting speed",) if "speed" in around.left else ()


_FEED_TOLD = _seen(
    rf"{_ORDER}(?:feed|keep|hold|set|go on|go down|bring|advance|use)\b[^.;]*$|"
    r"\bfeed(?: \w+){0,3}? (?:is|of|at|to|must be)\s*(?:about )?$|^\W*at\s*$"
)


def _feed(around: Around, sentence: str) -> tuple[str, ...]:
    if not _FEED_TOLD.search(around.clause):
        return ()
    is_range = around.said.low != around.said.high
    return ("range of feeds", "feed") if is_range else ("feed",)


def _feed_rate(around: Around, sentence: str) -> tuple[str, ...]:
    is_told = "feed" in sentence and _FEED_TOLD.search(around.clause)
    return ("feed rate",) if is_told else ()


_THE_WORK = "plate|work|block|bar|part|piece|stay|pin|casting|bracket"
_FORCES = (
    (
        rf"{_ORDER}(?:clamp|grip|hold) the (?:{_THE_WORK})(?: \w+)? with|"
        r"\bclamp(?:ing)? force(?: is| of| must be)|"
        rf"\bthe (?:vice|jaws?|clamps?) (?:grips?|holds?)(?: the (?:{_THE_WORK}))? with",
        "clamp",
    ),
    (
        r"\bthrust(?: (?:on|of|along) the \w+)?(?: is| of)|\bdrill presses(?: \w+){0,4} with",
        "thrust",
    ),
    (
        rf"{_ORDER}pull(?: down| the lever| on the lever| at the lever| steadily| evenly)*"
        r"(?: with| with a force of)|\bpull(?: (?:on|at|of) the lever)?(?: is| of| must be)",
        "pull",
    ),
)
"""Which force is told, by the words right before the figure."""
_TORQUE = _seen(
    rf"\btorque (?:on|of|at) the (?:{_THE_WORK}|drill|tap|cut|reamer) is(?: about)?\s*$"
)


def _force(around: Around, sentence: str) -> tuple[str, ...]:
    for words, name in _FORCES:
        if re.search(rf"(?:{words})(?: about)?\s*$", around.clause):
            return (name,)
    return ()


def _torque(around: Around, sentence: str) -> tuple[str, ...]:
    return ("torque",) if _TORQUE.search(around.clause) else ()


def _turns(around: Around, sentence: str) -> tuple[str, ...]:
    is_all = re.search(r"\b(?:first bite|in all|altogether)\b", sentence)
    return (
        ("turns",) if is_all and re.search(r"\b(?:count|turn|tap|make|give)\b", around.left) else ()
    )


_FIT = _seen(
    rf"{_ORDER}(?:fit|take|use|put|chuck|insert|mount|load|choose|pick|bring|drill|open|bore|ream|"
    r"enlarge|countersink|make|run|clamp|slide)\b|"
    r"\b(?:made with|came from|comes from|needs) (?:the|an?)\s*$"
)
_TAKEN_OUT = _seen(r"^ \w*(?: \w+)?\s*\b(?:back|away|out|off)\b|^[^,;]*\b(?:beside|is the next)\b")


def _angle(around: Around, sentence: str) -> tuple[str, ...]:
    is_tool = re.match(r"\s*(?:countersink|point|cone|drill)\b", around.right)
    if is_tool and _FIT.search(around.clause):
        return ("angle",)
    named = re.search(
        r"\b(?:point|cone|countersink)\b[^.;]{0,20}\b(?:angle|is|of|has)\b", around.left
    )
    return ("angle",) if named and re.search(r"(?:is|has|of|be)\s*$", around.left) else ()


def _class(around: Around, sentence: str) -> tuple[str, ...]:
    return ("class",) if re.search(r"\b(?:ream|seat|hole|bore|fit)\b", around.left) else ()


_OTHER_SCREW = _seen(r"^\s*(?:nuts?|bolts?|studs?|screws? (?:of|in|hold))\b")


def _thread(around: Around, sentence: str) -> tuple[str, ...]:
    if _OTHER_SCREW.search(around.right) or re.search(r"\b(?:lies|leave|tighten)\b", sentence):
        return ()
    if re.match(r"\s*(?:[\w-]+ )?(?:flat-head |cap )?screws?\b", around.right):
        is_for = re.search(r"\b(?:lets?|for|passes|clears?|takes?)\s+(?:an?|the)\s*$", around.left)
        return ("screw",) if is_for else ()
    if re.match(r"\s*tap hole\b", around.right):
        return ("thread",)
    if re.match(r"\s*(?:hand |second |plug )?(?:tap|thread)\b", around.right):
        is_told = _seen(r"\b(?:cut|put|fit|take|use|run|start|turn|gets?|has|needs?|make|tap)\b")
        return ("thread",) if is_told.search(around.clause) else ()
    is_tapped = re.search(
        r"^(?:then |now )?(?:tap|thread|cut) (?:\w+ ){0,3}$", around.clause.lstrip()
    )
    return ("thread",) if is_tapped and not around.right.startswith(" one") else ()


def _power(around: Around, sentence: str) -> tuple[str, ...]:
    is_asked = re.search(r"\b(?:asks|needs|takes|uses|power (?:at|of|for))\b", around.clause)
    return ("power",) if is_asked and "gives" not in around.clause else ()


def _length(around: Around, sentence: str) -> tuple[str, ...]:
    for read in (_tool_size, _stop, _by_words, _depth, _hole):
        names = read(around, sentence)
        if names:
            return names
    return ()


_OF_A_TOOL = _seen(
    r"^[\s-]*(?:(?:stub|twist|sharp|new|short|long|straight|machine|hand|jobber|good) )*"
    r"(drill|reamer|countersink|counterbore)\b(?! (?:rack|press|vice|chuck|table|stand|bush|hole))"
)
_TOOL_IS = _seen(
    r"(?:^|[:;,.] )(?:and )?(?:the|this|your) (drill|reamer|countersink)"
    r"(?: for this \w+| itself| here)? (?:is|measures|must be)\s*$"
)


def _tool_size(around: Around, sentence: str) -> tuple[str, ...]:
    found = _OF_A_TOOL.search(around.right)
    if found is None and around.said.name:
        return ("drill",) if _FIT.search(around.clause) else ()
    if found is not None:
        rest = around.right[found.end() :]
        is_out = _TAKEN_OUT.search(rest) or re.search(r"\bleave\b", around.clause)
        return (found[1],) if _FIT.search(around.clause) and not is_out else ()
    told = _TOOL_IS.search(around.left)
    return (told[1],) if told and not _NOT_ACROSS.search(around.right) else ()


_STOP = _seen(r"\bdepth stop\b|\bfrom first touch\b.*\bstop\b|\bstop\b(?=.*\bfirst touch\b)")
_OTHER_STOP = _seen(r"\b(?:work|end|positive) stop\b")
_MOVED = _seen(
    r"^\s*(?:on|back|lower|higher|deeper|further|short|up|down|more|less|of|long|wide)\b"
)
_SET_AT = _seen(
    rf"{_ORDER}(?:from first touch,? )?(?:set|adjust|wind|move|lock|put|screw|bring|turn)\b.*"
    r"(?: to| at| on| stop|\buntil it (?:shows|reads|says|stands at)|,)\s*$|"
    rf"\bdepth stop(?: is set to| is set at| is at| stands| sits at| at|:| {_IS})\s*$"
)


def _stop(around: Around, sentence: str) -> tuple[str, ...]:
    if _OTHER_STOP.search(around.left) or _MOVED.search(around.right):
        return ()
    is_named = _STOP.search(around.clause) or (
        _STOP.search(around.left + around.right) and re.search(r"\bstop\b", around.clause)
    )
    return ("depth stop",) if is_named and _SET_AT.search(around.clause) else ()


_WORDS: tuple[tuple[str, str, str], ...] = (
    ("overtravel", "", r"^\s*(?:beyond|past|through) the far (?:face|side)\b"),
    ("start", r"\b(?:begin|start|feed)\b.*\b(?:point|drill)\b", r"^\s*above the \w+"),
    ("start", r"\b(?:point|drill)\b", r"^\s*above the \w+\b.*\bbegin to feed\b"),
    ("ease", r"\bease\b.*\b(?:from|at)\s*$", r"^\s*(?:on|of travel|below first touch|[.,])"),
    ("pitch", r"\bpitch\b[^.;,]*\bis\s*$", ""),
    ("quill travel", r"\bquill travels?\b(?: is| of)?\s*$", ""),
    ("pilot", r"", r"^[\s-]*pilot\b"),
    ("pilot", r"\bpilot hole(?: is| of| must be)\s*$", ""),
    ("hole before", r"\breamer needs a hole of\s*$", ""),
)
"""Name, what stands before the figure, and what after it."""
_THICK = _seen(r"^\s*thick\b")
_THICK_THING = _seen(r"^(?:(?:so|here|check that|see that|now) )?the (\w+)(?: is| must be|, )\s*$")


def _by_words(around: Around, sentence: str) -> tuple[str, ...]:
    for name, before, after in _WORDS:
        if re.search(before, around.left) and re.search(after, around.right):
            return (name,)
    thing = _THICK_THING.search(around.left)
    if thing and re.fullmatch(_THE_WORK, thing[1]) and _THICK.search(around.right):
        return ("thickness",)
    return ()


def _depth(around: Around, sentence: str) -> tuple[str, ...]:
    if not re.match(r"\s*deep\b", around.right) or re.search(r"\bpecks?\b", sentence):
        return ()
    if re.search(r"\b(?:cone|countersink|seat for)\b", around.left):
        return ("depth of cone",)
    if re.search(r"\bthread\b|^tap\b(?! hole)", around.left):
        return ("depth of thread",)
    is_told = re.search(r"\b(?:drill|hole)\b", around.left)
    return ("depth of hole",) if is_told else ()


_DRILLS = _seen(r"(?:^|\b(?:then|now|first|and) )(drill|open|bore|ream)\b[^.;]*$")
_NOT_ACROSS = _seen(
    r"^\s*(?:deep|thick|from|away|above|below|beyond|past|apart|long|of|in from|high|at a time|"
    r"more|further|short|and then|before|after|to the)\b"
)
_ACROSS = _seen(r"\b(?:drill|open|bore|ream)(?: (?:the|a|an|this|each|it|to)\b(?: \w+){0,4})+ $")


def _hole(around: Around, sentence: str) -> tuple[str, ...]:
    found = _DRILLS.search(around.left)
    if found is None or _NOT_ACROSS.search(around.right) or not _ACROSS.search(around.left):
        return ()
    return ("reamed hole",) if found[1] == "ream" else ("drilled hole",)


_READERS = {
    "spindle speed": _speed,
    "cutting speed": _cutting_speed,
    "feed": _feed,
    "feed rate": _feed_rate,
    "force": _force,
    "torque": _torque,
    "power": _power,
    "turns": _turns,
    "angle": _angle,
    "class": _class,
    "thread": _thread,
    "length": _length,
}
