"""Reading what anglers call their tackle, and writing it as they said it.

``read`` gives an item (``Described``) or a ``Question`` with its readings; ``write`` its words.
"""
