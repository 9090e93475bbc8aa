"""Subordinate clauses: relative, if, time, because, reported, participle; second and third conditionals."""

from collections.abc import Iterator, Sequence

from lint_rules import tables
from lint_rules.language.grammar.structures.declaration import Parsed, Range, StructureDeclaration, clause
from lint_rules.language.grammar.structures.sources import HOUSE, profile
from lint_rules.language.parsing.verb_groups import AUXILIARIES, Group
from lint_rules.language.parsing.words import Word

_TIME = frozenset({"when", "whenever", "while", "whilst", "before", "after", "until", "till", "once"})
_TIME_PREPOSITIONS = frozenset({"before", "after", "while", "since", "until"})  # before applying
_AS = frozenset({"as"})
_BECAUSE = frozenset({"because"})
_IF = frozenset({"if"})
_INDIRECT = frozenset({"what", "who", "where", "when", "why", "how", "which", "whose", "whether", "if", "whom"})
_TIME_NOUNS = frozenset({"time", "day", "moment", "way", "year", "minute", "week"})  # the first time I saw it
_TIMES = _TIME_NOUNS | {"month", "morning", "night", "evening", "afternoon", "hour", "season", "summer", "winter"}
_OPENING = frozenset({'"', "``", "“", "‘", "'"})
_INVERTED = frozenset({"had", "were"})
_UNREAL = frozenset({"would", "could", "may-might"})


def _conjunction(parsed: Parsed, group: Group, choice: frozenset[str]) -> Word | None:
    """The word of ``choice`` that opens the clause of a verb group."""
    for index in group.verb.children:
        word = parsed.text.words[index]
        if word.index > group.first:
            return None
        if word.lower in choice and word.dep in ("mark", "advmod", "prep", "dep"):
            return word
    return None


def find_relative_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that says more about a noun; after *time*, *day* and the like it can do without a pronoun."""
    words = parsed.text.words
    for group in parsed.groups:
        verb = group.verb
        if not group.finite or verb.gap:
            continue
        if verb.dep == "relcl" and not (group.subject > group.first and words[group.first].lower in AUXILIARIES):
            first, last = clause(parsed, group)
            asked = words[verb.head].pos == "VERB"  # `Choose who starts.`
            if _is_all(parsed, group, first) or _begins_anew(words[first]):
                continue
            if words[verb.head].capital and words[first].pos == "DET":
                continue  # Nutmeg the cat jumps on his bed
            if first == group.first:  # no pronoun and no subject: a watering can next to the door
                continue
            if words[first].lower == "when" and words[verb.head].lemma not in _TIMES:
                continue  # It loses a point when it touches something.
            if first > verb.head and not asked and not _is_quoted(words, first) and not words[first - 1].gap:
                yield first, last
        elif verb.dep in ("ccomp", "advcl", "parataxis") and group.subject > 0:
            who = parsed.text.reach(words[group.subject])[0]
            noun = words[who - 1]
            alone = not any(other.finite for other in parsed.groups if other is not group)
            if not alone and noun.lower in _TIME_NOUNS and noun.head == verb.index and noun.dep == "npadvmod":
                yield clause(parsed, group, words[who])


def _is_all(parsed: Parsed, group: Group, first: int) -> bool:
    """Say whether what looks like a relative clause is all that its sentence says: Plums, who wants more? On 3 May we
    sing. Card A I have got four legs."""
    words = parsed.text.words
    start, end = next((start, end) for start, end in parsed.text.sentences if start <= group.verb.index < end)
    others = [one for one in parsed.groups if start <= one.verb.index < end and one is not group]
    if any(one.finite for one in others):
        return False
    asked = words[first - 1].lower == "," and words[end - 1].lower == "?"
    determined = any(words[index].pos == "DET" for index in range(max(start, first - 4), first - 1))  # the hat I wore
    return asked or (words[first].tag == "PRP" and not determined and not any(one.imperative for one in others))


def _is_quoted(words: Sequence[Word], first: int) -> bool:
    """Say whether a colon introduces what begins at a word, in quotation marks or not: a question: “Which is it?”"""
    before = first - 1
    while before > 0 and words[before].lower in _OPENING:
        before -= 1
    return words[before].lower == ":"


def _begins_anew(word: Word) -> bool:
    """Say whether a pronoun with a capital begins a sentence of its own behind a label: CHILD A You sell."""
    return word.tag == "PRP" and word.capital and word.lower != "i"


def _condition(parsed: Parsed, group: Group) -> Word | None:
    """The *if* of a condition; `ask if`, `know if` open no condition."""
    mark = _conjunction(parsed, group, _IF)
    if mark is None or group.verb.dep == "ccomp" or group.verb.gap:
        return None
    head = parsed.text.words[group.verb.head]
    asks = head.lemma in tables.words("asking_verbs") and head.index < mark.index and head is not group.verb
    return None if asks else mark


def find_if_clause(parsed: Parsed) -> Iterator[Range]:
    """A condition that opens with if."""
    for group in parsed.groups:
        mark = _condition(parsed, group)
        if mark is not None:
            yield clause(parsed, group, mark)


def find_unreal_conditional(parsed: Parsed) -> Iterator[Range]:
    """An if-clause in the past with would, could or might in the main clause."""
    for group in parsed.groups:
        if not (group.past or group.modal == "could"):
            continue
        mark = _condition(parsed, group)
        other = parsed.by_verb.get(group.verb.head)
        if mark is not None and other is not None and other.modal in _UNREAL:
            first, last = clause(parsed, group, mark)
            yield min(first, other.first), max(last, other.last)


def inverted_condition(parsed: Parsed, first: int) -> Group | None:
    """The main clause's verb group of a condition that opens at a word, with had or were in the place of if; None where
    none opens there. Told by the words, for no parser is sure of it: Had she known, she would have come."""
    words = parsed.text.words
    start, end = next((pair for pair in parsed.text.sentences if pair[0] <= first < pair[1]), (0, 0))
    said = words[first:end]
    if words[first].lower not in _INVERTED or any(word.pos != "PUNCT" for word in words[start:first]):
        return None
    comma = next((word.index for word in said if word.lower == ","), 0)
    inside = words[first + 1 : comma]
    whole = inside and (words[first].lower == "were" or any(word.tag in ("VBN", "VBD", "VB") for word in inside[1:]))
    if not whole or any(word.lower == "?" for word in said):
        return None
    return next((one for one in parsed.groups if comma < one.first < end and one.modal in _UNREAL), None)


def find_inverted_conditional(parsed: Parsed) -> Iterator[Range]:
    """A condition that opens with had or were in the place of if, with would, could or might in the main clause."""
    for word in parsed.text.words:
        main = inverted_condition(parsed, word.index) if word.lower in _INVERTED else None
        if main is not None:
            yield word.index, main.last


def find_time_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that says when; `Ask when he comes` asks a question."""
    for group in parsed.groups:
        verb = group.verb
        if verb.dep not in ("advcl", "pcomp", "ccomp") or verb.gap:
            continue
        head = parsed.text.words[verb.head]
        mark = _conjunction(parsed, group, _TIME)
        if mark is None and verb.dep == "pcomp" and head.lower in _TIME_PREPOSITIONS:
            mark = head
        if mark is None:  # as soon as
            mark = _conjunction(parsed, group, _AS)
            if mark is not None and parsed.text.words[mark.index - 1].lower != "soon":
                mark = None
        asks = mark is not None and mark.lower == "when" and head.lemma in tables.words("when_questions")
        if mark is not None and not (asks and head.index < mark.index):
            yield clause(parsed, group, mark)


def find_because_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that says why."""
    for group in parsed.groups:
        mark = _conjunction(parsed, group, _BECAUSE)
        if mark is not None and not group.verb.gap:
            yield clause(parsed, group, mark)


def find_reported_clause(parsed: Parsed) -> Iterator[Range]:
    """What somebody says or thinks, told as a clause."""
    words = parsed.text.words
    for group in parsed.groups:
        verb = group.verb
        if verb.dep not in ("ccomp", "parataxis") or not group.finite or verb.gap:
            continue
        head = words[verb.head]
        if head.index > group.first or head.mention or head.lemma not in tables.words("reporting_verbs"):
            continue
        if verb.dep == "parataxis" and head.index != group.subject - 1:
            continue
        before = words[head.index + 1 : group.first]
        first = parsed.text.reach(verb)[0]
        if first > head.index and not any(
            word.lower in _QUOTES or (word.lower in _INDIRECT and word.index >= first) for word in before
        ):
            yield head.index, clause(parsed, group)[1]


_QUOTES = frozenset({'"', "``", "''", "'", ":"})


def find_participle_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that rests on a participle alone."""
    words = parsed.text.words
    for group in parsed.groups:
        verb = group.verb
        if verb.tag not in ("VBG", "VBN") or group.first != verb.index or group.shares or verb.gap:
            continue
        if verb.dep == "xcomp":  # `find it using a map`; but `like swimming`, `is swimming`
            head = words[verb.head].lemma
            loose = verb.tag == "VBG" and head not in tables.words("verb_ing") and head not in ("be", "get")
            loose = loose and verb.head + 1 != verb.index  # they ban whistling: what they ban
        else:
            loose = verb.dep in ("acl", "advcl")
        if not loose or verb.lower in tables.words("participle_prepositions"):
            continue
        if verb.tag == "VBN" and verb.lower == verb.lemma:
            continue  # the tram shed on Saturday: a form that is no participle to look at may be a noun
        first, last = verb.index, clause(parsed, group)[1]
        inside = words[max(0, first - 1) : last + 1]
        if (
            any(word.gap or word.lower == "|" for word in inside)
            or _said_again(words, first)
            or _is_listed(parsed, first, last)
            or _is_title(words, first)
        ):
            continue  # a gap may hold its conjunction; `flying, flying, flying!` is one verb
        if not any(words[index].lower in _TIME for index in verb.children if index < verb.index):
            yield first, last


def _is_title(words: Sequence[Word], at: int) -> bool:
    """`Panel 2.1 Talking about the past`, `Missing: the key`: a title of what follows, that rests on no noun."""
    before, after = words[max(0, at - 1) : at], words[at + 1 : at + 2]
    return any(word.lower[:1].isdigit() for word in before) or any(word.lower == ":" for word in after)


def _is_listed(parsed: Parsed, first: int, last: int) -> bool:
    """`You need: card, string, colouring pencils`: a thing among others that are needed."""
    words = parsed.text.words
    start, end = next((pair for pair in parsed.text.sentences if pair[0] <= first < pair[1]), (0, 0))
    said = [word.lower for word in words[start:end]]
    return last - first == 1 and said[:2] in (["you", "need"], ["you", "'ll"], ["we", "need"]) and said.count(",") > 1


def _said_again(words: Sequence[Word], at: int) -> bool:
    """Say whether a word only repeats the one before it."""
    before = next((word for word in reversed(words[:at]) if word.pos != "PUNCT"), None)
    return before is not None and before.lower == words[at].lower


DECLARATIONS = (
    StructureDeclaration(
        name="relative-clause",
        gloss="a clause that says which one: the girl who lives here",
        level="A2",
        higher="B1",
        source=profile("172, 174, 179 A1.1 to B2.2, EGP A2; B1 by its column GSELO"),
        examples=(
            "This is the girl «who lives here».",
            "The shell «she found» was pink.",
            "The island «where Pilo lives»",
            "This is the boat «my grandpa built».",
        ),
        decoys=(
            "CHILD A You sell. Say hello.",
            "Who lives here?",
            "Hot plums, who wants more?",
            "There is a watering can next to the greenhouse.",
            'The other team asks you a question: "Which is longer, the hill road or the river road?"',
            "On Sat 3 Feb we sing.",
            "Every morning at quarter to five Nutmeg the cat jumps on his bed.",
            "I know who lives here.",
            "I think that it is a cat.",
            "Will, where are you?",
            "What time ____ the show start?",
            "Choose who reads and who acts.",
        ),
        find=find_relative_clause,
    ),
    StructureDeclaration(
        name="if-clause",
        gloss="a condition: if it rains",
        level="A2",
        source=profile("156 A2.1"),
        examples=("«If it rains», we stay at home.", "Wave «if you can hear me»!"),
        decoys=("Let me know if you come.", "Mum asked if we were hungry."),
        find=find_if_clause,
    ),
    StructureDeclaration(
        name="time-clause",
        gloss="a clause with when, while, before, after, until",
        level="A1",
        higher="A2",
        source=profile("155 A1.2, EGP A2"),
        examples=(
            "«When I wake up», I wash my face.",
            "Clap «before you say the word».",
            "Wait «until the bell rings».",
        ),
        decoys=("When is your birthday?", "I go home after lunch.", "Ask when he gets up."),
        find=find_time_clause,
    ),
    StructureDeclaration(
        name="because-clause",
        gloss="a clause with because",
        level="A1",
        higher="A2",
        source=f"{profile('161 A1.1, for all such conjunctions')}; the higher level: {HOUSE}",
        examples=("I am happy «because it is sunny».",),
        decoys=("I am sad because of you.", "Why are you sad?"),
        find=find_because_clause,
    ),
    StructureDeclaration(
        name="reported-clause",
        gloss="what somebody says or thinks: I think it's a cat",
        level="A1",
        higher="A2",
        source=profile("162 A1.2, 152 A2.1, 200 A2.2; EGP A2"),
        examples=("I «think it is a cat».", "He «said that he was tired».", "I «hope you like it»."),
        decoys=("I know where it is.", 'He said, "I am tired."', "Do you know if it is open?"),
        find=find_reported_clause,
    ),
    StructureDeclaration(
        name="participle-clause",
        gloss="a clause that rests on a participle: the boy wearing a hat",
        level="B1",
        higher="B2",
        source=profile("213 B1.1; 169, 171, 213 EGP B2"),
        examples=(
            "The boy «wearing a hat» is my brother.",
            "A hut «made of driftwood»",
        ),
        decoys=(
            "You need card, string, colouring pencils.",
            "Were five children doing homework?",
            "You are flying, flying, flying!",
            "She stopped ____ he was giving a talk.",
            "The boy is wearing a hat.",
            "It was a sleeping dragon.",
            "I like wearing a hat.",
            "Panel 2.1 Talking about the past",
            "Missing: the key to the hut",
        ),
        find=find_participle_clause,
        sure=False,
        measured="right in 23 of 31 finds: 16 of 24 in web English, 7 of 7 in the course English it was tuned on",
    ),
    StructureDeclaration(
        name="second-or-third-conditional",
        gloss="an unreal condition: if I had wings, I would fly",
        level="B1",
        source=profile("215 B1.2, 216 B2 by its frequency"),
        examples=("«If I had wings, I would fly».", "What «would you do if you met a giant»?"),
        decoys=("If it rains, we stay at home.", "If it's sunny, we'll play."),
        find=find_unreal_conditional,
    ),
    StructureDeclaration(
        name="inverted-conditional",
        gloss="an unreal condition without if: had I known, I would have come",
        level="C1",
        source=HOUSE,
        examples=(
            "«Had he read the packet, he would never have made» the biscuits.",
            "«Had the council listened to her, the bridge would never have been lost».",
            "«Were I a bird, I would fly» to the island.",
        ),
        decoys=(
            "Had he read it before he came?",
            "They had read the packet, so they would not eat it.",
            "Were you at home? I would like to come.",
            "If I had wings, I would fly.",
        ),
        find=find_inverted_conditional,
    ),
)
