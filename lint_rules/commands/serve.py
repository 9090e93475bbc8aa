"""``hornbook serve``: a language server (LSP) over standard input and output."""

import argparse
import logging
import os
import sys

from lint_rules.exit_status import CLEAN
from lint_rules.session import tools


def run(arguments: argparse.Namespace) -> int:
    """Serve one editor until it says goodbye."""
    from lint_rules.editor.server import build_server

    logging.basicConfig(stream=sys.stderr, level=logging.WARNING)  # standard output is the protocol's
    common = argparse.Namespace(english=os.environ.get("HORNBOOK_ENGLISH") or None, no_cache=False)
    with tools(common) as kit:
        build_server(kit).start_io()
    return CLEAN
