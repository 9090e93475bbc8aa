"""All rules: a sorted walk of ``lint_rules/rules/``, then the rules that a house has added by entry point."""

import importlib
import inspect
import pkgutil
from importlib.metadata import entry_points

import lint_rules.rules
from lint_rules.rule import RuleModule, from_module

ENTRY_POINT_GROUP = "hornbook.rules"


class BadRule(Exception):
    """A rule cannot be loaded: the run stops, since a check that is not there must not pass for a clean one."""


def rule_paths() -> list[str]:
    """Dotted names of the house's own rule modules, sorted."""
    names = []
    for family in pkgutil.iter_modules(lint_rules.rules.__path__):
        package = importlib.import_module(f"lint_rules.rules.{family.name}")
        names += [f"{package.__name__}.{module.name}" for module in pkgutil.iter_modules(package.__path__)]
    return sorted(names)


def load_rules() -> tuple[RuleModule, ...]:
    """Every rule, sorted by name.

    Raises BadRule when one cannot be imported, is not a rule, or has the name of another.
    """
    found: dict[str, RuleModule] = {}
    sources = [(path, path) for path in rule_paths()]
    sources += [(point.value, point.name) for point in sorted(entry_points(group=ENTRY_POINT_GROUP))]
    for path, known_as in sources:
        try:
            module = from_module(importlib.import_module(path))
        except Exception as error:
            raise BadRule(f"The rule {known_as} cannot be loaded: {type(error).__name__}: {error}") from error
        name = module.rule.name
        if name in found:
            raise BadRule(f"Two rules are called {name}. The second one is {known_as}.")
        found[name] = module
    return tuple(found[name] for name in sorted(found))


def first_line(module: RuleModule) -> str:
    """What a rule catches, in one line."""
    return " ".join(inspect.cleandoc(module.page).split("\n\n")[0].split())
