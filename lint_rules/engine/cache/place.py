"""Where a run keeps what it has found out: never inside what it reads, since whoever sends a book could fill it."""

import argparse
import os
import sys
from pathlib import Path

from lint_rules.course.folder import tree_of
from lint_rules.engine.cache.key_value_store import cache_folder


def folder_for(arguments: argparse.Namespace) -> Path | None:
    """The folder for what is kept; None, and a word to the user, where it lies in a tree that this command reads."""
    folder = cache_folder()
    if folder is None or not os.environ.get("HORNBOOK_CACHE"):  # a user's own cache folder is nobody else's
        return folder
    named = getattr(arguments, "files", None) or getattr(arguments, "dir", None) or "."
    named = [named] if isinstance(named, str) else named  # some commands read several folders
    trees = {tree_of(Path(name)) for name in named}
    if not any(folder.resolve().is_relative_to(tree.resolve()) for tree in trees):
        return folder
    said = "HORNBOOK_CACHE names a folder inside what is read, so nothing that is kept there was used"
    print(f"hornbook: {said}. Name one outside it.", file=sys.stderr)
    return None
