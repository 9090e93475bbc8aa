"""The activities a course lives on: enough classmates, fair sentences, clear sets, true sounds, art briefs."""
