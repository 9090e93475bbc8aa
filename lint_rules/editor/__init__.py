"""The language server."""
