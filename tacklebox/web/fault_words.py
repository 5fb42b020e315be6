"""What the desk's fields and questions are called on the pages."""

LABELS = {
    "words": "What it is",
    "pack": "In one packet",
    "minimum": "Minimum",
    "on": "Day",
    "named_venue": "Venue",
    "copies": "Folder for copies",
}

# What a question of the desk is asked by here, as a sentence.
PAGES = {
    "care.audit": "Care of the box looks through the whole of it.",
    "care.rescue": "Care of the box can save what can be saved of it.",
    "care.restore": "Put a copy back: {}.",
    "settings.set": "The page of the box's care sets it.",
    "care.agree": "Look at both before you decide.",
    "output.replace": "",
    "stock.listed": "The stock page shows what there is.",
    "hooklengths.listed": "The wallet's page shows them.",
    "hooklengths.show": "The wallet's page shows {}.",
    "rigs.show": "The winder tray shows {}.",
    "venues.start": "The venues' page starts a first one.",
    "matches.start": "The matches' page starts a first one.",
    "debriefs.correct": "Its page corrects it.",
    "tie_plan.despite_rules": "To tie it for another water, tick “despite its rules”.",
    "labels.last": "The labels' page prints them.",
    "labels.last_on": "The labels' page prints them.",
    "stock.buy": "It is item {}: buy more of it, or give this one a name of its own.",
    "stock.count": "Count it and put the count right.",
    "stock.as_printed": "If the packet really says so, tick “as printed”.",
    "stock.not_counted": "Tick “count it no longer” if it comes by the tub.",
    "stock.unretire": "Its page puts it in use again.",
    "stock.reword_anew": "Tick “a new item in its place” to retire it and put a new one there.",
    "stock.level": "Its page sets its level.",
    "reels.add": "The reels' page adds one.",
    "reels.instead": "Tick “throw out what is on it”, or take it off first.",
    "reels.top_kit": "Add it as a top kit, below.",
    "reels.unload": "To take all of it off, throw it out.",
    "measure.of": "The item's page shows its readings.",
    "measure.as_read": "If that is what it read, tick “as read”.",
}
