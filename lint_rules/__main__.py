"""``python -m lint_rules`` is the command ``hornbook``."""

from lint_rules.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
