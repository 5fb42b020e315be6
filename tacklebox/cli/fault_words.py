"""What the desk's fields and questions are called on the command line."""

# Fields that are arguments; every other field is the option of the same name.
ARGUMENTS = {
    "item": "ITEM",
    "topic": "TOPIC",
    "words": "what it is",
    "amount": "AMOUNT",
    "level": "LEVEL",
    "capacity": "CAPACITY",
    "shot": "SHOT",
    "change": "CHANGE",
    "reading": "READING",
    "number": "NUMBER",
    "recipe": "RECIPE",
    "match": "MATCH",
    "paper": "PAPER",
    "code": "CODE",
    "file": "FILE",
    "wanted": "RECIPE=COUNT",
    "reel": "REEL",
}

# What a question of the desk is asked by here, as a sentence.
COMMANDS = {
    "stock.add": "`tacklebox stock add` adds tackle.",
    "care.restore": "`tacklebox restore {}` puts a copy back.",
    "care.agree": "With --yes it is.",
    "stock.listed": "`tacklebox stock list` shows what there is.",
    "tie.because": "To tie it all the same, say why with --because; the reason is kept.",
    "rigs.listed": "`tacklebox rigs list` shows what is tied.",
    "venues.start": "`tacklebox venue start NAME` writes a first one.",
    "matches.start": "`tacklebox match start NAME --venue VENUE --on DAY` writes a first one.",
    "debriefs.correct": "To change what it says, add --correct.",
    "tie_plan.despite_rules": "To tie it for another water, add --despite-rules.",
    "labels.last": "Print them: `tacklebox labels --last --paper {} --to FILE.pdf`.",
    "output.replace": "With --replace it is written over.",
    "stock.of_kind": "`tacklebox stock list --kind {}` shows those.",
    "measure.pull": "Give it by --line, or pull it and record that with `tacklebox measure pull`.",
    "stock.buy": "Write `tacklebox stock buy {}` for more of it, or give this one its own --name.",
    "stock.count": "Count it and put the count right with `tacklebox stock count`.",
    "stock.as_printed": "If the packet really says so, add --as-printed.",
    "stock.level": "`tacklebox stock level {} low` says that it is low.",
    "reels.add": "`tacklebox reels add NAME` adds one.",
    "reels.instead": "Throw that out with --instead, or wind it back first: `reels unload --back`.",
    "reels.unload": "To take all of it off: `tacklebox reels unload`.",
    "measure.of": "`tacklebox measure list ITEM` shows the numbers.",
    "measure.as_read": "If that is what it read, add --as-read.",
}
