"""``hornbook serve``: a language server (LSP) over standard input and output."""

import argparse
import logging
import os
import sys
from dataclasses import replace
from typing import NoReturn

from lint_rules.exit_status import CLEAN
from lint_rules.session import tools

_NO_GOODBYE = 1  # LSP 3.17, exit: 1 where no shutdown came before


def run(arguments: argparse.Namespace) -> NoReturn:
    """Serve one editor until it says goodbye."""
    from lint_rules.editor.recent_language import RecentLanguage
    from lint_rules.editor.server import build_server

    logging.basicConfig(stream=sys.stderr, level=logging.WARNING)  # standard output is the protocol's
    logging.getLogger("pygls").setLevel(logging.ERROR)  # an editor that cancels too late is nothing to tell
    common = argparse.Namespace(english=arguments.english, no_cache=True)  # what is typed is not kept on disk
    with tools(common) as kit:
        server = build_server(replace(kit, language=RecentLanguage(kit.language)))
        server.start_io()
    status = CLEAN if server.protocol.said_goodbye else _NO_GOODBYE
    sys.stderr.flush()
    os._exit(status)  # the editor is gone: nobody waits for what is still being read, or for an English checker
