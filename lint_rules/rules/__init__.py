"""The rules: one package a family, one module a rule."""
