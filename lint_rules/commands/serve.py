"""``hornbook serve``: a language server (LSP) over standard input and output."""

import argparse
import logging
import sys
from dataclasses import replace

from lint_rules.exit_status import CLEAN
from lint_rules.session import tools


def run(arguments: argparse.Namespace) -> int:
    """Serve one editor until it says goodbye."""
    from lint_rules.editor.recent_language import RecentLanguage
    from lint_rules.editor.server import build_server

    logging.basicConfig(stream=sys.stderr, level=logging.WARNING)  # standard output is the protocol's
    common = argparse.Namespace(english=arguments.english, no_cache=True)  # what is typed is not kept on disk
    with tools(common) as kit:
        build_server(replace(kit, language=RecentLanguage(kit.language))).start_io()
    return CLEAN
