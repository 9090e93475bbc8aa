"""The way out to an English checker: a LanguageTool server, the publisher's own or one started here for the run.

An outer room: nothing in the core imports it. ``connect`` is the only door.
"""
