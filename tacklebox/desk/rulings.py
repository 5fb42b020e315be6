"""What a venue's rules say, for whoever shows it: see ``matches.before.rulings``."""

from tacklebox.matches.before.rulings import About, InBox, Rule, Ruling, Verdict

__all__ = ["About", "InBox", "Rule", "Ruling", "Verdict"]
