"""The editor's report: one HTML file that needs no network, for the screen, the phone, the printer, a screen reader."""
