"""Reading what anglers call their tackle, and writing it as they said it.

``reading.read`` gives an item (``Described``) or a ``Question`` with its readings; ``writing.write`` its
words. A phrase goes through the modules from top to bottom, each with one kind of saying.

What is said round the thing:
    own             "part 'loop tyer'", a thing by a name of his own
    corrections     "0.10, sorry 0.11", slips put right; the figures, before they are read: said_figures
    beside, asides  "off the sale shelf", kept word for word as a note; the plain words of talk: everyday
    plainly         "a pound the pair", "15g / 20g", said again in plain words, by groups of rules
    dispensers      "7 way dispenser, SSG down to 8": every size
    tally           "had six, one lost, so 5": reckoned
    so_many         "got four", "one's bent": how many there are in a clause of its own
    remainders      "half a spool of", "used 3 of them"
    talk            "just got", "lost two", "for Saturday"
    prices, priced  "£2.99 each", "3 for a tenner", and of how many
    several         "18s and 20s", "40g x2 and 50g x1": several figures of one thing
    in_turn         "two hybrids and ten 18s to 0.10": unlike things, one at a time;
                    of_a_rig: what a rig is made of
    notes           "(note: ...)", "maker A"
What they share: turns, the pieces of their patterns, and described, what comes of it all.

The thing itself:
    tokens          the phrase cut into numbers with units, words and signs, by shorthand ("b/less") and
                    numbers ("point one two")
    packets         "2 packs of 10", and counting, "a dozen": every way to take numbers as how many
    tries           each kind's reader on each of these: lines, hooks, weights, floats, parts, with
                    hand (what of the tokens is left), lexicon and words, words_of_parts, and usual (what
                    goes without saying)
    asking          one reading, or the question which of several
    bare_numbers    a number that is no figure: so many?
    strange         what no kind understands: slips, strange words as a note, own things
    accounted       that no number was dropped
    clauses         what was not understood whole, taken clause by clause
    either          what was understood and may be meant otherwise: "hooks 20", "a few"
    apart           all of it read again, the amounts apart from the name, and a lot size by size: where the
                    two readings do not agree he is asked

What is read is kept and found again by rows (tables), sameness, kin (what stands for what) and looking.
"""
