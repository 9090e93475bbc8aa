"""The marked proof: each unit set as children and teachers will read it, with the queries beside their words."""
