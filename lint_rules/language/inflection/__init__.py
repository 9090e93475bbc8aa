"""How English words change their form: a form's dictionary form, a word's forms, and the irregular ones of both."""
