"""The protocol's manners where the library is short of them: every request is answered, and nonsense stops nothing.

LSP 3.17: a request that cannot be read has an error for an answer, else the editor waits for ever; one before
`initialize` has ServerNotInitialized; `initialize` comes once; a notification that nobody knows is ignored.
"""

import logging
from typing import Any

from lsprotocol import types
from pygls.exceptions import (
    JsonRpcException,
    JsonRpcInvalidRequest,
    JsonRpcMethodNotFound,
    JsonRpcServerNotInitialized,
)
from pygls.protocol import LanguageServerProtocol
from pygls.protocol.json_rpc import RPCMessage

_log = logging.getLogger(__name__)


class WireProtocol(LanguageServerProtocol):
    """The library's protocol, with its manners mended. Holds for pygls 2.1: `structure_message`, `handle_message`,
    `_send_response`, `_workspace` and `_shutdown` are the library's own."""

    @property
    def said_goodbye(self) -> bool:
        """Whether the editor asked for `shutdown`: the exit status hangs on it."""
        return bool(self._shutdown)

    def structure_message(self, data: dict[str, Any]) -> Any:
        """A message from JSON; None for one that cannot be read, which is answered here if it waits for an answer."""
        try:
            return super().structure_message(data)
        except JsonRpcException as error:
            method, number = data.get("method"), data.get("id")
            if method is not None and isinstance(number, int | str):
                known = isinstance(method, str) and self._known(method)
                said = error if known else JsonRpcMethodNotFound.of(str(method))
                self._send_response(number, error=said.to_response_error())
            return None

    def handle_message(self, message: RPCMessage | None) -> None:
        """Hand a message on, unless nobody may or can take it."""
        if message is None or not hasattr(message, "jsonrpc"):
            _log.warning("a message that cannot be read: %r", message)
            return
        method, number = getattr(message, "method", None), getattr(message, "id", None)
        refused = self._refused(method)
        if method is None or refused is None:
            super().handle_message(message)
        elif isinstance(number, int | str):
            self._send_response(number, error=refused.to_response_error())

    def _refused(self, method: str | None) -> JsonRpcException | None:
        if method == types.INITIALIZE:
            return JsonRpcInvalidRequest("already initialized") if self._workspace is not None else None
        if self._workspace is None and method != types.EXIT:
            return JsonRpcServerNotInitialized("initialize comes first")
        if self._shutdown and method != types.EXIT:
            return JsonRpcInvalidRequest("the server is shutting down")
        return None

    def _known(self, method: str) -> bool:
        return method in self.fm.features or method in self.fm.builtin_features
