"""What a check hands back, for whoever shows it: see ``trade.judgement``."""

from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.law import Caution

__all__ = ["Caution", "Fact", "Judgement", "Outcome"]
