"""HTML comments, so that they hide only themselves: text behind one is read, a list or a table goes on around one.

CommonMark takes the whole line that a comment begins on for HTML, and ends lists and tables there. A manuscript is full
of comments (stets, notes to the editor), so comments on lines of their own are found in a first pass over the blocks
and taken out of the second. Comments inside a line are left to the inline parser.
"""

from markdown_it.rules_block import StateBlock
from markdown_it.rules_inline import StateInline

from lint_rules import lazy_re

OPENING = "<!--"
# A comment that holds the beginning of another was not closed itself: read on, it would hide the text between the two.
COMMENT = lazy_re.compile(r"<!--(?:-?>|(?:(?!<!--)[\s\S])*?-->)")
HTML_COMMENT, UNCLOSED_COMMENT = "comment", "unclosed_comment"


def comment_block(state: StateBlock, line: int, end_line: int, silent: bool) -> bool:
    """Block rule: a comment that begins a line and has its last line to itself."""
    start = state.bMarks[line] + state.tShift[line]
    if not state.src.startswith(OPENING, start) or state.is_code_block(line):
        return False
    last, end = _last_line(state, line, end_line)
    if end < 0:
        if silent:
            return True
        token = state.push(UNCLOSED_COMMENT, "", 0)
        token.meta = {"start": start, "end": state.eMarks[line]}
        state.line = line + 1
        return True
    rest = state.src[end : state.eMarks[last]]
    if rest.strip() and last == line:
        return False  # the inline parser reads it, and the text behind it
    if silent:
        return True
    token = state.push(HTML_COMMENT, "", 0)
    token.map = [line, last + 1]
    token.meta = {"start": start, "end": end}
    if rest.strip():
        state.bMarks[last] = end
        state.tShift[last] = len(rest) - len(rest.lstrip(" \t"))
        state.line = last
    else:
        state.line = last + 1
    return True


def _last_line(state: StateBlock, line: int, end_line: int) -> tuple[int, int]:
    """The line a comment ends on, and where it ends; (line, -1) when it does not inside its container."""
    start = state.bMarks[line] + state.tShift[line]
    match = COMMENT.match(state.src, start)
    if match is None:
        return line, -1
    last = line
    while state.eMarks[last] < match.end():
        last += 1
        outdented = last < end_line and state.sCount[last] < state.blkIndent and not state.isEmpty(last)
        if last >= end_line or outdented:
            return line, -1
    return last, match.end()


def unclosed_comment(state: StateInline, silent: bool) -> bool:
    """Inline rule: a comment that is not closed inside its paragraph hides the rest of its line."""
    if not state.src.startswith(OPENING, state.pos):
        return False
    end = state.src.find("\n", state.pos)
    end = state.posMax if end < 0 else min(end, state.posMax)
    if not silent:
        token = state.push(UNCLOSED_COMMENT, "", 0)
        token.content = state.src[state.pos : end]
    state.pos = end
    return True
