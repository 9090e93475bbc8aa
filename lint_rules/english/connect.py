"""Where the English checker is: the address of a server, or ``local`` for one of our own.

The address comes from the command line or the environment, never from a file of the manuscript: whoever sends in a unit
must not be able to have the book sent elsewhere.
"""

from contextlib import AbstractContextManager, nullcontext
from ipaddress import ip_address
from urllib.parse import urlsplit

from lint_rules.english.client import EnglishClient
from lint_rules.english.launcher import LocalEnglish
from lint_rules.language.service import English

LOCAL = "local"
_HOW = f"Give the address of a LanguageTool server, as in http://127.0.0.1:8081, or the word {LOCAL}."


def connect(address: str) -> AbstractContextManager[English]:
    """Give an English checker for the length of a run (a ``with``); one that was started here is ended with it.

    Nothing is asked or started before the first text is checked, so a run that finds all answers in the cache needs no
    server. Raises ValueError, with a message for the user, when ``address`` is no address.
    """
    if address.strip().casefold() == LOCAL:
        return LocalEnglish()
    url = server_url(address)
    return nullcontext(EnglishClient(url, direct=is_loopback(url)))


def server_url(address: str) -> str:
    """The base address of a server, without ``/v2/check``. Raises ValueError when ``address`` is none."""
    address = address.strip()
    try:
        parts = urlsplit(address if "//" in address else f"http://{address}")
        host, _ = parts.hostname, parts.port
    except ValueError as error:
        raise ValueError(f"“{address}” is not the address of a server. {_HOW}") from error
    if parts.scheme not in {"http", "https"} or not host or any(char.isspace() for char in address):
        raise ValueError(f"“{address}” is not the address of a server. {_HOW}")
    if parts.username is not None or parts.query or parts.fragment:
        raise ValueError(f"The address of the English checker holds more than a host, a port and a path. {_HOW}")
    path = parts.path.rstrip("/").removesuffix("/check").removesuffix("/v2")
    return f"{parts.scheme}://{parts.netloc}{path}"


def is_loopback(url: str) -> bool:
    """Say whether an address is on this machine: such a server is asked directly, past any proxy."""
    host = urlsplit(url).hostname or ""
    if host == "localhost" or host.endswith(".localhost"):
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
