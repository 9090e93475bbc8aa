"""The commands: each reads its arguments, asks the core, and prints."""
