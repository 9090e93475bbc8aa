"""Safety: what children do that asks for a caution, drafts nobody has confirmed, and topics to clear with markets."""
